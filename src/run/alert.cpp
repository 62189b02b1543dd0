// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/alert.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace loopside::run {

namespace {

using units::Pressure;

constexpr int nearPercent = 80;
constexpr double deadbandOfLimit = 0.02;
constexpr double turnoverTolerance = 1e-9; // rounding of a sum, not a concession

std::string minutesText(RunTime time)
{
    return std::to_string(std::chrono::duration_cast<std::chrono::minutes>(time).count());
}

/// Compares one run's alerts with how it stands.
class Watch
{
public:
    Watch(const RunState& run, const Standing& standing, const std::optional<TurnoverBand>& together)
        : run_{run}, standing_{standing}, turnovers_{towardsTarget(standing.credit.turnovers, together)}
    {
    }

    std::vector<Event> changes()
    {
        for (std::size_t i = 0; i < run_.setup.stages.size(); ++i) {
            if (run_.setup.stages[i].changeLimit) {
                watchStage(i, *run_.setup.stages[i].changeLimit);
            }
        }
        if (run_.phase != Phase::Closed) {
            watchTarget();
        }
        watchOverdue();
        watchStops();
        bringBackTheShelved();
        return std::move(changes_);
    }

private:
    /// The last set that shows stage `i` with the elements it has now.
    [[nodiscard]] const Moment* lastSetOf(std::size_t i) const
    {
        for (auto moment = standing_.moments.rbegin(); moment != standing_.moments.rend(); ++moment) {
            if (moment->reading != nullptr && moment->raw[i]) {
                return moment->at >= standing_.moments.back().elementsSince[i] && !changedAfter(i, *moment) ? &*moment
                                                                                                            : nullptr;
            }
        }
        return nullptr;
    }

    /// Whether elements of stage `i` were changed after `moment`, also where both stand at the same instant.
    [[nodiscard]] bool changedAfter(std::size_t i, const Moment& moment) const
    {
        return standing_.moments.back().elementsSince[i] != moment.elementsSince[i];
    }

    void watchStage(std::size_t i, const TypedPressure& limit)
    {
        const int stage = static_cast<int>(i) + 1;
        const Moment* set = lastSetOf(i);
        if (set == nullptr) {
            if (allElementsNew(i)) {
                clear(AlertId::StageAtLimit, stage);
                clear(AlertId::StageNearLimit, stage);
            }
            return;
        }
        const StageDrop drop = dropsAt(*set, run_)[i];
        const Pressure band = deadband(drop, limit);
        const bool mayReturn = set->mode == Mode::Filtering && !isHeldBack(*set->fact, standing_.questions);
        const bool atReturns = mayReturn && drop.raw->value() < limit.value() - band;
        const bool nearReturns = mayReturn && drop.raw->value() < limit.value() * (nearPercent / 100.0) - band;
        if (atReturns) {
            clear(AlertId::StageAtLimit, stage);
        }
        if (nearReturns) {
            clear(AlertId::StageNearLimit, stage);
        }
        if (reaches(*drop.raw, limit)) {
            raise(AlertId::StageAtLimit, stage, set->fact->header.id, toldOfStage(i, drop));
        } else if (reaches(*drop.raw, limit, nearPercent) && (atReturns || !stands(AlertId::StageAtLimit, stage))) {
            raise(AlertId::StageNearLimit, stage, set->fact->header.id, toldOfStage(i, drop));
        }
    }

    static Pressure deadband(const StageDrop& drop, const TypedPressure& limit)
    {
        return std::max(drop.reading.value_or(Pressure{}), limit.value() * deadbandOfLimit);
    }

    [[nodiscard]] bool allElementsNew(std::size_t i) const
    {
        for (auto moment = standing_.moments.rbegin(); moment != standing_.moments.rend(); ++moment) {
            const auto* changed = std::get_if<ElementsChanged>(&moment->fact->effective);
            if (changed != nullptr && !moment->fact->struck && changed->stage == static_cast<int>(i) + 1) {
                return changed->elements >= run_.setup.stages[i].elements;
            }
        }
        return false;
    }

    [[nodiscard]] std::vector<Message::Argument> toldOfStage(std::size_t i, const StageDrop& drop) const
    {
        const StageRecord& stage = run_.setup.stages[i];
        std::vector<Message::Argument> told = place();
        told.emplace_back("stage", std::to_string(i + 1));
        told.emplace_back("elements", std::to_string(stage.elements));
        told.emplace_back("drop", drop.raw->toText());
        told.emplace_back("limit", stage.changeLimit->toText());
        told.emplace_back("advice", isColdNotLoaded(drop) ? "cold" : "change");
        return told;
    }

