// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/outlook.h"

#include "forecast/band.h"
#include "forecast/factor_ahead.h"
#include "run/learning.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace loopside::run {

namespace {

using units::litre;
using units::pascal;

constexpr double lateTrust = 0.5; // of a set that was read earlier than it was entered: our choice
constexpr double targetsTold = 10.0;

double secondsOf(RunTime time)
{
    return std::chrono::duration<double>(time).count();
}

RunTime runTime(double seconds)
{
    return RunTime{std::llround(seconds * 1000.0)};
}

units::Pressure leastError()
{
    return 10.0 * pascal;
}

/// One stage of one run, asked for its forecast.
class Asking
{
public:
    Asking(const RunState& run, const std::vector<Moment>& moments, const RunLoadings& loadings, const Credit& credit,
           int stage)
        : run_{run},
          stage_{run.setup.stages[static_cast<std::size_t>(stage - 1)]},
          now_{moments.back()},
          loadings_{loadings},
          loading_{loadings.now(stage)},
          credit_{credit}
    {
        std::copy_if(loading_.sets.begin(), loading_.sets.end(), std::back_inserter(sets_), [](const LoadedSet& set) {
            return !set.isAllAtOnce && (set.isAtLimit || !(set.isDoubtful || set.isDropDoubted));
        });
    }

    [[nodiscard]] Outlook outlook() const
    {
        Outlook outlook;
        outlook.stage = loading_.stage;
        outlook.asOf = now_.at;
        outlook.load_l = loading_.load_l;
        outlook.ahead = ahead();
        outlook.spareSets = spareSets();
        if (!stage_.changeLimit) {
            outlook.why = {"forecast.no-limit", {}};
        } else if (!stage_.cleanDrop() || !run_.fluid) {
            outlook.why = {"forecast.no-correction", {}};
        } else if (isLast(&LoadedSet::isDoubtful)) {
            outlook.why = {"forecast.doubtful", {}};
        } else if (isLast(&LoadedSet::isDropDoubted)) {
            outlook.why = {"forecast.drop-doubted", {}};
        } else if (isLast(&LoadedSet::isSwelling)) {
            outlook.why = {"forecast.swelling", {}};
            outlook.isSwelling = true;
        } else if (sets_.empty()) {
            outlook.why = {"forecast.no-reading", {}};
        } else {
            ask(outlook);
        }
        return outlook;
    }

private:
    /// Whether the last set is so, and not at the limit: that is told whatever else.
    [[nodiscard]] bool isLast(bool LoadedSet::* flag) const
    {
        return !loading_.sets.empty() && loading_.sets.back().*flag && !loading_.sets.back().isAtLimit;
    }

    struct Answer
    {
        forecast::Forecast told;
        forecast::Family nearest; ///< Of the history that it was told from.
    };

    void ask(Outlook& outlook) const
    {
        const double atTarget = filteringSecondsAtTarget();
        auto answer = asked(outlook.ahead, atTarget);
        if (answer && answer->told.seconds.p50) { // where the limit comes first, the oil is not as warm yet
            const double atLimit = loadings_.filtered.seconds + *answer->told.seconds.p50 - secondsOf(now_.at);
            answer = atLimit < atTarget ? asked(outlook.ahead, atLimit) : answer;
        }
        if (!answer) {
            outlook.why = {"forecast.cannot", {}};
            return;
        }
        tell(outlook, *answer);
    }

    /// The forecast with the oil as it is expected at so many filtering seconds of the run.
    [[nodiscard]] Result<Answer> asked(const forecast::Ahead& ahead, double filteringSecondsThen) const
    {
        const forecast::Question question = this->question(ahead, filteringSecondsThen);
        const auto past = pastLoadings(run_.past, {run_.setup.tank.name, loading_.elementType, stage_.kind});
        const auto history = forecast::learn(past, forecast::correctedLimit(question), dirtUnsure);
        if (!history) {
            return fail(history.error());
        }
        auto told = forecast::forecast(readings(), question, *history);
        if (!told) {
            return fail(told.error());
        }
        return Answer{*std::move(told), history->families.front()};
    }

    void tell(Outlook& outlook, const Answer& answer) const
    {
        const forecast::Forecast& told = answer.told;
        outlook.state = told.state;
        outlook.why = told.why.say;
        outlook.pBeforeTarget = told.pBeforeTarget;
        outlook.phase = told.phase;
        outlook.pastLoadings = told.pastLoadings;
        outlook.lives = told.lives;
        const auto at = [](const std::optional<double>& seconds) {
            return seconds ? std::optional(runTime(*seconds)) : std::nullopt;
        };
        outlook.setsNeeded = setsNeeded(told);
        outlook.limitAt = {at(told.seconds.p10), at(told.seconds.p50), at(told.seconds.p90)};
        if (told.lives && now_.mode == Mode::Filtering) {
            outlook.band = band(outlook, answer.nearest);
        }
    }

