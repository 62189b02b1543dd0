// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/debrief.h"

#include <algorithm>

namespace loopside::practice {

using run::Mode;
using units::Duration;
using units::minute;

namespace {

// How long is in time. Read is after 2, 5, 10 and 15 min and then each 15 min (run/pace.h); three minutes more to walk,
// read and act. Our choice.
constexpr Duration early = 6.0 * minute;
constexpr Duration betweenSets = 20.0 * minute;
constexpr Duration actsWithin = 18.0 * minute;
constexpr Duration waitsWithin = 6.0 * minute;
constexpr double nearFull = 0.5;        ///< Of the loading at the limit; before that elements are changed too early.
constexpr double ofTarget = 0.97;       ///< What counts as the target, the flow not being known better.
constexpr std::size_t wrongGuesses = 2; ///< More than these are guessing.

/// Everything that the goals ask of one exercise.
class Judge
{
public:
    Judge(const ExercisePlan& plan, const Lived& lived) : plan_{plan}, lived_{lived} {}

    [[nodiscard]] bool isReached(Goal goal) const
    {
        switch (goal) {
        case Goal::PumpOffCheck:
            return readPumpOff();
        case Goal::ReadEarly:
            return lived_.firstFiltering && readWithin(*lived_.firstFiltering, early);
        case Goal::KeptReading:
            return lived_.firstFiltering && lived_.longestUnread <= betweenSets;
        case Goal::NoNeedlessChange:
            return changedOnlyWhatHadTo();
        case Goal::ChangedInTime:
            return std::ranges::all_of(plan_.stagesToChange, [&](int stage) { return changedInTime(stage); });
        case Goal::ChangedStage:
            return std::ranges::all_of(plan_.stagesToChange, [&](int stage) { return changedAfterFault(stage); });
        case Goal::ReadAfterChange:
            return readAfterEachChange();
        case Goal::Said:
            return saidIt();
        case Goal::NoFalseAlarm:
            return lived_.firstFiltering && namedNoFault();
        case Goal::Stopped:
            return stoppedSoon();
        case Goal::PutRight:
            return lived_.isPutRight;
        case Goal::Waited:
            return lived_.firstFiltering
                && std::ranges::all_of(lived_.overLimit, [](Duration over) { return over <= waitsWithin; });
        case Goal::TypedSwing:
            return typedSwing();
        case Goal::Sample:
            return tookSample();
        case Goal::ReachedTarget:
            return lived_.now.mode == Mode::Stopped
                && lived_.now.turnovers >= ofTarget * plan_.scenario.setup.target.turnovers->toDouble();
        }
        return false;
    }

private:
    template<class What>
    [[nodiscard]] static const What* as(const Act& act)
    {
        return std::get_if<What>(&act.said);
    }

    [[nodiscard]] bool readPumpOff() const
    {
        return std::ranges::any_of(lived_.acts, [&](const Act& act) {
            const bool isBefore = !lived_.firstFiltering || act.at <= *lived_.firstFiltering;
            return as<run::ReadingLogged>(act) != nullptr && act.mode == Mode::Stopped && isBefore;
        });
    }

    [[nodiscard]] bool readWithin(Duration from, Duration within) const
    {
        return std::ranges::any_of(lived_.acts, [&](const Act& act) {
            return as<run::ReadingLogged>(act) != nullptr && act.mode == Mode::Filtering && act.at >= from
                && act.at <= from + within;
        });
    }

    [[nodiscard]] bool changedOnlyWhatHadTo() const
    {
        std::vector<int> count(plan_.scenario.stages.size());
        for (const Act& act : lived_.acts) {
            if (const auto* changed = as<run::ElementsChanged>(act)) {
                ++count.at(static_cast<std::size_t>(changed->stage - 1));
            }
        }
        for (std::size_t i = 0; i < count.size(); ++i) {
            const bool isMeant = std::ranges::find(plan_.stagesToChange, static_cast<int>(i) + 1)
                != plan_.stagesToChange.end();
            if (count[i] > (isMeant ? plan_.changesEach : 0)) {
                return false;
            }
        }
        return lived_.firstFiltering.has_value();
    }

    /// All elements of the stage at once, when it was full enough.
    [[nodiscard]] bool changedInTime(int stage) const
    {
        const auto index = static_cast<std::size_t>(stage - 1);
        if (lived_.overLimit.at(index) > actsWithin) {
            return false;
        }
        const auto& record = plan_.scenario.setup.stages.at(index);
        const auto& clean = plan_.scenario.stages.at(index).clean;
        const double atLimit = record.changeLimit->value() / clean.total;
        return std::ranges::any_of(lived_.acts, [&](const Act& act) {
            const auto* changed = as<run::ElementsChanged>(act);
            return changed != nullptr && changed->stage == stage && changed->elements == record.elements
                && act.before.loading.at(index) >= nearFull * atLimit;
        });
    }

    [[nodiscard]] bool changedAfterFault(int stage) const
    {
        const auto& record = plan_.scenario.setup.stages.at(static_cast<std::size_t>(stage - 1));
        return std::ranges::any_of(lived_.acts, [&](const Act& act) {
            const auto* changed = as<run::ElementsChanged>(act);
            return changed != nullptr && changed->stage == stage && changed->elements == record.elements
                && lived_.faultAt && act.at >= *lived_.faultAt;
        });
    }