    [[nodiscard]] std::vector<Message::Argument> place() const
    {
        return {{"tank", run_.setup.tank.name}, {"cart", run_.setup.cart.name}};
    }

    void watchTarget()
    {
        if (!run_.setup.target.turnovers) {
            return;
        }
        const double target = run_.setup.target.turnovers->toDouble();
        const TurnoverBand& band = turnovers_;
        if (!meetsTarget(band, run_.setup.target)) {
            clear(AlertId::TargetTurnoversMet, std::nullopt);
            return;
        }
        if (stands(AlertId::TargetTurnoversMet, std::nullopt) || run_.phase == Phase::CloseOut) {
            return;
        }
        const double minutesPerTurnover =
            (run_.setup.tank.volume.value() / run_.setup.cart.flow.value()).in(units::minute);
        auto told = place();
        told.emplace_back("target", run_.setup.target.turnovers->toText());
        told.emplace_back("best", fixed(band.best, 1));
        told.emplace_back("low", fixed(band.low, 1));
        told.emplace_back("minutes", fixed(std::ceil(std::max(0.0, target - band.low) * minutesPerTurnover), 0));
        raise(AlertId::TargetTurnoversMet, std::nullopt, standing_.moments.back().fact->header.id, std::move(told));
    }

    void watchOverdue()
    {
        const bool isOverdue = standing_.due && standing_.now >= *standing_.due + overdueAfter;
        if (!isOverdue) {
            clear(AlertId::ReadingOverdue, std::nullopt);
            return;
        }
        const RunTime since = standing_.lastReading != nullptr ? standing_.lastReading->at : RunTime{0};
        auto told = place();
        told.emplace_back("minutes", minutesText(standing_.now - since));
        raise(AlertId::ReadingOverdue, std::nullopt, Id{}, std::move(told));
    }

    /// The worst finding that asks to stop the pump, for each stage that has one and for the cart.
    [[nodiscard]] std::vector<const Finding*> stopsBySubject() const
    {
        std::vector<const Finding*> stops;
        for (const Finding& finding : standing_.findings) { // ranked: the worst comes first
            const bool isSaid = std::any_of(stops.begin(), stops.end(),
                                            [&](const Finding* stop) { return stop->stage == finding.stage; });
            if (finding.level == FindingLevel::Stop && !isSaid) {
                stops.push_back(&finding);
            }
        }
        return stops;
    }

    void watchStops()
    {
        const auto stops = stopsBySubject();
        for (const Finding* stop : stops) {
            if (isOfAnotherStop(*stop)) {
                clear(AlertId::StopNow, stop->stage);
                changes_.emplace_back(raisedFor(*stop));
            } else if (!stands(AlertId::StopNow, stop->stage)) {
                changes_.emplace_back(raisedFor(*stop));
            }
        }
        for (const Alert& alert : run_.alerts) {
            const bool stillHolds = std::any_of(stops.begin(), stops.end(),
                                                [&](const Finding* stop) { return stop->stage == alert.stage; });
            if (alert.id == AlertId::StopNow && !stillHolds) {
                clear(alert.id, alert.stage);
            }
        }
    }

    [[nodiscard]] AlertRaised raisedFor(const Finding& stop) const
    {
        auto told = place();
        told.emplace_back("finding", std::string(stop.id));
        if (stop.stage) {
            told.emplace_back("stage", std::to_string(*stop.stage));
        }
        return {AlertId::StopNow, stop.stage, standing_.diagnosis.sets.back().moment->fact->header.id, std::move(told)};
    }

    /// Whether the alert that stands was raised by another finding, one that holds no more.
    [[nodiscard]] bool isOfAnotherStop(const Finding& stop) const
    {
        const Alert* alert = run_.alertOf(AlertId::StopNow, stop.stage);
        if (alert == nullptr || alert->state == AlertState::Returned) {
            return false;
        }
        const auto told = std::find_if(alert->told.begin(), alert->told.end(),
                                       [](const Message::Argument& argument) { return argument.first == "finding"; });
        return told != alert->told.end()
            && std::none_of(standing_.findings.begin(), standing_.findings.end(), [&](const Finding& finding) {
                   return finding.id == told->second && finding.stage == stop.stage;
               });
    }

