// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "scores.h"

#include <boost/math/distributions/binomial.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace loopside::evaluation {

double median(std::vector<double> values)
{
    if (values.empty()) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    std::ranges::sort(values);
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

double mean(std::span<const double> values)
{
    return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double brierScore(std::span<const Told> told)
{
    double sum = 0.0;
    for (const Told& one : told) {
        const double off = one.probability - (one.cameTrue ? 1.0 : 0.0);
        sum += off * off;
    }
    return sum / static_cast<double>(told.size());
}

double brierSkill(std::span<const Told> told)
{
    const auto came = static_cast<double>(std::ranges::count_if(told, [](const Told& one) { return one.cameTrue; }));
    const double rate = came / static_cast<double>(told.size());
    const double base = rate * (1.0 - rate);
    return base > 0.0 ? 1.0 - brierScore(told) / base : 0.0;
}

std::vector<ReliabilityBin> reliability(std::span<const Told> told, int bins)
{
    std::vector<ReliabilityBin> table(static_cast<std::size_t>(bins));
    for (const Told& one : told) {
        const auto place = std::min(static_cast<int>(one.probability * bins), bins - 1);
        ReliabilityBin& bin = table[static_cast<std::size_t>(place)];
        ++bin.count;
        bin.told += one.probability;
        bin.came += one.cameTrue ? 1.0 : 0.0;
    }
    for (ReliabilityBin& bin : table) {
        if (bin.count > 0) {
            bin.told /= bin.count;
            bin.came /= bin.count;
        }
    }
    return table;
}

double crps(const forecast::Posterior& posterior, double truth)
{
    // F at the middles; straight between, so each piece integrates exactly once the truth is made a corner.
    struct Corner
    {
        double load, below;
    };
    std::vector<Corner> corners;
    double sum = 0.0;
    for (std::size_t i = 0; i < posterior.loads.size(); ++i) {
        corners.push_back({posterior.loads[i], sum + posterior.masses[i] / 2.0});
        sum += posterior.masses[i];
    }
    double score = 0.0;
    const auto piece = [&](Corner a, Corner b, double step) {
        const double from = a.below - step;
        const double to = b.below - step;
        score += (b.load - a.load) * (from * from + from * to + to * to) / 3.0;
    };
    for (std::size_t i = 0; i + 1 < corners.size(); ++i) {
        const Corner a = corners[i];
        const Corner b = corners[i + 1];
        if (truth <= a.load || truth >= b.load) {
            piece(a, b, truth <= a.load ? 1.0 : 0.0);
            continue;
        }
        const double part = (truth - a.load) / (b.load - a.load);
        const Corner at{truth, a.below + part * (b.below - a.below)};
        piece(a, at, 0.0);
        piece(at, b, 1.0);
    }
    return score + std::max(corners.front().load - truth, 0.0) + std::max(truth - corners.back().load, 0.0);
}

Band binomialBand(int count, double probability)
{
    const boost::math::binomial_distribution<double> inside(count, probability);
    return {boost::math::quantile(inside, 0.025) / count,
            boost::math::quantile(boost::math::complement(inside, 0.025)) / count};
}

bool covers(const forecast::Posterior& posterior, double share, double truth)
{
    return quantile(posterior, 0.5 - share / 2.0) <= truth && truth <= quantile(posterior, 0.5 + share / 2.0);
}

} // namespace loopside::evaluation