    /// What is left of the sets that were there, after the changes of this run.
    [[nodiscard]] std::optional<int> spareSets() const
    {
        const int changes = loading_.number - 1;
        return stage_.spareSets ? std::optional(std::max(0, *stage_.spareSets - changes)) : std::nullopt;
    }

    /// The next set, and one more for each life like the present one that fits before the target.
    [[nodiscard]] int setsNeeded(const forecast::Forecast& told) const
    {
        constexpr double setsMost = 99.0;
        if (told.state == forecast::State::Reached) {
            return 1;
        }
        const auto target = targetLoad();
        if (!target || !told.loads.p50 || told.pBeforeTarget.value_or(0.0) < 0.5) {
            return 0;
        }
        const double left = std::max(0.0, *target - *told.loads.p50);
        return 1 + static_cast<int>(std::min(left / std::max(*told.loads.p50, 1e-9), setsMost));
    }

    /// The band up to t90, but not far beyond the target.
    [[nodiscard]] std::vector<DropAhead> band(const Outlook& outlook, const forecast::Family& nearest) const
    {
        constexpr int steps = 12;
        constexpr RunTime least = std::chrono::minutes(30);
        const double toTarget = pace() > 0.0 ? turnoversLeft().value_or(0.0) / pace() : 0.0;
        RunTime length = std::max(least, runTime(toTarget));
        if (outlook.limitAt.t90) {
            length = std::min(length, *outlook.limitAt.t90 - now_.at);
        }
        std::vector<RunTime> times;
        std::vector<double> loads;
        for (int i = 0; i <= steps; ++i) {
            times.push_back(now_.at + length * i / steps);
            loads.push_back(outlook.load_l + forecast::loadAdded(outlook.ahead, secondsOf(times.back() - now_.at)));
        }
        std::vector<DropAhead> band;
        const units::Pressure limit = stage_.changeLimit->value();
        const double dropNow = sets_.back().drop.raw->value() / limit;
        for (const auto& point : forecast::bandAhead(*outlook.lives, nearest, outlook.load_l, dropNow, loads)) {
            band.push_back({times[band.size()], limit * point.low, limit * point.middle, limit * point.high});
        }
        return band;
    }

    [[nodiscard]] forecast::Question question(const forecast::Ahead& ahead, double filteringSecondsThen) const
    {
        const LoadedSet& last = sets_.back();
        forecast::Question question;
        question.rawLimit = stage_.changeLimit->value();
        question.rawDropNow = last.isAtLimit ? std::max(question.rawLimit, last.drop.raw->value())
                                             : std::min(question.rawLimit * (1.0 - 1e-12), last.drop.raw->value());
        if (const auto trend = factorTrend()) {
            const auto factor = forecast::factorHeld(*trend, loadings_.filtered.seconds, filteringSecondsThen);
            question.rawPerCorrected = factor.value;
            question.rawPerCorrectedError = factor.relativeError;
        }
        question.standingError = last.drop.standing.value_or(units::Pressure());
        question.bypassSetting = stage_.bypass ? std::optional(stage_.bypass->value()) : std::nullopt;
        question.isUsed = loading_.isUsed || loading_.isMixed;
        question.loadNow = loading_.load_l;
        question.secondsNow = secondsOf(now_.at);
        question.ahead = ahead;
        question.targetLoad = targetLoad();
        question.secondsMax = secondsMax();
        return question;
    }

    [[nodiscard]] std::vector<forecast::Reading> readings() const
    {
        std::vector<forecast::Reading> readings;
        for (const LoadedSet& set : sets_) {
            readings.push_back({set.load_l, *set.drop.corrected,
                                std::max(*set.drop.reading / rawPerCorrected(set), leastError()),
                                set.isLate ? lateTrust : 1.0});
        }
        return readings;
    }

    /// How raw ÷ corrected goes, from all sets of the stage in this run.
    [[nodiscard]] std::optional<forecast::FactorTrend> factorTrend() const
    {
        std::vector<forecast::FactorSeen> seen;
        for (const StageLoading& loading : loadings_.loadings) {
            for (const LoadedSet& set : loading.sets) {
                if (loading.stage == loading_.stage) {
                    seen.push_back({set.filteringSecond, rawPerCorrected(set)});
                }
            }
        }
        const auto trend = forecast::factorTrend(seen);
        return trend ? std::optional(*trend) : std::nullopt;
    }

