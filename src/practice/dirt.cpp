// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/dirt.h"

#include "base/require.h"

#include <boost/math/constants/constants.hpp>

#include <numeric>

namespace loopside::practice {

namespace {

/// 1 mg/L of particles of this size, in particles per mL.
double particlesPerMlOfMgPerL(double sizeUm)
{
    constexpr double dirtMgPerCubicUm = 2.65e-9; // 2.65 g/cm³
    constexpr double litresPerMl = 1e-3;
    const double volumeCubicUm = boost::math::constants::pi<double>() / 6.0 * sizeUm * sizeUm * sizeUm;
    return litresPerMl / (volumeCubicUm * dirtMgPerCubicUm);
}

} // namespace

PerClass<double> concentrationsMgPerL(const DirtCounted& dirt)
{
    const std::array<double, sizeClasses> perMl = {dirt.from4PerMl, dirt.from6PerMl, dirt.from14PerMl, dirt.from30PerMl,
                                                   0.0};
    PerClass<double> mgPerL = {dirt.siltMgPerL};
    for (std::size_t i = 1; i < sizeClasses; ++i) {
        require(perMl[i - 1] >= perMl[i], "particles of a size and larger are among those of any smaller size");
        mgPerL[i] = (perMl[i - 1] - perMl[i]) / particlesPerMlOfMgPerL(meanSizesUm[i]);
    }
    return mgPerL;
}

filtration::PerSize<double> countsPerMl(const PerClass<double>& mgPerL)
{
    filtration::PerSize<double> counts = {};
    for (std::size_t i = 1; i < sizeClasses; ++i) {
        const double perMl = mgPerL[i] * particlesPerMlOfMgPerL(meanSizesUm[i]);
        for (std::size_t size = 0; size < counts.size() && size < i; ++size) {
            counts[size] += perMl;
        }
    }
    return counts;
}

double total(const PerClass<double>& dirt)
{
    return std::accumulate(dirt.begin(), dirt.end(), 0.0);
}

} // namespace loopside::practice
