// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "protocols.h"

#include "baselines.h"
#include "scores.h"

#include <boost/math/special_functions/erf.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>
#include <set>

namespace loopside::evaluation {

namespace {

using forecast::Kinship;
using forecast::Reading;

constexpr double shares[] = {0.5, 0.7, 0.85, 0.9, 0.95};
constexpr double intervals[] = {0.5, 0.8, 0.9};

/// A normal deviate by the inverse of its distribution: the same on every machine, unlike the library's.
double normal(std::mt19937_64& random)
{
    const double uniform = (static_cast<double>(random() >> 11U) + 0.5) * 0x1p-53;
    return -std::sqrt(2.0) * boost::math::erfc_inv(2.0 * uniform);
}

double dropAt(const BenchRun& run, double seconds)
{
    const auto after = std::ranges::lower_bound(run.seconds, seconds);
    if (after == run.seconds.begin()) {
        return run.drop.front();
    }
    if (after == run.seconds.end()) {
        return run.drop.back();
    }
    const auto i = static_cast<std::size_t>(after - run.seconds.begin());
    const double part = (seconds - run.seconds[i - 1]) / (run.seconds[i] - run.seconds[i - 1]);
    return run.drop[i - 1] * (1.0 - part) + run.drop[i] * part;
}

double rounded(double value, double step)
{
    return std::round(value / step) * step;
}

/// Expanded reading error of a random error and a rounding.
units::Pressure expanded(double sd, double step)
{
    return 2.0 * std::sqrt(sd * sd + step * step / 12.0) * units::pascal;
}

std::vector<Reading> upTo(const std::vector<Reading>& readings, double load)
{
    std::vector<Reading> result;
    std::ranges::copy_if(readings, std::back_inserter(result),
                         [&](const Reading& reading) { return reading.load <= load * (1.0 + 1e-9); });
    return result;
}

/// Straight line and exponential, not before now.
void yardsticks(const std::vector<Reading>& readings, const BenchRun& run, double now,
                const std::function<double(double)>& error, Found& found)
{
    std::vector<Point> points;
    for (const Reading& reading : readings) {
        points.push_back({reading.load, reading.drop.in(units::pascal) / run.limit});
    }
    found.errors["line, all"].push_back(error(std::max(now, straightLine(points, points.size()))));
    found.errors["line, last 5"].push_back(error(std::max(now, straightLine(points, 5))));
    found.errors["exponential, last 8"].push_back(error(std::max(now, exponential(points, 8))));
}

void judge(const forecast::Forecast& told, const BenchRun& run, const std::function<double(double)>& error,
           double errorUnit, Found& found)
{
    ++found.asked;
    if (!told.lives) {
        found.errors["ours"].push_back(errorUnit);
        return;
    }
    ++found.answers;
    found.early += told.state == forecast::State::Early ? 1 : 0;
    found.errors["ours"].push_back(error(*told.loads.p50));
    found.crps.push_back(error(run.lifeSeconds + crps(*told.lives, run.lifeSeconds)));
    for (const double interval : intervals) {
        found.covered[interval][run.group].push_back(covers(*told.lives, interval, run.lifeSeconds));
    }
}

std::vector<forecast::PastLoading> pastOf(const std::vector<BenchRun>& runs, const std::vector<std::size_t>& places)
{
    std::vector<forecast::PastLoading> past;
    for (const std::size_t place : places) {
        past.push_back(asPast(runs[place], Kinship::SameTank));
    }
    return past;
}

std::vector<std::size_t> pastPlaces(const Split& split, bool isTrainingOnly)
{
    std::vector<std::size_t> places = split.train;
    if (!isTrainingOnly) {
        places.insert(places.end(), split.validate.begin(), split.validate.end());
    }
    return places;
}

double meanLife(const std::vector<BenchRun>& runs, const std::vector<std::size_t>& places, const std::string& group)
{
    std::vector<double> lives;
    for (const std::size_t place : places) {
        if (group.empty() || runs[place].group == group) {
            lives.push_back(runs[place].lifeSeconds);
        }
    }
    return mean(lives);
}

void judgeSparse(const BenchRun& run, const forecast::History& history, Table& table)
{
    const std::vector<Reading> readings = sparseReadings(run);
    for (const double share : shares) {
        Found& found = table[share];
        const auto error = [&](double life) { return std::abs(life - run.lifeSeconds) / run.lifeSeconds * 100.0; };
        yardsticks(upTo(readings, share * run.lifeSeconds), run, share * run.lifeSeconds, error, found);
        judge(forecastAt(readings, run, share, history).value(), run, error, 100.0, found);
    }
}

forecast::History learned(const std::vector<forecast::PastLoading>& past, const BenchRun& run)
{
    return forecast::learn(past, run.limit * units::pascal).value();
}

/// One reading a second: the median of the second before.
std::vector<Reading> denseReadings(const BenchRun& run)
{
    std::vector<Reading> readings;
    std::vector<double> second;
    for (std::size_t i = 0; i < run.seconds.size(); ++i) {
        second.push_back(run.drop[i]);
        if (second.size() == 5) {
            readings.push_back({run.seconds[i], median(second) * units::pascal, expanded(0.004 * run.limit, 0.0)});
            second.clear();
        }
    }
    return readings;
}

double meanOf(const forecast::Posterior& lives)
{
    double sum = 0.0;
    for (std::size_t i = 0; i < lives.loads.size(); ++i) {
        sum += lives.loads[i] * lives.masses[i];
    }
    return sum;
}

struct Squares
{
    double ours = 0.0;
    double clock = 0.0;
};

Squares denseRun(const BenchRun& run, const forecast::History& history, double clockLife)
{
    const std::vector<Reading> readings = denseReadings(run);
    Squares sum;
    int count = 0;
    for (double now = 12.5; now < run.lifeSeconds; now += 0.5, ++count) {
        const auto told = forecastAt(readings, run, now / run.lifeSeconds, history).value();
        const double ours = (told.lives ? meanOf(*told.lives) : now) - run.lifeSeconds;
        const double clock = std::max(clockLife, now) - run.lifeSeconds;
        sum.ours += ours * ours;
        sum.clock += clock * clock;
    }
    return {std::sqrt(sum.ours / count), std::sqrt(sum.clock / count)};
}

std::string sizeOf(const BenchRun& run)
{
    return run.group.substr(0, run.group.find('_'));
}

double concentrationOf(const BenchRun& run)
{
    return std::stod(run.group.substr(run.group.find('_') + 1));
}

/// A past loading over another axis of loads.
forecast::PastLoading scaled(forecast::PastLoading past, double times)
{
    past.endLoad *= times;
    for (forecast::CurvePoint& point : past.curve) {
        point.load *= times;
    }
    return past;
}

std::vector<forecast::PastLoading> liquidPast(const std::vector<BenchRun>& runs, const BenchRun& run,
                                              LiquidHistory from)
{
    std::vector<forecast::PastLoading> past;
    for (const BenchRun& other : runs) {
        const bool isSameSize = sizeOf(other) == sizeOf(run);
        const bool isSameGroup = other.group == run.group;
        if (&other == &run || from == LiquidHistory::Nothing) {
            continue;
        }
        if (from == LiquidHistory::OtherSize && !isSameSize) {
            past.push_back(asPast(other, Kinship::SameKind));
        } else if (from == LiquidHistory::OtherConcentrations && isSameSize && !isSameGroup) {
            past.push_back(asPast(other, Kinship::SameType));
        } else if (from == LiquidHistory::OtherConcentrationsOverLoad && isSameSize && !isSameGroup) {
            past.push_back(scaled(asPast(other, Kinship::SameType), concentrationOf(other) / concentrationOf(run)));
        } else if (from == LiquidHistory::SameConcentration && isSameSize) {
            past.push_back(asPast(other, isSameGroup ? Kinship::SameTank : Kinship::SameType));
        }
    }
    return past;
}

} // namespace

std::vector<Reading> sparseReadings(const BenchRun& run)
{
    constexpr int count = 25;
    std::mt19937_64 random(1000U + static_cast<std::uint64_t>(run.id));
    std::vector<Reading> readings;
    for (int i = 0; i < count; ++i) {
        const double seconds = run.lifeSeconds * (i + 0.5) / count;
        const double drop = dropAt(run, seconds) + 0.01 * run.limit * normal(random);
        readings.push_back(
            {seconds, rounded(drop, 0.02 * run.limit) * units::pascal, expanded(0.01 * run.limit, 0.02 * run.limit)});
    }
    return readings;
}

std::vector<Reading> tenSecondReadings(const BenchRun& run)
{
    constexpr double noise = 0.48 / 20.0; // of the limit: standard deviation of the records (its own first seconds)
    std::vector<Reading> readings;
    for (double seconds = 10.0; seconds < run.lifeSeconds; seconds += 10.0) {
        readings.push_back({seconds, rounded(dropAt(run, seconds), run.limit / 40.0) * units::pascal,
                            expanded(noise * run.limit, run.limit / 40.0)});
    }
    return readings;
}

forecast::PastLoading asPast(const BenchRun& run, Kinship kinship)
{
    constexpr double pumpStartSeconds = 5.0;
    forecast::PastLoading past{kinship, {}, run.lifeSeconds, run.limit * units::pascal, false};
    std::vector<double> second;
    for (std::size_t i = 0; i < run.seconds.size(); ++i) {
        second.push_back(run.drop[i]);
        if (second.size() == 5) {
            if (run.seconds[i] > pumpStartSeconds) {
                past.curve.push_back({run.seconds[i] - 0.2, median(second) * units::pascal});
            }
            second.clear();
        }
    }
    return past;
}

Result<forecast::Forecast> forecastAt(const std::vector<Reading>& readings, const BenchRun& run, double share,
                                      const forecast::History& history)
{
    const std::vector<Reading> sofar = upTo(readings, share * run.lifeSeconds);
    const double now = std::max(share * run.lifeSeconds, sofar.empty() ? 0.0 : sofar.back().load);
    const forecast::Question question{.rawLimit = run.limit * units::pascal,
                                      .standingError = {},
                                      .loadNow = now,
                                      .secondsNow = now,
                                      .ahead = {1.0, 1.0, 0.0},
                                      .secondsMax = 1e9};
    return forecast::forecast(sofar, question, history);
}

Table sparse(const std::vector<BenchRun>& runs, const std::vector<Split>& splits, bool isTrainingOnly)
{
    Table table;
    std::set<std::size_t> tested;
    for (const Split& split : splits) {
        const std::vector<std::size_t> places = pastPlaces(split, isTrainingOnly);
        const std::vector<forecast::PastLoading> past = pastOf(runs, places);
        for (const std::size_t place : split.test) {
            const BenchRun& run = runs[place];
            tested.insert(place);
            judgeSparse(run, learned(past, run), table);
            for (const double share : shares) {
                const auto error = [&](double life) {
                    return std::abs(std::max(life, share * run.lifeSeconds) - run.lifeSeconds) / run.lifeSeconds
                        * 100.0;
                };
                table[share].errors["clock, group told"].push_back(error(meanLife(runs, places, run.group)));
                table[share].errors["clock, not told"].push_back(error(meanLife(runs, places, "")));
            }
        }
    }
    for (auto& [share, found] : table) {
        found.runs = tested.size();
    }
    return table;
}

Table sparseWithoutHistory(const std::vector<BenchRun>& runs)
{
    Table table;
    for (const BenchRun& run : runs) {
        judgeSparse(run, learned({}, run), table);
    }
    for (auto& [share, found] : table) {
        found.runs = runs.size();
    }
    return table;
}

Dense dense(const std::vector<BenchRun>& runs, const std::vector<Split>& splits, bool isTrainingOnly)
{
    std::vector<double> ours;
    std::vector<double> clocks;
    for (const Split& split : splits) {
        const std::vector<std::size_t> places = pastPlaces(split, isTrainingOnly);
        std::vector<double> oursHere;
        std::vector<double> clocksHere;
        std::map<std::string, forecast::History> histories;
        for (const std::size_t place : split.test) {
            const BenchRun& run = runs[place];
            if (!histories.contains(run.group)) {
                std::vector<forecast::PastLoading> past;
                for (const std::size_t other : places) {
                    past.push_back(
                        asPast(runs[other], runs[other].group == run.group ? Kinship::SameTank : Kinship::SameType));
                }
                histories[run.group] = learned(past, run);
            }
            const Squares here = denseRun(run, histories[run.group], meanLife(runs, places, run.group));
            oursHere.push_back(here.ours);
            clocksHere.push_back(here.clock);
        }
        ours.push_back(mean(oursHere));
        clocks.push_back(mean(clocksHere));
    }
    Dense result{mean(ours), mean(clocks), 0.0};
    for (const double one : ours) {
        result.oursSd += (one - result.ours) * (one - result.ours) / static_cast<double>(ours.size() - 1);
    }
    result.oursSd = std::sqrt(result.oursSd);
    return result;
}

Table liquid(const std::vector<BenchRun>& runs, LiquidHistory from)
{
    Table table;
    for (const BenchRun& run : runs) {
        const std::vector<Reading> readings = tenSecondReadings(run);
        const forecast::History history = learned(liquidPast(runs, run, from), run);
        for (const double share : shares) {
            Found& found = table[share];
            const double now = share * run.lifeSeconds;
            const auto error = [&](double life) { return std::abs(life - run.lifeSeconds) / (run.lifeSeconds - now); };
            yardsticks(upTo(readings, now), run, now, error, found);
            judge(forecastAt(readings, run, share, history).value(), run, error, 1.0, found);
            found.runs = runs.size();
        }
    }
    return table;
}

} // namespace loopside::evaluation
