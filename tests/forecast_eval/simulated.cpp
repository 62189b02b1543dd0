// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "simulated.h"

#include "baselines.h"
#include "forecast/factor_ahead.h"
#include "forecast/forecast.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <span>

namespace loopside::evaluation {

namespace {

using units::pascal;

constexpr double dirtUnsure = 0.5; // of the logarithm: how the dirt of a day differs where nobody counts
constexpr double usedAbove = 1.25; // loading of the first reading; the clean drop told is 6 % off
constexpr double momentParts[] = {0.25, 0.5, 0.75};
constexpr double readingErrorMin = 10.0; // Pa

/// The way from filtering time to caught dirt that a person can know: rated flow and volume as told.
double loadAt(const StageDay& day, double filteredSeconds)
{
    return forecast::dirtAfter(filteredSeconds * day.turnoversPerSecond, forecast::usualCleaningUp).value();
}

double rawPerCorrected(const StageReading& reading)
{
    return reading.corrected > 0.0 && reading.raw > 0.0 ? reading.raw / reading.corrected : 1.0;
}

forecast::FactorTrend trendOf(std::span<const StageReading> readings)
{
    std::vector<forecast::FactorSeen> seen;
    for (const StageReading& reading : readings) {
        seen.push_back({reading.filteredSeconds, rawPerCorrected(reading)});
    }
    return forecast::factorTrend(seen).value();
}

bool isUsed(const StageDay& day)
{
    return day.isUsedTold || (!day.readings.empty() && day.readings.front().loading > usedAbove);
}

/// Another day as past loading, where its elements were new.
std::optional<forecast::PastLoading> pastOf(const StageDay& day)
{
    if (day.readings.size() < 3) {
        return std::nullopt;
    }
    forecast::PastLoading past;
    const forecast::FactorTrend trend = trendOf(day.readings);
    for (const StageReading& reading : day.readings) {
        past.curve.push_back({loadAt(day, reading.filteredSeconds),
                              reading.raw / forecast::factorAt(trend, reading.filteredSeconds).value * pascal});
    }
    const StageReading& last = day.readings.back();
    past.endLoad = loadAt(day, last.filteredSeconds);
    past.isCutShort = last.raw < day.limit;
    past.limit = last.corrected * pascal;
    past.readingError = std::max(last.readingError / rawPerCorrected(last), readingErrorMin) * pascal;
    past.isUsed = isUsed(day);
    return past;
}

double straightEnd(std::span<const StageReading> readings, double limit)
{
    std::vector<Point> points;
    for (const StageReading& reading : readings) {
        points.push_back({reading.seconds, reading.raw / limit});
    }
    return straightLine(points, 5);
}

/// With the oil as it is expected at so many filtering seconds.
Result<forecast::Forecast> forecastFor(const StageCase& one, std::span<const StageReading> sofar, double filteredThen)
{
    const StageDay& day = one.today;
    const StageReading& last = sofar.back();
    const double targetFiltered = last.filteredSeconds + day.targetAt - last.seconds;
    const forecast::FactorTrend trend = trendOf(sofar);
    const forecast::FactorExpected factor = forecast::factorHeld(trend, last.filteredSeconds, filteredThen);
    std::vector<forecast::Reading> readings;
    for (const StageReading& reading : sofar) {
        const double then = forecast::factorAt(trend, reading.filteredSeconds).value;
        const double error = std::max(reading.readingError / then, readingErrorMin);
        readings.push_back({loadAt(day, reading.filteredSeconds), reading.raw / then * pascal, error * pascal});
    }
    const forecast::Question question{.rawLimit = day.limit * pascal,
                                      .rawDropNow = last.raw * pascal,
                                      .rawPerCorrected = factor.value,
                                      .rawPerCorrectedError = factor.relativeError,
                                      .standingError = last.standingError * pascal,
                                      .isUsed = isUsed(day),
                                      .secondsNow = last.seconds,
                                      .ahead = forecast::aheadAfter(last.filteredSeconds * day.turnoversPerSecond,
                                                                    forecast::usualCleaningUp, day.turnoversPerSecond)
                                                   .value(),
                                      .targetLoad = loadAt(day, targetFiltered)};
    std::vector<forecast::PastLoading> past;
    for (const StageDay& other : one.others) {
        if (auto loading = pastOf(other)) {
            past.push_back(*std::move(loading));
        }
    }
    const auto history = forecast::learn(past, forecast::correctedLimit(question), dirtUnsure);
    return forecast::forecast(readings, question, history.value());
}

/// As run/outlook.cpp asks: with the oil at the target, or at the limit where that comes first.
Result<forecast::Forecast> forecastOf(const StageCase& one, std::span<const StageReading> sofar)
{
    const StageReading& last = sofar.back();
    const auto told = forecastFor(one, sofar, last.filteredSeconds + one.today.targetAt - last.seconds);
    if (!told || !told->seconds.p50 || *told->seconds.p50 >= one.today.targetAt) {
        return told;
    }
    return forecastFor(one, sofar, last.filteredSeconds + *told->seconds.p50 - last.seconds);
}

/// When the elements were at their limit: when somebody read so, who then changes them, or when they truly were, unseen
/// between readings. A gauge that stands too high ends many a life before its true limit.
std::optional<double> limitAt(const StageDay& day)
{
    const auto seen = std::ranges::find_if(day.readings,
                                           [&](const StageReading& reading) { return reading.raw >= day.limit; });
    if (seen == day.readings.end()) {
        return day.trueLimitAt;
    }
    return std::min(seen->seconds, day.trueLimitAt.value_or(seen->seconds));
}

void judgeLives(const StageDay& day, const StageReading& last, const forecast::Posterior& lives,
                SimulatedScores& scores)
{
    const double truth = loadAt(day, last.filteredSeconds + *limitAt(day) - last.seconds);
    scores.crps.push_back(crps(lives, truth) / loadAt(day, day.targetAt) * 100.0);
    for (const double interval : {0.5, 0.8, 0.9}) {
        scores.covered[interval].push_back(covers(lives, interval, truth));
    }
}

void judgeAt(double part, const StageCase& one, SimulatedScores& scores)
{
    const StageDay& day = one.today;
    const auto later = std::ranges::find_if(
        day.readings, [&](const StageReading& reading) { return reading.seconds > part * day.targetAt; });
    const std::span<const StageReading> sofar(day.readings.begin(), later);
    const bool isChanged = day.changedAt && *day.changedAt <= part * day.targetAt;
    if (sofar.empty() || isChanged || sofar.back().raw >= day.limit
        || (day.trueLimitAt && *day.trueLimitAt <= sofar.back().seconds)) {
        return;
    }
    const std::optional<double> end = limitAt(day);
    const bool cameTrue = end && *end <= day.targetAt;
    ++scores.asked;
    scores.line.push_back({straightEnd(sofar, day.limit) <= day.targetAt ? 1.0 : 0.0, cameTrue});
    const auto told = forecastOf(one, sofar);
    const bool isAnswer = told && told->pBeforeTarget;
    scores.unanswered += isAnswer ? 0 : 1;
    scores.ours.push_back({isAnswer ? *told->pBeforeTarget : unansweredPart, cameTrue});
    scores.atParts[part].push_back(scores.ours.back());
    scores.oursTruly.push_back({scores.ours.back().probability, day.trueLimitAt && *day.trueLimitAt <= day.targetAt});
    if (isAnswer && end && told->lives) {
        judgeLives(day, sofar.back(), *told->lives, scores);
    }
}

} // namespace

void judge(const StageCase& one, SimulatedScores& scores)
{
    for (const double part : momentParts) {
        judgeAt(part, one, scores);
    }
}

SimulatedScores judgeSimulated(int first, int count, int otherDays, bool isTestSet)
{
    SimulatedScores scores;
    for (int number = first; number < first + count; ++number) {
        for (const StageCase& one : stageCases(number, otherDays, isTestSet)) {
            judge(one, scores);
        }
    }
    return scores;
}

} // namespace loopside::evaluation
