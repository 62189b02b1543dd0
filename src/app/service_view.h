// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

#include <vector>

namespace loopside::app {

/// Which alerts of the shown run are in service: taking one out, with a reason, and putting it back.
class ServiceView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    /// Rows: text, state (since when, by whom and why it is out, or why it has to stay), isOut, mayLeave, keyText.
    Q_PROPERTY(loopside::app::RowModel* alerts READ alerts CONSTANT)
    /// Of which run, or that none is open on the screen.
    Q_PROPERTY(QString about READ about NOTIFY changed)
    Q_PROPERTY(bool canChange READ canChange NOTIFY changed)
    /// Reasons to take one out. Rows: text.
    Q_PROPERTY(loopside::app::RowModel* reasons READ reasons CONSTANT)
    /// Asked before an alert goes out of service: which one, and what that means. Empty: nothing is asked.
    Q_PROPERTY(QString asked READ asked NOTIFY changed)
    Q_PROPERTY(QString askedWhat READ askedWhat NOTIFY changed)

public:
    explicit ServiceView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] RowModel* alerts() { return &alerts_; }
    [[nodiscard]] QString about() const;
    [[nodiscard]] bool canChange() const;
    [[nodiscard]] RowModel* reasons() { return &reasons_; }
    [[nodiscard]] QString asked() const;
    [[nodiscard]] QString askedWhat() const;

    /// The key of a row: puts it back at once, or asks why it goes out.
    Q_INVOKABLE void press(int row);
    /// Takes the alert that was asked about out of service, for the reason of that row.
    Q_INVOKABLE void because(int reason);
    Q_INVOKABLE void back();

Q_SIGNALS:
    void changed();

private:
    struct Which
    {
        run::AlertId alert;
        std::optional<int> stage;
    };

    void refresh();
    void list();
    [[nodiscard]] RowModel::Row rowOf(const Which& which) const;
    [[nodiscard]] QString nameOf(const Which& which) const;
    [[nodiscard]] QString outText(const Which& which) const;

    Tablet& tablet_;
    RowModel alerts_;
    RowModel reasons_;
    std::vector<Which> listed_;
    std::optional<Which> asked_;
};

} // namespace loopside::app
