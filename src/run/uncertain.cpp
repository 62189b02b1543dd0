// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/uncertain.h"

#include <boost/math/distributions/normal.hpp>

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

double square(double number)
{
    return number * number;
}

} // namespace

double asDeviates(double chance)
{
    constexpr double least = 1e-12;
    return boost::math::quantile(boost::math::normal(), std::clamp(chance, least, 1.0 - least));
}

double asChance(double deviates)
{
    return boost::math::cdf(boost::math::normal(), deviates);
}

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

double Ratio::above(double bound) const
{
    const double variance = dividendVariance - 2.0 * bound * covariance + bound * bound * divisorVariance;
    return Uncertain{dividend - bound * divisor, std::sqrt(std::max(0.0, variance))}.above(0.0);
}

Ratio Ratio::byReadingAlone() const
{
    Ratio alone = *this;
    if (standingVariance > 0.0) {
        alone.dividendVariance -= standingVariance;
        alone.divisorVariance -= square(covariance) / standingVariance;
        alone.covariance = 0.0;
        alone.standingVariance = 0.0;
    }
    return alone;
}

Ratio Ratio::over(const Uncertain& by) const
{
    return {.value = value / by.value,
            .dividend = dividend,
            .divisor = divisor * by.value,
            .dividendVariance = dividendVariance,
            .divisorVariance = divisorVariance * square(by.value) + square(divisor * by.sd),
            .covariance = covariance * by.value,
            .standingVariance = standingVariance};
}

Uncertain Ratio::toFirstOrder() const
{
    const double variance = dividendVariance - 2.0 * value * covariance + value * value * divisorVariance;
    return {value, std::sqrt(std::max(0.0, variance)) / divisor};
}

Ratio moved(const Measured& now, const Measured& then, const Uncertain& factor)
{
    const double standing = std::max(now.standing, then.standing).in(pascal);
    const double expected = then.value.in(pascal)*factor.value;
    const double ofThen = std::hypot(then.reading.in(pascal)*factor.value, then.value.in(pascal)*factor.sd);
    return {.value = expected > 0.0 ? now.value.in(pascal) / expected : 1.0,
            .dividend = now.value.in(pascal),
            .divisor = expected,
            .dividendVariance = square(now.reading.in(pascal)) + square(standing),
            .divisorVariance = square(ofThen) + square(factor.value * standing),
            .covariance = factor.value * square(standing),
            .standingVariance = square(standing)};
}

Ratio movedBeside(const Measured& aNow, const Measured& aThen, const Measured& bNow, const Measured& bThen)
{
    const auto pa = [](Pressure pressure) { return pressure.in(pascal); };
    const double a = pa(aNow.value) * pa(bThen.value);
    const double b = pa(aThen.value) * pa(bNow.value);
    const double standingOfA = square(pa(std::max(aNow.standing, aThen.standing)));
    const double standingOfB = square(pa(std::max(bNow.standing, bThen.standing)));
    const double ofA = square(pa(bThen.value)) * (square(pa(aNow.reading)) + standingOfA)
        + square(pa(aNow.value)) * (square(pa(bThen.reading)) + standingOfB);
    const double ofB = square(pa(bNow.value)) * (square(pa(aThen.reading)) + standingOfA)
        + square(pa(aThen.value)) * (square(pa(bNow.reading)) + standingOfB);
    const double shared = pa(bThen.value) * pa(bNow.value) * standingOfA
        + pa(aNow.value) * pa(aThen.value) * standingOfB;
    return {.value = b > 0.0 ? a / b : 1.0,
            .dividend = a,
            .divisor = b,
            .dividendVariance = ofA,
            .divisorVariance = ofB,
            .covariance = shared};
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