    /// Filtering seconds of the run when the target is met; without one twice those so far.
    [[nodiscard]] double filteringSecondsAtTarget() const
    {
        const double now = loadings_.filtered.seconds;
        const auto left = turnoversLeft();
        return left && pace() > 0.0 ? now + *left / pace() : 2.0 * now;
    }

    [[nodiscard]] units::Flow flow() const
    {
        return now_.mode == Mode::Filtering && now_.flow > units::Flow() ? now_.flow : run_.setup.cart.flow.value();
    }

    /// Turnovers a second while filtering goes on.
    [[nodiscard]] double pace() const
    {
        const double seconds = (run_.setup.tank.volume.value() / flow()).in(units::second);
        return seconds > 0.0 && std::isfinite(seconds) ? 1.0 / seconds : 0.0;
    }

    [[nodiscard]] forecast::Ahead ahead() const
    {
        const double tankLitres = run_.setup.tank.volume.value().in(litre);
        const auto ahead = forecast::aheadAfter(loadings_.filtered.turnovers, cleaningOf(run_.setup.tank), pace());
        return ahead
            ? forecast::Ahead{ahead->perSecond * tankLitres, ahead->perSecondLater * tankLitres, ahead->fallPerSecond}
            : forecast::Ahead{};
    }

    /// To the target; nothing without one.
    [[nodiscard]] std::optional<double> turnoversLeft() const
    {
        const auto& target = run_.setup.target.turnovers;
        return target ? std::optional(std::max(0.0, target->toDouble() - credit_.turnovers.best)) : std::nullopt;
    }

    /// Where the elements will stand when the target is met; where they stand if it is met already.
    [[nodiscard]] std::optional<double> targetLoad() const
    {
        const auto left = turnoversLeft();
        if (!left || pace() <= 0.0) {
            return std::nullopt;
        }
        return loading_.load_l + forecast::loadAdded(ahead(), *left / pace());
    }

    /// Ten times what the target takes from the start; without a target ten times what was filtered so far.
    [[nodiscard]] double secondsMax() const
    {
        const auto& target = run_.setup.target.turnovers;
        const double seconds = target && pace() > 0.0 ? target->toDouble() / pace() : loadings_.filtered.seconds;
        return std::max(targetsTold * seconds, secondsOf(now_.at));
    }

    const RunState& run_;
    const StageRecord& stage_;
    const Moment& now_;
    const RunLoadings& loadings_;
    const StageLoading& loading_;
    const Credit& credit_;
    std::vector<LoadedSet> sets_;
};

} // namespace

std::string_view nameOf(forecast::State state)
{
    constexpr std::array<std::string_view, 5> names = {"none", "early", "forecast", "reached", "not-before-target"};
    return names.at(static_cast<std::size_t>(state));
}

std::vector<Outlook> outlooksOf(const RunState& run, const std::vector<Moment>& moments,
                                const std::vector<Question>& questions, const std::vector<JudgedSet>& judged,
                                const Credit& credit)
{
    std::vector<Outlook> outlooks;
    if (moments.empty()) {
        return outlooks;
    }
    const RunLoadings loadings = loadingsOf(run, moments, questions, judged);
    for (std::size_t i = 0; i < run.setup.stages.size(); ++i) {
        outlooks.push_back(Asking(run, moments, loadings, credit, static_cast<int>(i) + 1).outlook());
    }
    return outlooks;
}

std::optional<double> probabilityBy(const Outlook& outlook, RunTime at)
{
    if (outlook.state == forecast::State::Reached) {
        return 1.0;
    }
    if (!outlook.lives) {
        return std::nullopt;
    }
    const double load = outlook.load_l
        + forecast::loadAdded(outlook.ahead, std::max(0.0, secondsOf(at - outlook.asOf)));
    return forecast::probabilityBy(*outlook.lives, load);
}

std::optional<RunTime> readBy(const std::vector<Outlook>& outlooks, RunTime from)
{
    constexpr RunTime whileSwelling = std::chrono::minutes(2); // our choice: such an element may last minutes
    std::optional<RunTime> by;
    for (const Outlook& outlook : outlooks) {
        std::optional<RunTime> within;
        if (outlook.isSwelling) {
            within = whileSwelling;
        } else if (outlook.limitAt.t10) {
            within = std::max(leastInterval, (*outlook.limitAt.t10 - from) / 4);
        }
        if (within) {
            by = std::min(by.value_or(from + *within), from + *within);
        }
    }
    return by;
}

} // namespace loopside::run
