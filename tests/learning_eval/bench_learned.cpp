// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "bench_learned.h"

#include "protocols.h"
#include "run/life_learned.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <random>

namespace loopside::evaluation {

namespace {

constexpr double shares[] = {0.3, 0.5, 0.7, 0.9};

/// Others of `runs`, in an order of `seed`, at most `most`.
std::vector<const BenchRun*> others(const std::vector<BenchRun>& runs, const BenchRun& run, std::size_t most,
                                    bool isOwnGroup)
{
    std::vector<const BenchRun*> found;
    for (const BenchRun& other : runs) {
        if (&other != &run && (!isOwnGroup || other.group == run.group)) {
            found.push_back(&other);
        }
    }
    std::mt19937_64 random(3000U + static_cast<std::uint64_t>(run.id));
    for (std::size_t i = found.size(); i > 1; --i) {
        std::swap(found[i - 1], found[random() % i]);
    }
    found.resize(std::min(found.size(), most));
    return found;
}

void judgeForecast(const BenchRun& run, const std::vector<const BenchRun*>& past, BenchScores& scores)
{
    std::vector<forecast::PastLoading> loadings;
    for (const BenchRun* other : past) {
        loadings.push_back(asPast(*other, forecast::Kinship::SameTank));
    }
    const auto history = forecast::learn(loadings, run.limit * units::pascal).value();
    const auto readings = sparseReadings(run);
    for (const double share : shares) {
        const auto told = forecastAt(readings, run, share, history).value();
        const double life = told.loads.p50.value_or(0.0); // nothing told is all wrong
        scores.errors[share].push_back(100.0 * std::abs(life - run.lifeSeconds) / run.lifeSeconds);
    }
}

void judgeLife(const BenchRun& run, const std::vector<const BenchRun*>& past, BenchScores& scores)
{
    std::vector<run::ElementLife> lives;
    for (const BenchRun* other : past) {
        lives.push_back({other->group, other->lifeSeconds, false});
    }
    if (const auto band = run::lifeLearned(lives).litres) {
        scores.lifeErrors.push_back(100.0 * std::abs(std::log(band->best / run.lifeSeconds)));
        scores.lifeCovered.push_back(band->low <= run.lifeSeconds && run.lifeSeconds <= band->high);
        scores.lifeWidths.push_back(band->high / band->low);
    }
}

/// What the gauges show of a filter at the start: the mean of the first part of its life, as run/tank_learned.h takes
/// it; nothing where that is not above 0.
std::optional<double> cleanOf(const BenchRun& run)
{
    constexpr double firstPart = 0.05;
    double sum = 0.0;
    int count = 0;
    for (std::size_t i = 0; i < run.seconds.size() && run.seconds[i] <= firstPart * run.lifeSeconds; ++i) {
        sum += run.drop[i];
        ++count;
    }
    return count > 0 && sum > 0.0 ? std::optional(sum / count) : std::nullopt;
}

void judgeClean(const BenchRun& run, const std::vector<const BenchRun*>& past, BenchScores& scores)
{
    constexpr double spread = 0.1;
    constexpr double unsure = 0.02;
    std::vector<run::ValueSeen> seen;
    for (const BenchRun* other : past) {
        if (const auto clean = cleanOf(*other)) {
            seen.push_back({*clean, false, unsure});
        }
    }
    const auto clean = cleanOf(run);
    if (!clean || seen.empty()) {
        return;
    }
    const filtration::Band band = run::NextValue::from(seen, {.spread = spread}).band();
    scores.cleanErrors.push_back(100.0 * std::abs(std::log(band.best / *clean)));
    scores.cleanCovered.push_back(band.low <= *clean && *clean <= band.high);
}

} // namespace

BenchScores benchLearned(const std::vector<BenchRun>& runs, int past, bool isOwnGroup)
{
    BenchScores scores;
    for (const BenchRun& run : runs) {
        const auto behind = others(runs, run, static_cast<std::size_t>(past), isOwnGroup);
        judgeForecast(run, behind, scores);
        judgeLife(run, behind, scores);
        judgeClean(run, behind, scores);
    }
    return scores;
}

} // namespace loopside::evaluation
