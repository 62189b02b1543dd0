// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/tank_learned.h"

#include "filtration/tank.h"
#include "run/next_value.h"
#include "run/six_digits.h"
#include "run/tank_ahead.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace loopside::run {

namespace {

constexpr double floorLeast = 1e-4;
constexpr double floorMost = 0.5;
constexpr double cleanSpread = 0.1;  // of ln(clean ΔP) from set to set, ours
constexpr double cleanUnsure = 0.3;  // of what was told: dials may be off by that much of so small a ΔP, ours
constexpr double firstPart = 0.05;   // of a life: elements are as good as clean
constexpr double leastUnsure = 0.02; // of one first reading

/// Points of a grid with the logarithms of their weights.
struct Grid
{
    std::vector<double> values;
    std::vector<double> lnWeights;

    /// The value below which `part` of the weight lies.
    [[nodiscard]] double quantile(double part) const
    {
        const double most = *std::max_element(lnWeights.begin(), lnWeights.end());
        double sum = 0.0;
        for (const double weight : lnWeights) {
            sum += std::exp(weight - most);
        }
        double below = 0.0;
        for (std::size_t i = 0; i < values.size(); ++i) {
            below += std::exp(lnWeights[i] - most);
            if (below >= part * sum) {
                return values[i];
            }
        }
        return values.back();
    }

    [[nodiscard]] filtration::Band band() const { return {quantile(0.05), quantile(0.5), quantile(0.95)}; }
};

/// Two counts of one size, one after the other.
struct Pair
{
    double from;
    double to;
    double fromVariance; ///< Of the logarithms.
    double toVariance;
};

std::optional<Pair> pairOf(const std::string& from, const std::string& to, std::size_t size)
{
    const auto first = oil::CleanlinessCode::parse(from);
    const auto second = oil::CleanlinessCode::parse(to);
    if (!first || !second) {
        return std::nullopt;
    }
    const auto was = filtration::countSeen(0.0, first->scales()[size]);
    const auto is = filtration::countSeen(0.0, second->scales()[size]);
    if (!was || !is) {
        return std::nullopt;
    }
    const double scatter = filtration::testScatter * filtration::testScatter;
    return Pair{was->perMl, is->perMl, scatter + was->spread * was->spread, scatter + is->spread * is->spread};
}

/// ln of how likely a cleaning is with `k`, whatever its floor.
double lnLikelihood(const Pair& pair, double turnovers, double k)
{
    constexpr int floors = 12;
    const double sd = std::sqrt(pair.fromVariance + pair.toVariance);
    double sum = 0.0;
    for (int i = 0; i <= floors; ++i) {
        const double floor = floorLeast * std::pow(floorMost / floorLeast, 1.0 * i / floors);
        const double left = std::log(floor + (1.0 - floor) * std::exp(-k * turnovers));
        const double off = (std::log(pair.to / pair.from) - left) / sd;
        sum += std::exp(-0.5 * off * off);
    }
    return std::log(std::max(sum, 1e-300));
}

/// The pairs of the sizes that are counted in both.
std::vector<Pair> pairsOf(const std::string& from, const std::string& to)
{
    std::vector<Pair> pairs;
    for (std::size_t size = 0; size < filtration::PerSize<int>().size(); ++size) {
        if (const auto pair = pairOf(from, to, size)) {
            pairs.push_back(*pair);
        }
    }
    return pairs;
}

void learn(Grid& grid, const std::vector<Pair>& pairs, double turnovers)
{
    for (std::size_t i = 0; i < grid.values.size(); ++i) {
        for (const Pair& pair : pairs) {
            grid.lnWeights[i] += lnLikelihood(pair, turnovers, grid.values[i]) / static_cast<double>(pairs.size());
        }
    }
}

struct Rise
{
    Pair pair;
    double days;
};

/// Rates from far below to far above what any of `rises` may show.
Grid ratesFor(const std::vector<Rise>& rises)
{
    constexpr int steps = 240;
    double least = 1e300;
    double most = 0.0;
    for (const Rise& rise : rises) {
        least = std::min(least, 1e-3 * std::min(rise.pair.from, rise.pair.to) / rise.days);
        most = std::max(most, 1e2 * rise.pair.to / rise.days);
    }
    Grid grid;
    for (int i = 0; i <= steps; ++i) {
        grid.values.push_back(least * std::pow(most / least, 1.0 * i / steps));
        grid.lnWeights.push_back(0.0);
    }
    return grid;
}

double lnLikelihood(const Rise& rise, double perDay)
{
    const double expected = rise.pair.from + perDay * rise.days;
    const double ofStart = rise.pair.from / expected; // how much of the first count's error is left
    const double variance = rise.pair.toVariance + ofStart * ofStart * rise.pair.fromVariance;
    const double off = std::log(rise.pair.to / expected);
    return -0.5 * off * off / variance - 0.5 * std::log(variance);
}

/// Whether elements of one stage record can be held against those of the other.
bool isAlike(const StageRecord& one, const StageRecord& other)
{
    return one.elements == other.elements && one.cleanAt == other.cleanAt && one.cleanDpHousing == other.cleanDpHousing;
}

/// The drop of a set of new elements in its first readings; nothing where it tells none.
std::optional<ValueSeen> cleanSeen(const LoadingLearned& learned)
{
    double sum = 0.0;
    int count = 0;
    for (const LoadingLearned::Point& point : learned.curve) {
        if (count > 0 && point.load_l > firstPart * learned.end_l) {
            break;
        }
        sum += point.drop_pa;
        ++count;
    }
    if (count == 0 || !(sum > 0.0)) {
        return std::nullopt;
    }
    const double drop = sum / count;
    const double unsure = 0.5 * learned.readingError_pa / drop / std::sqrt(count); // told with k = 2
    return ValueSeen{drop, false, std::max(leastUnsure, unsure)};
}

} // namespace

