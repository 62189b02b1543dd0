// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

#include <QObject>
#include <QStringList>
#include <QtQml/qqmlregistration.h>

namespace loopside::app {

/// The alert that takes the whole screen until somebody acts: stop-now, or a stage at its change limit, of any open
/// run.
class AlertView : public QObject
{
    Q_OBJECT
    QML_ELEMENT
    QML_UNCREATABLE("made by the program")

    Q_PROPERTY(bool isUp READ isUp NOTIFY changed)
    /// change (yellow) or stop (red).
    Q_PROPERTY(QString level READ level NOTIFY changed)
    /// "Press hydraulic unit · Cart B".
    Q_PROPERTY(QString place READ place NOTIFY changed)
    Q_PROPERTY(QString title READ title NOTIFY changed)
    /// "G1 − G2 = 25.5 psi · limit 25 psi · read 14:18 by R."; of stop-now the reasons of its finding, a line each.
    Q_PROPERTY(QString evidence READ evidence NOTIFY changed)
    Q_PROPERTY(QString advice READ advice NOTIFY changed)
    Q_PROPERTY(QStringList steps READ steps NOTIFY changed)
    Q_PROPERTY(QString caution READ caution NOTIFY changed)
    Q_PROPERTY(QString note READ note NOTIFY changed)
    /// "Another alert waits: Winder gearbox"; empty if none does.
    Q_PROPERTY(QString moreText READ moreText NOTIFY changed)
    /// False where the advice is not to change (cold oil, stop-now).
    Q_PROPERTY(bool offersChange READ offersChange NOTIFY changed)
    /// The advice names the bypass mode, and the cart filters.
    Q_PROPERTY(bool offersBypass READ offersBypass NOTIFY changed)
    /// False once its ground is over: then it wants to be acknowledged, not silenced.
    Q_PROPERTY(bool canBeSilenced READ canBeSilenced NOTIFY changed)
    /// The reasons for running on. Rows: text.
    Q_PROPERTY(loopside::app::RowModel* reasons READ reasons CONSTANT)
    Q_PROPERTY(bool asksWhy READ asksWhy NOTIFY changed)

public:
    explicit AlertView(Tablet& tablet, QObject* parent = nullptr);

    [[nodiscard]] bool isUp() const { return alert_.has_value(); }
    [[nodiscard]] QString level() const;
    [[nodiscard]] QString place() const;
    [[nodiscard]] QString title() const;
    [[nodiscard]] QString evidence() const;
    [[nodiscard]] QString advice() const;
    [[nodiscard]] QStringList steps() const;
    [[nodiscard]] QString caution() const;
    [[nodiscard]] QString note() const;
    [[nodiscard]] QString moreText() const;
    [[nodiscard]] bool offersChange() const;
    [[nodiscard]] bool offersBypass() const;
    [[nodiscard]] bool canBeSilenced() const { return alert_ && alert_->state == run::AlertState::Unacknowledged; }
    [[nodiscard]] RowModel* reasons() { return &reasons_; }
    [[nodiscard]] bool asksWhy() const { return asksWhy_; }

    /// Acknowledges, shows that run and asks for the changeover of its stage.
    Q_INVOKABLE void changeNow();
    /// Keeps that a person stopped the pump, acknowledges and shows that run.
    Q_INVOKABLE void stopped();
    /// Keeps that a person set the cart's valve to bypass, acknowledges and shows that run.
    Q_INVOKABLE void bypassed();
    Q_INVOKABLE void keepRunning();
    /// Acknowledges with the reason of that row.
    Q_INVOKABLE void because(int reason);
    Q_INVOKABLE void back();
    /// Shelves it for two minutes.
    Q_INVOKABLE void silence();

Q_SIGNALS:
    void changed();
    void changeoverWanted(int stage);
    /// A mode was recorded for the shown run; `wasShown` if that run was shown before, too.
    void modeRecorded(bool wasShown);

private:
    void refresh();
    void refreshReasons();
    [[nodiscard]] bool isStop() const;
    [[nodiscard]] bool isCold() const;
    [[nodiscard]] const run::RunState* run() const { return tablet_.state().runOf(run_); }
    /// What stop-now told of, while it lasts; null once it is over.
    [[nodiscard]] const run::Finding* finding() const;
    [[nodiscard]] QString told(std::string_view name) const;
    /// A sentence of the finding that was told, with nothing but its stage in it.
    [[nodiscard]] QString sayTold(const std::string& before, const std::string& after) const;
    /// "read 14:18 by R."
    [[nodiscard]] QString readText() const;
    bool acknowledge(const std::string& why);
    void did(run::Mode mode, const char* why);

    Tablet& tablet_;
    RowModel reasons_;
    Id run_ = {};
    std::optional<run::Alert> alert_ = {};
    QString more_;
    bool asksWhy_ = false;
};

} // namespace loopside::app