    /// Standing in the sense of its ground: raised and not returned, or out of service and never to be raised.
    [[nodiscard]] bool stands(AlertId id, std::optional<int> stage) const
    {
        const Alert* alert = run_.alertOf(id, stage);
        return alert != nullptr && alert->state != AlertState::Returned;
    }

    [[nodiscard]] bool isOffTheShelf(const Alert& alert) const
    {
        return alert.state == AlertState::Shelved && alert.shelvedUntil && standing_.now >= *alert.shelvedUntil;
    }

    /// What neither returned nor was told anew is told again as it was told before.
    void bringBackTheShelved()
    {
        for (const Alert& alert : run_.alerts) {
            const bool isDealtWith = std::any_of(changes_.begin(), changes_.end(), [&](const Event& change) {
                const auto* raised = std::get_if<AlertRaised>(&change);
                const auto* cleared = std::get_if<AlertCleared>(&change);
                return (raised != nullptr && raised->alert == alert.id && raised->stage == alert.stage)
                    || (cleared != nullptr && cleared->alert == alert.id && cleared->stage == alert.stage);
            });
            if (isOffTheShelf(alert) && !isDealtWith) {
                changes_.emplace_back(AlertRaised{alert.id, alert.stage, alert.ground, alert.told});
            }
        }
    }

    void raise(AlertId id, std::optional<int> stage, const Id& ground, std::vector<Message::Argument> told)
    {
        const Alert* alert = run_.alertOf(id, stage);
        if (!stands(id, stage) || isOffTheShelf(*alert)) {
            changes_.emplace_back(AlertRaised{id, stage, ground, std::move(told)});
        }
    }

    void clear(AlertId id, std::optional<int> stage)
    {
        const Alert* alert = run_.alertOf(id, stage);
        if (stands(id, stage) && alert->state != AlertState::OutOfService) {
            changes_.emplace_back(AlertCleared{id, stage});
        }
    }

    const RunState& run_;
    const Standing& standing_;
    TurnoverBand turnovers_;
    std::vector<Event> changes_;
};

} // namespace

bool meetsTarget(const TurnoverBand& turnovers, const Target& target)
{
    return target.turnovers && turnovers.best + turnoverTolerance >= target.turnovers->toDouble();
}

Priority priorityOf(AlertId alert)
{
    switch (alert) {
    case AlertId::StopNow:
        return Priority::High;
    case AlertId::StageAtLimit:
    case AlertId::ReadingOverdue:
        return Priority::Medium;
    case AlertId::StageNearLimit:
    case AlertId::TargetTurnoversMet:
    case AlertId::TargetCodeMet:
        break;
    }
    return Priority::Low;
}

std::string_view nameOf(Priority priority)
{
    constexpr std::array<std::string_view, 3> names = {"low", "medium", "high"};
    return names.at(static_cast<std::size_t>(priority));
}

TurnoverBand towardsTarget(const TurnoverBand& own, const std::optional<TurnoverBand>& together)
{
    return together && together->best > own.best ? *together : own;
}

std::vector<Event> alertChanges(const RunState& run, const Standing& standing,
                                const std::optional<TurnoverBand>& together)
{
    return standing.moments.empty() ? std::vector<Event>{} : Watch(run, standing, together).changes();
}

std::optional<RunTime> nextDeadline(const RunState& run, const Standing& standing)
{
    if (run.phase == Phase::Closed) {
        return std::nullopt;
    }
    std::optional<RunTime> next;
    const auto consider = [&](RunTime at) {
        if (at > standing.now && (!next || at < *next)) {
            next = at;
        }
    };
    if (standing.due) {
        consider(*standing.due + overdueAfter);
    }
    for (const Alert& alert : run.alerts) {
        if (alert.state == AlertState::Shelved && alert.shelvedUntil) {
            consider(*alert.shelvedUntil);
        }
    }
    return next;
}

bool isColdNotLoaded(const StageDrop& drop)
{
    constexpr double loaded = 1.5;
    constexpr double quantile90 = 1.2815515655; // of the normal distribution
    constexpr double perDegree = 0.07;
    if (!drop.loading || !drop.raw || drop.raw->value() <= Pressure{}) {
        return false;
    }
    const double standing = drop.standing.value_or(Pressure{}) / drop.raw->value() / 2.0;
    const double reading = drop.reading.value_or(Pressure{}) / drop.raw->value() / 2.0;
    const double relative = std::sqrt(standing * standing + reading * reading + perDegree * perDegree);
    return *drop.loading * (1.0 + quantile90 * relative) <= loaded;
}

} // namespace loopside::run
