// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/factor_ahead.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace loopside::forecast;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

constexpr double hour = 3600.0;

/// A factor that falls from 2 to 1 with a time constant of 80 min. Computed here.
double warming(double seconds)
{
    return 1.0 + std::exp(-seconds / (80.0 * 60.0));
}

std::vector<FactorSeen> seenFor(double hours, double (*factor)(double))
{
    std::vector<FactorSeen> seen;
    for (double at = 0.0; at <= hours * hour; at += 0.25 * hour) {
        seen.push_back({at, factor(at)});
    }
    return seen;
}

} // namespace

TEST_CASE("warm oil stays as it is")
{
    const FactorTrend trend = factorTrend(seenFor(4.0, [](double) { return 1.5; })).value();
    const FactorExpected soon = factorAt(trend, 4.5 * hour);
    CHECK_THAT(soon.value, WithinRel(1.5, 0.03));
    CHECK(std::abs(std::log(soon.value / 1.5)) < 2.0 * soon.relativeError);
}

TEST_CASE("oil that warms goes on to warm, and levels off")
{
    const FactorTrend trend = factorTrend(seenFor(2.0, warming)).value();
    for (const double at : {0.5 * hour, 2.0 * hour, 3.0 * hour, 6.0 * hour}) {
        const FactorExpected expected = factorAt(trend, at);
        CHECK(std::abs(std::log(expected.value / warming(at))) < 2.0 * expected.relativeError); // 95 %
    }
    CHECK(factorAt(trend, 3.0 * hour).value < factorAt(trend, 2.0 * hour).value);
}

TEST_CASE("what lies farther ahead, or was seen for less long, is less sure")
{
    const FactorTrend early = factorTrend(seenFor(0.5, warming)).value();
    const FactorTrend late = factorTrend(seenFor(4.0, warming)).value();
    CHECK(factorAt(early, 5.0 * hour).relativeError > factorAt(early, 1.0 * hour).relativeError);
    CHECK(factorAt(early, 5.0 * hour).relativeError > factorAt(late, 5.0 * hour).relativeError);
}

TEST_CASE("held, the factor lies midway to the trend, and half the way is its error")
{
    const FactorTrend trend = factorTrend(seenFor(2.0, warming)).value();
    const FactorExpected held = factorHeld(trend, 2.0 * hour, 4.0 * hour);
    const FactorExpected now = factorAt(trend, 2.0 * hour);
    const FactorExpected then = factorAt(trend, 4.0 * hour);
    CHECK(held.value == Approx(std::sqrt(now.value * then.value)));
    CHECK(held.relativeError == Approx(std::hypot(std::log(then.value / now.value) / 2.0, then.relativeError)));
    CHECK(factorHeld(trend, 2.0 * hour, 2.0 * hour).value == Approx(now.value));
}

TEST_CASE("one reading gives a trend, impossible ones are refused")
{
    const std::vector<FactorSeen> one = {{0.0, 1.2}};
    CHECK(factorAt(factorTrend(one).value(), 2.0 * hour).relativeError > 0.1);
    CHECK_FALSE(factorTrend({}).has_value());
    for (const FactorSeen& bad : {FactorSeen{-1.0, 1.0}, FactorSeen{NAN, 1.0}, FactorSeen{0.0, 0.0},
                                  FactorSeen{0.0, NAN}, FactorSeen{0.0, 1.0, 0.0}}) {
        const std::vector<FactorSeen> seen = {bad};
        CHECK_FALSE(factorTrend(seen).has_value());
    }
}
