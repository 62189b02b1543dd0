// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The outside witnesses: Boost.Math's distributions (the code inverts incomplete gamma and beta functions itself), the
// interval of Wilson (JASA 22, 1927) worked out here, Garwood's table, and draws of Poisson counts.

#include "filtration/count_error.h"

#include "filtration/refusal.h"

#include <boost/math/distributions/binomial.hpp>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/poisson.hpp>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside::filtration;
using loopside::Errc;
using loopside::oil::CodeChange;
using loopside::test::refusal;
namespace units = loopside::units;

namespace {

constexpr double noScatter = 0.0;

CountSeen counted(double perMl, double particles)
{
    return {.turnovers = 0.0, .perMl = perMl, .particles = particles};
}

CountSeen told(double perMl)
{
    return {.turnovers = 0.0, .perMl = perMl};
}

/// Wilson's interval of a share, k of n, to 90 %.
Interval wilson(double k, double n)
{
    const double z = boost::math::quantile(boost::math::normal(), 0.95);
    const double p = k / n;
    const double middle = (p + z * z / (2.0 * n)) / (1.0 + z * z / n);
    const double half = z / (1.0 + z * z / n) * std::sqrt(p * (1.0 - p) / n + z * z / (4.0 * n * n));
    return {middle - half, middle + half};
}

double shareOf(double ratio)
{
    return ratio / (1.0 + ratio);
}

} // namespace

TEST_CASE("the interval of a count is that of the Poisson distribution")
{
    const double seen = GENERATE(1.0, 2.0, 5.0, 10.0, 20.0, 100.0, 400.0, 5000.0);
    CAPTURE(seen);
    const Interval likely = particlesLikely(seen).value();
    // as many as seen or more at the low end, as many or fewer at the high one: a twentieth each
    CHECK_THAT(boost::math::cdf(complement(boost::math::poisson(likely.low), seen - 1.0)), WithinAbs(0.05, 1e-9));
    CHECK_THAT(boost::math::cdf(boost::math::poisson(likely.high), seen), WithinAbs(0.05, 1e-9));
    // Garwood: half a quantile of chi squared
    CHECK_THAT(likely.low, WithinRel(boost::math::quantile(boost::math::chi_squared(2.0 * seen), 0.05) / 2.0, 1e-9));
    CHECK_THAT(likely.high,
               WithinRel(boost::math::quantile(boost::math::chi_squared(2.0 * seen + 2.0), 0.95) / 2.0, 1e-9));
}

TEST_CASE("the interval of few particles is that of Garwood's table")
{
    // 90 % limits as in tables of Poisson confidence limits after Garwood (1936), from memory
    CHECK_THAT(particlesLikely(0.0).value().high, WithinAbs(3.00, 0.005));
    CHECK_THAT(particlesLikely(1.0).value().low, WithinAbs(0.0513, 0.0001));
    CHECK_THAT(particlesLikely(1.0).value().high, WithinAbs(4.74, 0.005));
    CHECK_THAT(particlesLikely(10.0).value().low, WithinAbs(5.43, 0.005));
    CHECK_THAT(particlesLikely(10.0).value().high, WithinAbs(16.96, 0.005));
    CHECK(particlesLikely(0.0).value().low == 0.0);
}

TEST_CASE("for many particles the interval is the root of their number")
{
    // 100/√N %: 5 % of 400, 10 % of 100 (reference.md 3.1, computed)
    const double seen = GENERATE(10'000.0, 250'000.0);
    const Interval likely = particlesLikely(seen).value();
    CHECK_THAT((likely.high - likely.low) / (2.0 * seen), WithinRel(1.645 / std::sqrt(seen), 0.01));
}

TEST_CASE("a count per mL is as unsure as the particles that were seen")
{
    const Interval likely = perMlLikely(20.0, 10.0 * units::millilitre).value();
    CHECK_THAT(likely.low, WithinRel(particlesLikely(20.0).value().low / 10.0, 1e-12));
    CHECK_THAT(likely.high, WithinRel(particlesLikely(20.0).value().high / 10.0, 1e-12));
    CHECK_THAT(refusal(perMlLikely(20.0, 0.0 * units::litre)), Contains("volume that was counted"));
    CHECK_THAT(refusal(particlesLikely(-1.0)), Contains("number of particles"));
}

TEST_CASE("the ratio of two counts has the bounds of a binomial share")
{
    const auto [first, second] = GENERATE(
        table<double, double>({{5200.0, 410.0}, {410.0, 22.0}, {410.0, 395.0}, {40.0, 1.0}, {12.0, 30.0}}));
    CAPTURE(first, second);
    const Band ratio = ratioOf(counted(first, first), counted(second, second), noScatter).value();
    using boost::math::binomial;
    CHECK_THAT(shareOf(ratio.low), WithinRel(binomial::find_lower_bound_on_p(first + second, second, 0.05), 1e-6));
    CHECK_THAT(shareOf(ratio.high), WithinRel(binomial::find_upper_bound_on_p(first + second, second, 0.05), 1e-6));
    CHECK_THAT(ratio.best, WithinRel(second / first, 1e-12));
}

TEST_CASE("with many particles the ratio has Wilson's bounds too")
{
    const auto [first, second] = GENERATE(table<double, double>({{5200.0, 4100.0}, {4100.0, 2200.0}, {900.0, 950.0}}));
    const Band ratio = ratioOf(counted(first, first), counted(second, second), noScatter).value();
    const Interval share = wilson(second, first + second);
    // the exact interval is about half a particle wider on each side
    CHECK_THAT(shareOf(ratio.low), WithinAbs(share.low, 1.0 / (first + second)));
    CHECK_THAT(shareOf(ratio.high), WithinAbs(share.high, 1.0 / (first + second)));
    CHECK(shareOf(ratio.low) <= share.low + 1e-9);
    CHECK(shareOf(ratio.high) >= share.high - 1e-9);
}

