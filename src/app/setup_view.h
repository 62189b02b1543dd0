// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// Set up: tank, cart, oil temperature, target, area; then the run starts. Each choice shows what it comes to.
class SetupView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Rows: name, detail, isChosen.
    Q_PROPERTY(loopside::app::RowModel* tanks READ tanks CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* carts READ carts CONSTANT)
    Q_PROPERTY(loopside::app::RowModel* targets READ targets CONSTANT)
    /// What the choices come to. Rows: name, value.
    Q_PROPERTY(loopside::app::RowModel* plan READ plan CONSTANT)
    /// Permit and area points. Rows: text, isAnswered.
    Q_PROPERTY(loopside::app::RowModel* checks READ checks CONSTANT)
    Q_PROPERTY(QString oilText READ oilText NOTIFY changed)
    Q_PROPERTY(QString oilUnit READ oilUnit NOTIFY changed)
    Q_PROPERTY(bool counterOnSite READ counterOnSite NOTIFY changed)
    /// What keeps the run from starting, or empty.
    Q_PROPERTY(QString problem READ problem NOTIFY changed)
    Q_PROPERTY(bool canStart READ canStart NOTIFY changed)

public:
    explicit SetupView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* tanks() { return &tanks_; }
    [[nodiscard]] RowModel* carts() { return &carts_; }
    [[nodiscard]] RowModel* targets() { return &targets_; }
    [[nodiscard]] RowModel* plan() { return &plan_; }
    [[nodiscard]] RowModel* checks() { return &checks_; }
    [[nodiscard]] QString oilText() const { return oil_; }
    [[nodiscard]] QString oilUnit() const { return QStringLiteral("°C"); }
    [[nodiscard]] bool counterOnSite() const { return counterOnSite_; }
    [[nodiscard]] QString problem() const { return problem_; }
    [[nodiscard]] bool canStart() const { return problem_.isEmpty(); }

    Q_INVOKABLE void chooseTank(int row);
    Q_INVOKABLE void chooseCart(int row);
    Q_INVOKABLE void chooseTarget(int row);
    Q_INVOKABLE void toggleCounter();
    Q_INVOKABLE void answerCheck(int row);
    /// A key of the number pad for the oil temperature.
    Q_INVOKABLE void key(const QString& sign);
    Q_INVOKABLE void backspace();
    Q_INVOKABLE void start();

Q_SIGNALS:
    void changed();
    void started();

private:
    void refresh();
    void refreshOutcome();
    [[nodiscard]] std::optional<run::Setup> chosen() const;

    Tablet& tablet_;
    RowModel tanks_;
    RowModel carts_;
    RowModel targets_;
    RowModel plan_;
    RowModel checks_;
    int tank_ = -1;
    int cart_ = -1;
    int target_ = -1;
    QList<bool> answered_;
    QString oil_;
    bool counterOnSite_ = false;
    QString problem_;
};

} // namespace loopside::app
