// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/count_error.h"

#include "filtration/checks.h"
#include "oil/water.h"

#include <boost/math/special_functions/beta.hpp>
#include <boost/math/special_functions/gamma.hpp>

#include <cmath>

namespace loopside::filtration {

namespace {

constexpr double tail = 0.05;
constexpr double deviations = 1.6448536269514722; // of a normal distribution, to one tail of `tail`
constexpr double holdsFrom = 0.5;
constexpr double lowBelow = 0.75;

Done checkCount(const CountSeen& count, std::string_view which)
{
    if (const auto done = checkZeroOrMore(count.perMl, std::string(which) + " count", "per mL"); !done) {
        return done;
    }
    if (count.particles) {
        if (const auto done = checkZeroOrMore(*count.particles, "number of particles", ""); !done) {
            return done;
        }
    }
    return checkZeroOrMore(count.spread, "spread of the " + std::string(which) + " count", "");
}

Done checkPair(const CountSeen& first, const CountSeen& second, double scatter)
{
    Done done = checkCount(first, "first");
    done = done ? checkCount(second, "second") : done;
    done = done ? checkAboveZero(first.perMl, "first count", "per mL") : done;
    done = done ? checkZeroOrMore(scatter, "scatter of a test", "") : done;
    if (done && second.perMl <= 0.0 && (!first.particles || !second.particles)) {
        return fail(Errc::Unavailable,
                    "None was counted, and of how much oil is not told: how few there are cannot be said.");
    }
    return done;
}

/// The share of the second count in the sum of both, were they of as much oil.
Interval shareLikely(double first, double second)
{
    const double low = second > 0.0 ? boost::math::ibeta_inv(second, first + 1.0, tail) : 0.0;
    const double high = first > 0.0 ? boost::math::ibeta_inv(second + 1.0, first, 1.0 - tail) : 1.0;
    return {low, high};
}

/// The ratio from counting alone; both numbers of particles are told.
Interval ratioByCounting(const CountSeen& first, const CountSeen& second)
{
    const Interval share = shareLikely(*first.particles, *second.particles);
    const double firstMl = *first.particles / first.perMl;
    const double secondMl = second.perMl > 0.0 ? *second.particles / second.perMl : firstMl;
    const double scale = firstMl / secondMl;
    return {scale * share.low / (1.0 - share.low), scale * share.high / (1.0 - share.high)};
}

double squared(double x)
{
    return x * x;
}

/// How far ln of the ratio may be off for all but counting that is worked out exactly.
double otherError(const CountSeen& first, const CountSeen& second, double scatter, bool isCountingExact)
{
    double variance = 2.0 * squared(scatter) + squared(first.spread) + squared(second.spread);
    for (const CountSeen* count : {&first, &second}) {
        const bool isKnown = count->particles && *count->particles > 0.0;
        variance += !isCountingExact && isKnown ? 1.0 / *count->particles : 0.0;
    }
    return deviations * std::sqrt(variance);
}

bool hasParticles(const CountSeen& count)
{
    return count.particles && (*count.particles > 0.0 || count.perMl <= 0.0);
}

} // namespace

Result<Interval> particlesLikely(double particles)
{
    if (const auto done = checkZeroOrMore(particles, "number of particles", ""); !done) {
        return fail(done.error());
    }
    const double low = particles > 0.0 ? boost::math::gamma_p_inv(particles, tail) : 0.0;
    return Interval{low, boost::math::gamma_q_inv(particles + 1.0, tail)};
}

Result<Interval> perMlLikely(double particles, units::Volume counted)
{
    const double millilitres = counted.in(units::millilitre);
    if (const auto done = checkAboveZero(millilitres, "volume that was counted", "mL"); !done) {
        return fail(done.error());
    }
    return particlesLikely(particles).transform(
        [&](const Interval& seen) { return Interval{seen.low / millilitres, seen.high / millilitres}; });
}

Result<Band> ratioOf(const CountSeen& first, const CountSeen& second, double scatter)
{
    if (const auto done = checkPair(first, second, scatter); !done) {
        return fail(done.error());
    }
    const double ratio = second.perMl / first.perMl;
    const bool isExact = hasParticles(first) && hasParticles(second);
    const double other = otherError(first, second, scatter, isExact);
    if (!isExact) {
        return Band{ratio * std::exp(-other), ratio, ratio * std::exp(other)};
    }
    const Interval counted = ratioByCounting(first, second);
    if (second.perMl <= 0.0) {
        return Band{0.0, 0.0, counted.high * std::exp(other)};
    }
    const double down = std::hypot(std::log(counted.low / ratio), other);
    const double up = std::hypot(std::log(counted.high / ratio), other);
    return Band{ratio * std::exp(-down), ratio, ratio * std::exp(up)};
}

oil::CodeChange changeOf(const Band& ratio)
{
    if (ratio.high < 1.0) {
        return oil::CodeChange::Cleaner;
    }
    return ratio.low > 1.0 ? oil::CodeChange::Dirtier : oil::CodeChange::NotProven;
}

Result<Band> captureOf(const CountSeen& before, const CountSeen& behind, double scatter)
{
    return ratioOf(before, behind, scatter).transform([](const Band& passed) {
        return Band{1.0 - passed.high, 1.0 - passed.best, 1.0 - passed.low};
    });
}

CaptureJudged judgeCapture(const Band& capture, double beforePerMl, bool isRatedFor)
{
    if (capture.low >= holdsFrom) {
        return CaptureJudged::Holds;
    }
    const bool isJudged = isRatedFor && beforePerMl >= leastToJudgePerMl;
    return isJudged && capture.high < lowBelow ? CaptureJudged::Low : CaptureJudged::NotProven;
}

Result<WaterTaken> waterTaken(units::Volume oil, units::Density density, units::Fraction before, units::Fraction after,
                              units::Volume capacity)
{
    if (const auto done = checkAboveZero(capacity.in(units::litre), "capacity for water", "L"); !done) {
        return fail(done.error());
    }
    return oil::waterToRemove(oil, density, before, after).transform([&](units::Volume taken) {
        return WaterTaken{taken, taken / capacity};
    });
}

} // namespace loopside::filtration
