// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/service_view.h"

#include "app/setup_words.h"
#include "app/wording.h"

#include <algorithm>
#include <array>
#include <ranges>

namespace loopside::app {

namespace {

constexpr std::array<const char*, 4> outReasons = {"app.service.why.paper", "app.service.why.gauge",
                                                   "app.reason.no-elements", "app.reason.told-to"};

} // namespace

ServiceView::ServiceView(Tablet& tablet, QObject* parent)
    : QObject{parent}, tablet_{tablet}, alerts_{{"text", "state", "isOut", "mayLeave", "keyText"}}, reasons_{{"text"}}
{
    QList<RowModel::Row> rows;
    for (const char* reason : outReasons) {
        rows.append({tablet_.label(reason)});
    }
    reasons_.setRows(std::move(rows));
    connect(&tablet_, &Tablet::changed, this, &ServiceView::refresh);
    connect(&tablet_, &Tablet::shownChanged, this, &ServiceView::back);
    refresh();
}

/// Those that may leave first, then those that never do.
void ServiceView::list()
{
    listed_.clear();
    const auto* run = tablet_.shown();
    if (run == nullptr) {
        return;
    }
    listed_.push_back({run::AlertId::ReadingOverdue, std::nullopt});
    for (std::size_t stage = 1; stage <= run->setup.stages.size(); ++stage) {
        listed_.push_back({run::AlertId::StageNearLimit, static_cast<int>(stage)});
    }
    if (run->setup.target.turnovers) {
        listed_.push_back({run::AlertId::TargetTurnoversMet, std::nullopt});
    }
    listed_.push_back({run::AlertId::StageAtLimit, std::nullopt});
    listed_.push_back({run::AlertId::StopNow, std::nullopt});
}

void ServiceView::refresh()
{
    list();
    QList<RowModel::Row> rows;
    for (const Which& which : listed_) {
        rows.append(rowOf(which));
    }
    alerts_.setRows(std::move(rows));
    Q_EMIT changed();
}

QString ServiceView::nameOf(const Which& which) const
{
    return tablet_.say({"app.service.alert." + std::string(run::nameOf(which.alert)),
                        {{"stage", std::to_string(which.stage.value_or(0))}}});
}

/// "since 1:20 by Ines: readings are kept on paper".
QString ServiceView::outText(const Which& which) const
{
    for (const run::Fact& fact : std::views::reverse(tablet_.shown()->facts)) {
        const auto* serviced = std::get_if<run::AlertServiced>(&fact.effective);
        if (serviced != nullptr && serviced->alert == which.alert && serviced->stage == which.stage) {
            return tablet_.say({"app.service.out",
                                {{"time", hoursText(fact.entered).toStdString()},
                                 {"person", tablet_.nameOf(fact.header.person).toStdString()},
                                 {"why", serviced->why}}});
        }
    }
    return {};
}

RowModel::Row ServiceView::rowOf(const Which& which) const
{
    const bool mayLeave = run::mayLeaveService(which.alert);
    const run::Alert* alert = tablet_.shown()->alertOf(which.alert, which.stage);
    const bool isOut = alert != nullptr && alert->state == run::AlertState::OutOfService;
    const QString state = isOut ? outText(which)
        : mayLeave              ? tablet_.label("app.service.in")
                                : tablet_.label("app.service.stays");
    return {nameOf(which), state, isOut, mayLeave,
            mayLeave ? tablet_.label(isOut ? "app.service.put-back" : "app.service.take-out") : QString()};
}

bool ServiceView::canChange() const
{
    const auto* run = tablet_.shown();
    return run != nullptr && run->phase != run::Phase::Closed;
}

QString ServiceView::about() const
{
    return canChange() ? joined({toQt(tablet_.shown()->setup.tank.name), toQt(tablet_.shown()->setup.cart.name)})
                       : tablet_.label("app.service.no-run");
}

QString ServiceView::asked() const
{
    return asked_ ? nameOf(*asked_) : QString();
}

QString ServiceView::askedWhat() const
{
    return asked_ ? tablet_.say({"app.service.then." + std::string(run::nameOf(asked_->alert)), {}}) : QString();
}

void ServiceView::press(int row)
{
    if (row < 0 || row >= static_cast<int>(listed_.size())) {
        return;
    }
    const Which which = listed_[static_cast<std::size_t>(row)];
    const run::Alert* alert = tablet_.shown()->alertOf(which.alert, which.stage);
    if (alert != nullptr && alert->state == run::AlertState::OutOfService) {
        tablet_.say(run::Said(run::AlertServiced{which.alert, which.stage, true, {}}));
    } else if (run::mayLeaveService(which.alert)) {
        asked_ = which;
        Q_EMIT changed();
    }
}

void ServiceView::because(int reason)
{
    if (asked_ && reason >= 0 && reason < reasons_.rows().size()) {
        const Which which = *asked_;
        const std::string why = reasons_.rows()[reason].first().toString().toStdString();
        asked_.reset();
        tablet_.say(run::Said(run::AlertServiced{which.alert, which.stage, false, why}));
        Q_EMIT changed();
    }
}

void ServiceView::back()
{
    asked_.reset();
    Q_EMIT changed();
}

} // namespace loopside::app
