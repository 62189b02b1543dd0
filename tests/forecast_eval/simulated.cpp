// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "simulated.h"

#include "baselines.h"
#include "forecast/forecast.h"
#include "practice/simulate.h"
#include "run/standing.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace loopside::evaluation {

namespace {

using practice::Simulated;

constexpr double dirtUnsure = 0.5; // of the logarithm: how the dirt of a day differs where nobody counts
constexpr double usedAbove = 1.25; // loading of the first reading; the clean drop told is 6 % off
constexpr double momentParts[] = {0.25, 0.5, 0.75};
constexpr double tryOutSeed = 7'000'000;

/// One stage at one reading.
struct StageReading
{
    double seconds;         ///< Of the run,
    double filteredSeconds; ///< of it filtering with these elements.
    units::Pressure raw;
    units::Pressure corrected;
    units::Pressure readingError;
    units::Pressure standingError;
    double loading;
};

/// The readings of the elements that a stage began with, while filtering.
std::vector<StageReading> readingsOf(const run::RunState& run, std::size_t stage)
{
    const std::vector<run::Moment> moments = run::timelineOf(run);
    std::vector<StageReading> readings;
    double filtered = 0.0;
    for (std::size_t i = 0; i < moments.size(); ++i) {
        const run::Moment& moment = moments[i];
        const double seconds = std::chrono::duration<double>(moment.at).count();
        if (i > 0 && moments[i - 1].mode == run::Mode::Filtering) {
            filtered += seconds - std::chrono::duration<double>(moments[i - 1].at).count();
        }
        if (stage < moment.elementsSince.size() && moment.elementsSince[stage].count() > 0) {
            break;
        }
        if (moment.reading == nullptr) {
            continue;
        }
        const std::vector<run::StageDrop> drops = run::dropsAt(moment, moments, run);
        const run::StageDrop& drop = drops[stage];
        if (drop.raw && drop.corrected && drop.reading && drop.loading) {
            readings.push_back({seconds, filtered, drop.raw->value(), *drop.corrected, *drop.reading,
                                drop.standing.value_or(units::Pressure()), *drop.loading});
        }
    }
    return readings;
}

/// The way from filtering time to caught dirt that a person can know: rated flow and volume as told.
class Axis
{
public:
    explicit Axis(const run::Setup& setup)
        : turnoversPerSecond_(setup.cart.flow.value().in(units::cubicMetrePerSecond)
                              / setup.tank.volume.value().in(units::cubicMetre))
    {
    }

    [[nodiscard]] double load(double filteredSeconds) const
    {
        return forecast::dirtAfter(filteredSeconds * turnoversPerSecond_, forecast::usualCleaningUp).value();
    }

