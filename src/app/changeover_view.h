// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/checklist_view.h"
#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// The changeover of one stage, a step at a time. Each step is confirmed by the person who did it and kept in the
/// journal.
class ChangeoverView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(bool isOpen READ isOpen NOTIFY changed)
    Q_PROPERTY(int stage READ stage NOTIFY changed)
    Q_PROPERTY(QString title READ title NOTIFY changed)
    /// Rows: number, text, state (done, now, later), stateText.
    Q_PROPERTY(loopside::app::RowModel* steps READ steps CONSTANT)
    Q_PROPERTY(QString caution READ caution NOTIFY changed)
    /// "Stock of 3 µm glass: 4 elements." or empty where nothing is known of it.
    Q_PROPERTY(QString stockText READ stockText NOTIFY changed)
    /// The keys of the step that stands now. Rows: text, say, isMain.
    Q_PROPERTY(loopside::app::RowModel* keys READ keys CONSTANT)
    /// True while the no-pressure readings are asked for: the pad is in use.
    Q_PROPERTY(bool wantsGauges READ wantsGauges NOTIFY changed)
    /// True while the points of the open housing are asked for, and the points.
    Q_PROPERTY(bool wantsLook READ wantsLook NOTIFY changed)
    Q_PROPERTY(loopside::app::ChecklistView* points READ points CONSTANT)
    /// "Still under pressure, or a bad gauge. Find out which before you open." or empty.
    Q_PROPERTY(QString warning READ warning NOTIFY changed)

public:
    explicit ChangeoverView(Tablet& tablet, QObject* parent = nullptr);

    /// Whether it is under way at the run on the screen.
    [[nodiscard]] bool isOpen() const;
    [[nodiscard]] int stage() const { return stage_; }
    [[nodiscard]] QString title() const;
    [[nodiscard]] RowModel* steps() { return &steps_; }
    [[nodiscard]] RowModel* keys() { return &keys_; }
    [[nodiscard]] QString caution() const;
    [[nodiscard]] QString stockText() const;
    [[nodiscard]] bool wantsGauges() const;
    [[nodiscard]] bool wantsLook() const;
    [[nodiscard]] ChecklistView* points() { return &points_; }
    [[nodiscard]] QString warning() const { return warning_; }

    /// For the run on the screen. Goes on where it was left, as long as the pump stayed off.
    void open(int stage);
    Q_INVOKABLE void press(const QString& say);
    /// Leaves it as it stands; what was confirmed stays in the journal.
    Q_INVOKABLE void leave();
    /// A set was logged on the pad.
    void gaugesLogged();

Q_SIGNALS:
    void changed();
    void finished();

private:
    enum class Step
    {
        PumpOff,
        Valves,
        Vent,
        Gauges,
        Elements,
        Look,
        Restart,
        Done
    };

    void go(Step step);
    [[nodiscard]] Step stepReached(int stage) const;
    void refresh();
    void showPoints();
    void lookedAtAll();
    void confirm(const std::string& check, const std::string& say);
    void elementsChanged(int elements);
    [[nodiscard]] QString pressureLeft() const;

    Tablet& tablet_;
    RowModel steps_;
    RowModel keys_;
    ChecklistView points_;
    Id run_;
    int stage_ = 0;
    Step step_ = Step::PumpOff;
    QString warning_;
};

} // namespace loopside::app
