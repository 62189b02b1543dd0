// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/band.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace loopside::forecast {

namespace {

constexpr double least = 1e-3; // of the limit: what no gauge tells from nothing

/// The mean of the family's shapes, as ln(drop) over phase.
Eigen::ArrayXd meanOf(const Family& family)
{
    return family.drops.max(least).log().colwise().mean().transpose();
}

double valueAt(const Eigen::ArrayXd& curve, double phase)
{
    const double place = std::clamp(phase, 0.0, 1.0) * phaseSteps;
    const auto below = std::min(static_cast<Eigen::Index>(place), static_cast<Eigen::Index>(phaseSteps - 1));
    const double part = place - static_cast<double>(below);
    return curve(below) * (1.0 - part) + curve(below + 1) * part;
}

/// Drop ÷ limit at `load` if the life is `life`.
double dropAt(const Eigen::ArrayXd& curve, double life, double now, double lnDropNow, double load)
{
    if (load >= life) {
        return 1.0;
    }
    const double phaseNow = std::min(now / life, 1.0);
    const double left = (1.0 - load / life) / std::max(1.0 - phaseNow, 1e-9);
    const double shift = lnDropNow - valueAt(curve, phaseNow);
    return std::min(1.0, std::exp(valueAt(curve, load / life) + shift * left));
}

/// A drop with its probability.
using Chance = std::pair<double, double>;

double quantileOf(const std::vector<Chance>& rising, double part)
{
    double sum = 0.0;
    for (const auto& [drop, mass] : rising) {
        sum += mass;
        if (sum >= part) {
            return drop;
        }
    }
    return rising.back().first;
}

} // namespace

std::vector<BandPoint> bandAhead(const Posterior& lives, const Family& nearest, double now, double dropNow,
                                 std::span<const double> loads)
{
    const Eigen::ArrayXd curve = meanOf(nearest);
    const double lnDropNow = std::log(std::clamp(dropNow, least, 1.0));
    std::vector<BandPoint> band;
    for (const double load : loads) {
        std::vector<Chance> chances;
        for (std::size_t i = 0; i < lives.loads.size(); ++i) {
            chances.emplace_back(dropAt(curve, lives.loads[i], now, lnDropNow, load), lives.masses[i]);
        }
        std::ranges::sort(chances);
        band.push_back({load, quantileOf(chances, 0.1), quantileOf(chances, 0.5), quantileOf(chances, 0.9)});
    }
    return band;
}

} // namespace loopside::forecast
