// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/mixed_tank.h"

#include <cmath>

namespace loopside::practice {

namespace {

/// (1 − e^−x)/x: the mean of a decay over a step.
double meanOfDecay(double x)
{
    return x > 1e-8 ? -std::expm1(-x) / x : 1.0 - 0.5 * x;
}

/// (1 − meanOfDecay)/x: the mean of what comes in evenly and decays.
double meanOfIngress(double x)
{
    return x > 1e-3 ? (1.0 - meanOfDecay(x)) / x : 0.5 - x / 6.0 + x * x / 24.0;
}

} // namespace

MixedContent mixedStep(double perLitre, units::Volume tank, units::Flow throughFlow, double share,
                       double ingressPerMinute, units::Duration duration)
{
    const double litres = tank.in(units::litre);
    const double x = (throughFlow * duration) / tank * share;
    const double cameIn = ingressPerMinute * duration.in(units::minute);
    const double mean = perLitre * meanOfDecay(x) + cameIn / litres * meanOfIngress(x);
    const double takenOut = x * litres * mean;
    return {perLitre + (cameIn - takenOut) / litres, cameIn, takenOut};
}

} // namespace loopside::practice