TEST_CASE("the band of a ratio holds the truth nine times in ten and more")
{
    std::mt19937_64 random(7);
    const auto [before, behind] = GENERATE(table<double, double>({{300.0, 20.0}, {60.0, 3.0}, {2000.0, 1800.0}}));
    std::poisson_distribution<int> first(before);
    std::poisson_distribution<int> second(behind);
    int held = 0;
    constexpr int draws = 2000;
    for (int i = 0; i < draws; ++i) {
        const double a = first(random);
        const double b = second(random);
        const Band ratio = ratioOf(counted(a, a), counted(b, b), noScatter).value();
        held += ratio.low <= behind / before && behind / before <= ratio.high ? 1 : 0;
    }
    CHECK(held >= draws * 88 / 100); // 90 % less three standard deviations of the draws
}

TEST_CASE("volumes that differ do not change the ratio of what is per mL")
{
    const Band ratio = ratioOf(counted(100.0, 1000.0), counted(50.0, 5000.0), noScatter).value();
    CHECK_THAT(ratio.best, WithinRel(0.5, 1e-12));
    CHECK(ratio.low < 0.5);
    CHECK(ratio.high > 0.5);
    CHECK(ratio.low > 0.45);
    CHECK(ratio.high < 0.55);
}

TEST_CASE("the scatter of two tests alone allows no more than a number and a half of change")
{
    // one number is two standard deviations of a test (ln 2 / 2): two tests differ by √2 of it
    const Band ratio = ratioOf(told(1000.0), told(1000.0)).value();
    CHECK_THAT(std::log2(ratio.high), WithinAbs(1.645 * std::sqrt(2.0) / 2.0, 0.001));
    CHECK_THAT(ratio.low * ratio.high, WithinRel(1.0, 1e-12));
}

TEST_CASE("a change is told only beyond the scatter")
{
    CHECK(changeOf(ratioOf(told(1000.0), told(500.0)).value()) == CodeChange::NotProven);
    CHECK(changeOf(ratioOf(told(1000.0), told(400.0)).value()) == CodeChange::Cleaner);
    CHECK(changeOf(ratioOf(told(400.0), told(1000.0)).value()) == CodeChange::Dirtier);
    // of a few particles even a third is no proof
    CHECK(changeOf(ratioOf(counted(12.0, 12.0), counted(4.0, 4.0)).value()) == CodeChange::NotProven);
}

TEST_CASE("none behind a stage still leaves what may have been missed")
{
    const Band capture = captureOf(counted(100.0, 100.0), counted(0.0, 0.0), noScatter).value();
    CHECK(capture.high == 1.0);
    CHECK(capture.best == 1.0);
    // fewer than three in as much oil with 95 % ("rule of three"), the spread of the 100 beside it
    CHECK_THAT(capture.low, WithinAbs(0.970, 0.001));
    CHECK_THAT(refusal(captureOf(told(100.0), told(0.0)), Errc::Unavailable), Contains("how few there are"));
    CHECK_THAT(refusal(captureOf(told(0.0), told(10.0))), Contains("first count"));
    CHECK_THAT(refusal(captureOf(told(100.0), counted(10.0, -1.0))), Contains("number of particles"));
}

TEST_CASE("three ports show the stage that leaks")
{
    // worked point: 5200, 410 and 22 per mL hold back 92 and 95 %; 395 at the last port are 4 %, a leak
    const Band first = captureOf(told(5200.0), told(410.0)).value();
    const Band second = captureOf(told(410.0), told(22.0)).value();
    const Band leaking = captureOf(told(410.0), told(395.0)).value();
    CHECK_THAT(first.best, WithinAbs(0.92, 0.005));
    CHECK_THAT(second.best, WithinAbs(0.95, 0.005));
    CHECK_THAT(leaking.best, WithinAbs(0.04, 0.005));
    CHECK(judgeCapture(first, 5200.0, false) == CaptureJudged::Holds);
    CHECK(judgeCapture(second, 410.0, true) == CaptureJudged::Holds);
    CHECK(judgeCapture(leaking, 410.0, true) == CaptureJudged::Low);
}

TEST_CASE("a stage is not blamed for what it is not rated for, nor in oil that is nearly empty")
{
    const Band leaking = captureOf(told(410.0), told(395.0)).value();
    CHECK(judgeCapture(leaking, 410.0, false) == CaptureJudged::NotProven);
    CHECK(judgeCapture(captureOf(told(19.0), told(18.0)).value(), 19.0, true) == CaptureJudged::NotProven);
    CHECK(judgeCapture(captureOf(told(410.0), told(120.0)).value(), 410.0, true) == CaptureJudged::NotProven);
}

TEST_CASE("water taken out is held against what the elements can hold")
{
    // 800 L of 870 kg/m³ from 1400 to 400 ppm: 800·0.870·0.001 kg = 0.696 kg of water, 0.697 L at 998.2 kg/m³
    const auto ppm = [](double parts) { return parts * units::partPerMillion; };
    const auto density = 870.0 * units::kilogramPerCubicMetre;
    const auto taken = waterTaken(800.0 * units::litre, density, ppm(1400.0), ppm(400.0), 0.70 * units::litre).value();
    CHECK_THAT(taken.volume.in(units::litre), WithinAbs(0.6973, 0.0001));
    CHECK_THAT(taken.ofCapacity, WithinAbs(0.996, 0.001));
    CHECK_THAT(refusal(waterTaken(800.0 * units::litre, density, ppm(1400.0), ppm(400.0), 0.0 * units::litre)),
               Contains("capacity"));
}
