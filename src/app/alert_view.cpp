// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/alert_view.h"

#include "app/wording.h"
#include "run/alert.h"
#include "words/told.h"

#include <algorithm>

namespace loopside::app {

namespace {

constexpr auto silenceFor = std::chrono::minutes(2);

bool takesTheScreen(const run::Alert& alert)
{
    const bool isGrave = alert.id == run::AlertId::StageAtLimit || alert.id == run::AlertId::StopNow;
    return isGrave && alert.state == run::AlertState::Unacknowledged;
}

} // namespace

AlertView::AlertView(Tablet& tablet, QObject* parent) : QObject{parent}, tablet_{tablet}, reasons_{{"text"}}
{
    QList<RowModel::Row> rows;
    for (const char* reason :
         {"app.reason.no-elements", "app.reason.told-to", "app.reason.nearly-done", "app.reason.other"}) {
        rows.append({tablet_.label(reason)});
    }
    reasons_.setRows(std::move(rows));
    connect(&tablet_, &Tablet::changed, this, &AlertView::refresh);
    refresh();
}

/// The gravest alert of any run; the shown run's first.
void AlertView::refresh()
{
    const std::optional<run::Alert> before = alert_;
    alert_.reset();
    for (const auto& [id, run] : tablet_.state().runs) {
        for (const run::Alert& alert : run.alerts) {
            const bool isGraver = !alert_ || run::priorityOf(alert.id) > run::priorityOf(alert_->id);
            const bool isShown = tablet_.shown() != nullptr && tablet_.shown()->id == id;
            if (takesTheScreen(alert) && (isGraver || isShown)) {
                alert_ = alert;
                run_ = id;
            }
        }
    }
    if (!before || !alert_ || before->ground != alert_->ground) {
        asksWhy_ = false;
    }
    Q_EMIT changed();
}

QString AlertView::told(std::string_view name) const
{
    if (alert_) {
        for (const auto& [key, value] : alert_->told) {
            if (key == name) {
                return toQt(value);
            }
        }
    }
    return {};
}

QString AlertView::level() const
{
    return alert_ && alert_->id == run::AlertId::StopNow ? QStringLiteral("stop") : QStringLiteral("change");
}

QString AlertView::place() const
{
    return told("tank") + QStringLiteral(" · ") + told("cart");
}

QString AlertView::title() const
{
    if (!alert_) {
        return {};
    }
    return tablet_.say(
        {"app.alert." + std::string(run::nameOf(alert_->id)), {{"stage", std::to_string(alert_->stage.value_or(0))}}});
}

QString AlertView::evidence() const
{
    if (!alert_ || !alert_->stage) {
        return {};
    }
    const auto* run = tablet_.state().runOf(run_);
    const auto* ground = run == nullptr ? nullptr : run->factOf(alert_->ground);
    const int stage = *alert_->stage;
    return tablet_.say({"app.alert.evidence",
                        {{"upper", "G" + std::to_string(stage)},
                         {"lower", "G" + std::to_string(stage + 1)},
                         {"drop", told("drop").toStdString()},
                         {"limit", told("limit").toStdString()},
                         {"time", ground == nullptr ? "" : clockText(ground->header.entered).toStdString()},
                         {"person", ground == nullptr ? "" : tablet_.nameOf(ground->header.person).toStdString()}}});
}

QString AlertView::advice() const
{
    if (!alert_) {
        return {};
    }
    if (!offersChange()) {
        return tablet_.label("app.alert.cold");
    }
    const std::string elements = words::elementsText(tablet_.words(), told("elements").toInt());
    return tablet_.say({"app.alert.change", {{"elements", elements}, {"stage", told("stage").toStdString()}}});
}

bool AlertView::offersChange() const
{
    return told("advice") != QStringLiteral("cold");
}

QStringList AlertView::steps() const
{
    if (!offersChange()) {
        return {};
    }
    return {tablet_.label("app.step.pump-off"), tablet_.label("app.step.valves"), tablet_.label("app.step.vent"),
            tablet_.label("app.step.gauges")};
}

QString AlertView::caution() const
{
    const auto* run = tablet_.state().runOf(run_);
    const auto* last = run == nullptr ? nullptr : tablet_.standing(*run).lastReading;
    if (last == nullptr || !last->reading->oil) {
        return tablet_.label("app.caution.leak");
    }
    return tablet_.say({"app.caution.hot-and-leak", {{"oil", last->reading->oil->toText()}}});
}

QString AlertView::staysText() const
{
    return tablet_.label("app.alert.turnovers-stay");
}

bool AlertView::acknowledge(const std::string& why)
{
    return alert_ && tablet_.submit(run::Say{run_, run::AlertAcknowledged{alert_->id, alert_->stage, why}});
}

void AlertView::changeNow()
{
    if (!alert_ || !alert_->stage) {
        return;
    }
    const int stage = *alert_->stage;
    const Id run = run_;
    if (acknowledge("changing elements now")) {
        tablet_.show(run);
        Q_EMIT changeoverWanted(stage);
    }
}

void AlertView::keepRunning()
{
    asksWhy_ = true;
    Q_EMIT changed();
}

void AlertView::because(int reason)
{
    if (reason >= 0 && reason < reasons_.rows().size()) {
        acknowledge(reasons_.rows()[reason].first().toString().toStdString());
    }
}

void AlertView::back()
{
    asksWhy_ = false;
    Q_EMIT changed();
}

void AlertView::silence()
{
    if (alert_) {
        tablet_.submit(
            run::Say{run_, run::AlertShelved{alert_->id, alert_->stage, "silenced on the tablet", silenceFor}});
    }
}

} // namespace loopside::app