MixingLearned mixingLearned(const TankPast& past, const std::optional<Decimal>& told)
{
    constexpr int steps = 200;
    MixingLearned learned;
    learned.told = told ? told->toDouble() : filtration::mixingOf(filtration::HosePlacement::Unknown).factor;
    Grid grid;
    for (int i = 1; i <= steps; ++i) {
        const double k = 1.0 * i / steps;
        const double off = (k - learned.told) / (mixingUnsure * learned.told);
        grid.values.push_back(k);
        grid.lnWeights.push_back(-0.5 * off * off);
    }
    for (const CleanedBy& cleaned : past.cleanings) {
        const auto pairs = pairsOf(cleaned.from, cleaned.to);
        if (!pairs.empty() && cleaned.turnovers > 0.0) {
            learn(grid, pairs, cleaned.turnovers);
            ++learned.runs;
        }
    }
    learned.captureTimesMixing = grid.band();
    return learned;
}

filtration::PerSize<std::optional<IngressLearned>> ingressLearned(const TankPast& past)
{
    filtration::PerSize<std::optional<IngressLearned>> sizes;
    for (std::size_t size = 0; size < sizes.size(); ++size) {
        std::vector<Rise> rises;
        for (const Ingress& ingress : past.ingresses) {
            const auto pair = ingress.isOfTank ? pairOf(ingress.from, ingress.to, size) : std::nullopt;
            if (pair) {
                rises.push_back({*pair, ingress.days});
            }
        }
        if (rises.empty()) {
            continue;
        }
        Grid grid = ratesFor(rises);
        for (std::size_t i = 0; i < grid.values.size(); ++i) {
            for (const Rise& rise : rises) {
                grid.lnWeights[i] += lnLikelihood(rise, grid.values[i]);
            }
        }
        sizes[size] = IngressLearned{grid.band(), static_cast<int>(rises.size())};
    }
    return sizes;
}

CleanLearned cleanLearned(const State& state, const Setup& setup, int stage)
{
    const StageRecord& record = setup.stages[static_cast<std::size_t>(stage) - 1];
    std::vector<ValueSeen> seen;
    for (const auto& [id, run] : state.runs) {
        for (const LoadingLearned& learned : run.taught) {
            const auto place = static_cast<std::size_t>(learned.stage) - 1;
            const bool isSame = !record.type.empty() && learned.elementType == record.type && learned.stage == stage
                && run.setup.cart.name == setup.cart.name && place < run.setup.stages.size()
                && isAlike(run.setup.stages[place], record);
            const auto clean = isSame && !learned.isUsed && !learned.isWithdrawn ? cleanSeen(learned) : std::nullopt;
            if (clean) {
                seen.push_back(*clean);
            }
        }
    }
    Beforehand beforehand{.spread = cleanSpread, .toldUnsure = cleanUnsure};
    if (record.cleanDp) {
        beforehand.told = record.cleanDp->value().in(units::pascal);
    }
    const NextValue next = NextValue::from(seen, beforehand);
    return {next.isKnown() ? std::optional(next.band()) : std::nullopt, static_cast<int>(seen.size())};
}

PlaceLearned placeLearned(const State& state, const Setup& setup)
{
    PlaceLearned learned;
    const TankPast past = pastOf(state, setup.tank.name);
    if (MixingLearned mixing = mixingLearned(past, setup.tank.mixing); mixing.runs > 0) {
        mixing.captureTimesMixing = sixDigits(mixing.captureTimesMixing);
        learned.mixing = mixing;
    }
    learned.ingress = ingressLearned(past);
    for (auto& size : learned.ingress) {
        if (size) {
            size->perMlADay = sixDigits(size->perMlADay);
        }
    }
    for (std::size_t i = 0; i < setup.stages.size(); ++i) {
        CleanLearned clean = cleanLearned(state, setup, static_cast<int>(i) + 1);
        if (clean.runs > 0 && clean.drop_pa) {
            clean.drop_pa = sixDigits(*clean.drop_pa);
            learned.clean.resize(i);
            learned.clean.push_back(clean);
        }
    }
    return learned;
}

} // namespace loopside::run
