// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/alert_view.h"

#include "app/as_shown.h"
#include "app/caution_text.h"
#include "app/waiting_alerts.h"
#include "app/wording.h"
#include "words/told.h"

#include <algorithm>
#include <array>

namespace loopside::app {

namespace {

constexpr auto silenceFor = std::chrono::minutes(2);
constexpr std::size_t reasonsShown = 3; // as many lines as there is room for

using ReasonIds = std::array<const char*, 4>;
constexpr ReasonIds overLimit = {"app.reason.no-elements", "app.reason.told-to", "app.reason.nearly-done",
                                 "app.reason.other"};
constexpr ReasonIds whileCold = {"app.reason.slowed", "app.reason.warming", "app.reason.told-to", "app.reason.other"};
constexpr ReasonIds afterStop = {"app.reason.misread", "app.reason.looked", "app.reason.told-to", "app.reason.other"};

} // namespace

AlertView::AlertView(Tablet& tablet, QObject* parent) : QObject{parent}, tablet_{tablet}, reasons_{{"text"}}
{
    connect(&tablet_, &Tablet::changed, this, &AlertView::refresh);
    refresh();
}

/// The gravest alert of any run that covers the screen; which tank waits behind it.
void AlertView::refresh()
{
    const std::optional<run::Alert> before = alert_;
    std::vector<WaitingAlert> waiting = waitingAlerts(tablet_.state(),
                                                      tablet_.shown() == nullptr ? Id{} : tablet_.shown()->id);
    std::erase_if(waiting, [](const WaitingAlert& one) { return !takesTheScreen(*one.alert); });
    alert_.reset();
    more_.clear();
    if (!waiting.empty()) {
        alert_ = *waiting.front().alert;
        run_ = waiting.front().run;
    }
    if (waiting.size() > 1) {
        const run::RunState* other = tablet_.state().runOf(waiting[1].run);
        more_ = tablet_.say({"app.alert.more", {{"tank", other->setup.tank.name}}});
    }
    if (!before || !alert_ || before->id != alert_->id || before->ground != alert_->ground) {
        asksWhy_ = false;
    }
    refreshReasons();
    Q_EMIT changed();
}

void AlertView::refreshReasons()
{
    QList<RowModel::Row> rows;
    for (const char* reason : isStop() ? afterStop : isCold() ? whileCold : overLimit) {
        rows.append({tablet_.label(reason)});
    }
    reasons_.setRows(std::move(rows));
}

bool AlertView::isStop() const
{
    return alert_ && alert_->id == run::AlertId::StopNow;
}

bool AlertView::isCold() const
{
    return told("advice") == QStringLiteral("cold");
}

const run::Finding* AlertView::finding() const
{
    if (!isStop() || run() == nullptr) {
        return nullptr;
    }
    const auto& findings = tablet_.standing(*run()).findings;
    const auto found = std::find_if(findings.begin(), findings.end(), [&](const run::Finding& one) {
        return toQt(one.id) == told("finding") && one.stage == alert_->stage;
    });
    return found == findings.end() ? nullptr : &*found;
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

QString AlertView::sayTold(const std::string& before, const std::string& after) const
{
    const std::string id = before + told("finding").toStdString() + after;
    const std::string stage = std::to_string(alert_->stage.value_or(0));
    return tablet_.words().has(id) ? tablet_.say({id, {{"stage", stage}}}) : QString();
}

QString AlertView::readText() const
{
    const auto* ground = run() == nullptr ? nullptr : run()->factOf(alert_->ground);
    return ground == nullptr ? QString()
                             : tablet_.say({"app.alert.read",
                                            {{"time", clockText(ground->header.entered).toStdString()},
                                             {"person", tablet_.nameOf(ground->header.person).toStdString()}}});
}

QString AlertView::level() const
{
    return isStop() ? QStringLiteral("stop") : QStringLiteral("change");
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
    if (!isStop()) {
        return tablet_.say(
            {words::isOverLimit(alert_->told) ? "app.alert.stage-over-limit" : "app.alert.stage-at-limit",
             {{"stage", std::to_string(alert_->stage.value_or(0))}}});
    }
    if (const run::Finding* found = finding()) {
        return asShown(words::findingSentence(tablet_.words(), *found));
    }
    const QString brief = sayTold("app.stop.", "");
    return brief.isEmpty() ? tablet_.label("app.alert.stop-now") : brief;
}

QString AlertView::evidence() const
{
    if (!alert_) {
        return {};
    }
    if (!isStop()) {
        const int stage = alert_->stage.value_or(0);
        return tablet_.say({"app.alert.evidence",
                            {{"upper", "G" + std::to_string(stage)},
                             {"lower", "G" + std::to_string(stage + 1)},
                             {"drop", told("drop").toStdString()},
                             {"limit", told("limit").toStdString()},
                             {"read", readText().toStdString()}}});
    }
    QStringList lines;
    if (const run::Finding* found = finding()) {
        for (std::size_t i = 0; i < std::min(reasonsShown, found->because.size()); ++i) {
            lines.append(tablet_.say(found->because[i]));
        }
    } else {
        lines.append(tablet_.label(alert_->asToldThen ? "alert.as-told-then" : "app.alert.over"));
    }
    lines.append(readText());
    return lines.join(QLatin1Char('\n'));
}

QString AlertView::advice() const
{
    if (!alert_) {
        return {};
    }
    if (isStop()) {
        const run::Finding* found = finding();
        return found != nullptr ? tablet_.say(found->act) : sayTold("finding.", ".do");
    }
    if (isCold()) {
        return tablet_.label("app.alert.cold");
    }
    const std::string elements = words::elementsText(tablet_.words(), told("elements").toInt());
    return tablet_.say({"app.alert.change", {{"elements", elements}, {"stage", told("stage").toStdString()}}});
}

bool AlertView::offersChange() const
{
    return !isStop() && !isCold();
}

/// Where the advice names the bypass mode, and the cart is not in it.
bool AlertView::offersBypass() const
{
    return isCold() && run() != nullptr && tablet_.standing(*run()).mode == run::Mode::Filtering;
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
    if (!alert_) {
        return {};
    }
    if (isStop()) {
        const run::Finding* found = finding();
        return found != nullptr && !found->hazard.id.empty() ? tablet_.say(found->hazard)
                                                             : tablet_.label("hazard.site");
    }
    const run::RunState* alerting = run();
    return cautionText(tablet_, run::Act::Isolate,
                       alerting == nullptr ? run::Circumstances{}
                                           : run::circumstancesOf(*alerting, tablet_.standing(*alerting)));
}

QString AlertView::note() const
{
    return tablet_.label(isStop() || offersBypass() ? "app.alert.only-records" : "app.alert.turnovers-stay");
}

QString AlertView::moreText() const
{
    return more_;
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
    if (acknowledge(tablet_.words().say("app.alert.did-change"))) {
        tablet_.show(run);
        Q_EMIT changeoverWanted(stage);
    }
}

void AlertView::stopped()
{
    did(run::Mode::Stopped, "app.alert.did-stop");
}

void AlertView::bypassed()
{
    if (offersBypass()) {
        did(run::Mode::Bypassing, "app.alert.did-bypass");
    }
}

/// What was done is said first: if the disk takes no more, the alert stays up.
void AlertView::did(run::Mode mode, const char* why)
{
    if (!alert_) {
        return;
    }
    const run::Alert alert = *alert_;
    const Id run = run_;
    const bool wasShown = tablet_.shown() != nullptr && tablet_.shown()->id == run;
    const bool isNew = tablet_.standing(*tablet_.state().runOf(run)).mode != mode;
    if (isNew && !tablet_.submit(run::Say{run, run::ModeChanged{mode, std::nullopt}})) {
        return;
    }
    if (tablet_.state().runOf(run)->alertOf(alert.id, alert.stage) != nullptr
        && !tablet_.submit(run::Say{run, run::AlertAcknowledged{alert.id, alert.stage, tablet_.words().say(why)}})) {
        return;
    }
    tablet_.show(run);
    Q_EMIT modeRecorded(wasShown);
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
