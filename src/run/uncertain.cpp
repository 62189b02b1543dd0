// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/uncertain.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using units::pascal;
using units::Pressure;

Pressure inQuadrature(Pressure a, Pressure b)
{
    return std::hypot(a.in(pascal), b.in(pascal)) * pascal;
}

} // namespace

double Uncertain::above(double bound) const
{
    constexpr double least = 1e-9; // so that an exact number compares too
    return (value - bound) / std::max(sd, least);
}

Measured operator+(const Measured& a, const Measured& b)
{
    return {a.value + b.value, inQuadrature(a.reading, b.reading), inQuadrature(a.standing, b.standing)};
}

Measured operator-(const Measured& a, const Measured& b)
{
    return {a.value - b.value, inQuadrature(a.reading, b.reading), inQuadrature(a.standing, b.standing)};
}

Uncertain moved(const Measured& now, const Measured& then, const Uncertain& factor)
{
    const Pressure expected = then.value * factor.value;
    const double times = now.value / expected;
    const double ofNow = now.reading / expected;
    const double ofThen = times * (then.reading / then.value);
    const double ofStanding = (now.standing / expected) * (1.0 - factor.value);
    const double ofFactor = times * factor.sd / factor.value;
    return {times, std::sqrt(ofNow * ofNow + ofThen * ofThen + ofStanding * ofStanding + ofFactor * ofFactor)};
}

Uncertain against(const Measured& now, Pressure expected, double relativeSd)
{
    const double times = now.value / expected;
    return {times, std::hypot(now.reading / expected, now.standing / expected, times * relativeSd)};
}

Uncertain quotient(const Uncertain& a, const Uncertain& b)
{
    const double ratio = a.value / b.value;
    return {ratio, std::hypot(a.sd / b.value, ratio * b.sd / b.value)};
}

} // namespace loopside::run