    /// How the load goes on behind so much filtering.
    [[nodiscard]] forecast::Ahead ahead(double filteredSeconds) const
    {
        return forecast::aheadAfter(filteredSeconds * turnoversPerSecond_, forecast::usualCleaningUp,
                                    turnoversPerSecond_)
            .value();
    }

private:
    double turnoversPerSecond_;
};

/// Raw ÷ corrected as expected, with its relative standard uncertainty.
struct Factor
{
    double value;
    double error;
};

double rawPerCorrected(const StageReading& reading)
{
    const bool isRising = reading.corrected.in(units::pascal) > 0.0 && reading.raw.in(units::pascal) > 0.0;
    return isRising ? reading.raw / reading.corrected : 1.0;
}

/// The trend of this run: half of what the factor changed by since half the filtering, once more, and as much unsure.
Factor factorAhead(const std::vector<StageReading>& readings)
{
    const StageReading& last = readings.back();
    const auto half = std::ranges::find_if(
        readings, [&](const StageReading& reading) { return reading.filteredSeconds >= last.filteredSeconds / 2.0; });
    const double change = std::clamp(rawPerCorrected(last) / rawPerCorrected(*half), 0.5, 2.0);
    return {rawPerCorrected(last) * std::sqrt(change), 0.1 + 0.5 * std::abs(std::log(change))};
}

bool isUsed(const run::StageRecord& stage, const std::vector<StageReading>& readings)
{
    return stage.loaded.has_value() || (!readings.empty() && readings.front().loading > usedAbove);
}

/// When the elements that a stage began with were changed; never: infinite.
double changedAt(const Simulated& day, std::size_t stage)
{
    for (const practice::StageLife& life : day.truth.lives) {
        if (life.stage == static_cast<int>(stage) + 1 && life.from.in(units::second) == 0.0 && life.changedAt) {
            return life.changedAt->in(units::second);
        }
    }
    return std::numeric_limits<double>::infinity();
}

/// A day as past loading of one stage, where its elements were new.
std::optional<forecast::PastLoading> pastOf(const Simulated& day, std::size_t stage)
{
    const std::vector<StageReading> readings = readingsOf(practice::asRun(day), stage);
    if (readings.size() < 3 || isUsed(day.setup.stages[stage], readings)) {
        return std::nullopt;
    }
    const Axis axis(day.setup);
    forecast::PastLoading past;
    for (const StageReading& reading : readings) {
        past.curve.push_back({axis.load(reading.filteredSeconds), reading.corrected});
    }
    const units::Pressure limit = day.setup.stages[stage].changeLimit->value();
    const StageReading& last = readings.back();
    past.endLoad = axis.load(last.filteredSeconds);
    past.isCutShort = last.raw < limit;
    past.limit = last.corrected;
    return past;
}

struct Stage
{
    const Simulated& day;
    std::size_t number;
    const std::vector<forecast::PastLoading>& past;
};

/// When the elements that a stage began with were truly at the limit, in filtering seconds.
std::optional<double> truthOf(const Simulated& day, std::size_t stage)
{
    for (const practice::StageLife& life : day.truth.lives) {
        if (life.stage == static_cast<int>(stage) + 1 && life.from.in(units::second) == 0.0 && life.limitAt) {
            return life.limitAt->in(units::second);
        }
    }
    return std::nullopt;
}

double straightEnd(const std::vector<StageReading>& readings, units::Pressure limit)
{
    std::vector<Point> points;
    for (const StageReading& reading : readings) {
        points.push_back({reading.seconds, reading.raw / limit});
    }
    return straightLine(points, 5);
}

void judgeStage(const Stage& stage, SimulatedScores& scores)
{
    const run::StageRecord& record = stage.day.setup.stages[stage.number];
    const units::Pressure limit = record.changeLimit->value();
    const std::vector<StageReading> all = readingsOf(practice::asRun(stage.day), stage.number);
    const Axis axis(stage.day.setup);
    const double targetAt = stage.day.truth.targetAt.in(units::second);
    const std::optional<double> limitAt = truthOf(stage.day, stage.number);
    for (const double part : momentParts) {
        std::vector<StageReading> sofar;
        std::ranges::copy_if(all, std::back_inserter(sofar),
                             [&](const StageReading& reading) { return reading.seconds <= part * targetAt; });
        if (sofar.empty() || changedAt(stage.day, stage.number) <= part * targetAt || sofar.back().raw >= limit
            || (limitAt && *limitAt <= sofar.back().seconds)) {
            continue;
        }
        const StageReading& last = sofar.back();
        const Factor factor = factorAhead(sofar);
        const double targetLoad = axis.load(last.filteredSeconds + targetAt - last.seconds);
        std::vector<forecast::Reading> readings;
        for (const StageReading& reading : sofar) {
            readings.push_back({axis.load(reading.filteredSeconds), reading.corrected,
                                std::max(reading.readingError / rawPerCorrected(reading), 10.0 * units::pascal)});
        }
        const forecast::Question question{.rawLimit = limit,
                                          .rawDropNow = last.raw,
                                          .rawPerCorrected = factor.value,
                                          .rawPerCorrectedError = factor.error,
                                          .standingError = last.standingError,
                                          .isUsed = isUsed(record, all),
                                          .secondsNow = last.seconds,
                                          .ahead = axis.ahead(last.filteredSeconds),
                                          .targetLoad = targetLoad};
        const auto history = forecast::learn(stage.past, forecast::correctedLimit(question), dirtUnsure);
        const bool cameTrue = limitAt && *limitAt <= targetAt;
        ++scores.asked;
        scores.line.push_back({straightEnd(sofar, limit) <= targetAt ? 1.0 : 0.0, cameTrue});
        const auto told = forecast::forecast(readings, question, history.value());
        if (!told || !told->pBeforeTarget) {
            ++scores.unanswered;
            scores.ours.push_back({0.2, cameTrue});
            continue;
        }
        scores.ours.push_back({*told->pBeforeTarget, cameTrue});
        if (limitAt && told->lives) {
            const double truth = axis.load(last.filteredSeconds + *limitAt - last.seconds);
            scores.crps.push_back(crps(*told->lives, truth) / axis.load(targetAt) * 100.0);
            for (const double interval : {0.5, 0.8, 0.9}) {
                scores.covered[interval].push_back(covers(*told->lives, interval, truth));
            }
        }
    }
}

} // namespace

SimulatedScores judgeSimulated(int first, int count, int historyDays, bool isTestSet)
{
    SimulatedScores scores;
    for (int number = first; number < first + count; ++number) {
        const auto seed = isTestSet ? practice::testSeed(number)
                                    : static_cast<std::uint64_t>(tryOutSeed) + static_cast<std::uint64_t>(number);
        const auto day = practice::simulate(isTestSet ? practice::testScenario(number) : practice::drawScenario(seed));
        if (!day) {
            continue;
        }
        std::vector<Simulated> others;
        for (int occasion = 1; occasion <= historyDays; ++occasion) {
            if (auto other = practice::simulate(practice::drawScenario(seed, occasion))) {
                others.push_back(*std::move(other));
            }
        }
        for (std::size_t stage = 0; stage < day->setup.stages.size(); ++stage) {
            std::vector<forecast::PastLoading> past;
            for (const Simulated& other : others) {
                if (auto one = pastOf(other, stage)) {
                    past.push_back(*std::move(one));
                }
            }
            judgeStage({*day, stage, past}, scores);
        }
    }
    return scores;
}

} // namespace loopside::evaluation