    [[nodiscard]] bool readAfterEachChange() const
    {
        bool isChanged = false;
        bool isAllRead = true;
        bool isAny = false;
        for (const Act& act : lived_.acts) {
            const auto* mode = as<run::ModeChanged>(act);
            if (as<run::ElementsChanged>(act) != nullptr) {
                isChanged = true;
                isAny = true;
            } else if (mode != nullptr && mode->mode == Mode::Filtering && isChanged) {
                isAllRead = isAllRead && readWithin(act.at, early);
                isChanged = false;
            }
        }
        return isAny && isAllRead && !isChanged;
    }

    [[nodiscard]] std::vector<Opinion> opinions() const
    {
        std::vector<Opinion> all;
        for (const Act& act : lived_.acts) {
            const auto* check = as<run::CheckAnswered>(act);
            const auto opinion = check != nullptr && check->check == thinkCheck ? opinionOf(check->say) : std::nullopt;
            const bool isAfter = plan_.comes == ExercisePlan::Comes::Never
                || (lived_.faultAt && act.at >= *lived_.faultAt);
            if (opinion && isAfter) {
                all.push_back(*opinion);
            }
        }
        return all;
    }

    [[nodiscard]] bool saidIt() const
    {
        const auto all = opinions();
        const auto isRight = [&](const Opinion& opinion) {
            return std::ranges::find(plan_.right, opinion) != plan_.right.end();
        };
        const auto first = std::ranges::find_if(all, isRight);
        return first != all.end() && static_cast<std::size_t>(first - all.begin()) <= wrongGuesses;
    }

    [[nodiscard]] bool namedNoFault() const
    {
        return std::ranges::all_of(opinions(), [](const Opinion& opinion) {
            return opinion.thought == Thought::NothingWrong || opinion.thought == Thought::CannotTell;
        });
    }

    [[nodiscard]] bool stoppedSoon() const
    {
        return lived_.ranWithFault <= actsWithin && std::ranges::any_of(lived_.acts, [&](const Act& act) {
                   const auto* mode = as<run::ModeChanged>(act);
                   return mode != nullptr && mode->mode == Mode::Stopped && act.mode != Mode::Stopped && lived_.faultAt
                       && act.at >= *lived_.faultAt;
               });
    }

    [[nodiscard]] bool typedSwing() const
    {
        return std::ranges::any_of(lived_.acts, [](const Act& act) {
            const auto* reading = as<run::ReadingLogged>(act);
            return reading != nullptr
                && std::ranges::any_of(reading->gauges, [](const auto& gauge) { return gauge && gauge->high; });
        });
    }

    [[nodiscard]] bool tookSample() const
    {
        return std::ranges::any_of(lived_.acts, [](const Act& act) {
            return as<run::SampleDrawn>(act) != nullptr && act.mode != Mode::Stopped;
        });
    }

    const ExercisePlan& plan_;
    const Lived& lived_;
};

/// How an act is told; nothing for what is not worth a line.
std::optional<DidThen> toldOf(const Act& act)
{
    const auto did = [&](std::string_view what) { return Message{"practice.did." + std::string(what), {}}; };
    if (const auto* mode = std::get_if<run::ModeChanged>(&act.said)) {
        return DidThen{act.at, did(run::nameOf(mode->mode))};
    }
    if (const auto* changed = std::get_if<run::ElementsChanged>(&act.said)) {
        Message how = did("changed");
        how.arguments = {{"elements", std::to_string(changed->elements)}, {"stage", std::to_string(changed->stage)}};
        return DidThen{act.at, how};
    }
    if (const auto* check = std::get_if<run::CheckAnswered>(&act.said)) {
        if (const auto opinion = check->check == thinkCheck ? opinionOf(check->say) : std::nullopt) {
            return DidThen{act.at, did("thought"), sentenceOf(*opinion)};
        }
        if (check->check == lookCheck) {
            return DidThen{act.at, did("looked"), Message{"practice.spot." + check->say, {}}};
        }
    }
    if (std::holds_alternative<run::SampleDrawn>(act.said)) {
        return DidThen{act.at, did("sample")};
    }
    return std::nullopt;
}

} // namespace

int Debrief::reached() const
{
    return static_cast<int>(std::ranges::count_if(goals, &GoalJudged::isReached));
}

Debrief debriefOf(const Exercise& exercise)
{
    const ExercisePlan& plan = exercise.plan();
    const Lived lived = exercise.lived();
    const Judge judge(plan, lived);
    Debrief debrief{.about = plan.about,
                    .hidden = plan.hidden,
                    .next = plan.next,
                    .faultAt = lived.faultAt,
                    .visibleAt = lived.visibleAt,
                    .found = lived.found,
                    .did = {},
                    .goals = {},
                    .turnovers = lived.now.turnovers};
    for (const Act& act : lived.acts) {
        if (auto told = toldOf(act)) {
            debrief.did.push_back(*std::move(told));
        }
    }
    for (const Goal goal : plan.goals) {
        debrief.goals.push_back({goal, judge.isReached(goal)});
    }
    return debrief;
}

} // namespace loopside::practice
