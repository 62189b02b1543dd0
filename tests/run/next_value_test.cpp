// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/next_value.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace loopside;
using namespace loopside::run;

TEST_CASE("where nothing was told and only bounds were seen, nothing is known")
{
    CHECK_FALSE(NextValue::from({}, {}).isKnown());
    const std::vector<ValueSeen> bounds = {{500.0, true}, {900.0, true}};
    CHECK_FALSE(NextValue::from(bounds, {}).isKnown());
    CHECK(NextValue::from(bounds, {}).chanceBelow(100.0) == 0.5);
}

TEST_CASE("what was told alone is as wide as it is unsure and as values stray")
{
    const auto band = NextValue::from({}, {.spread = 0.1, .told = 20.0, .toldUnsure = 0.3}).band();
    // Normal of ln with sqrt(0.3² + 0.1²), a little more because the spread itself is not known.
    const double width = 1.645 * std::hypot(0.3, 0.1);
    CHECK_THAT(band.best, Catch::WithinRel(20.0, 1e-3));
    CHECK_THAT(band.high, Catch::WithinRel(20.0 * std::exp(width), 0.03));
    CHECK_THAT(band.low, Catch::WithinRel(20.0 * std::exp(-width), 0.03));
}

TEST_CASE("values take the place of what was told, the more the surer")
{
    const Beforehand told{.spread = 0.1, .told = 20.0, .toldUnsure = 0.3};
    const std::vector<ValueSeen> seen(20, {30.0, false, 0.05});
    const double one = NextValue::from({seen.data(), 1}, told).band().best;
    CHECK(one > 25.0);
    CHECK(one < 30.0);
    const auto many = NextValue::from(seen, told).band();
    CHECK_THAT(many.best, Catch::WithinRel(30.0, 0.01));
    CHECK(many.high / many.low < 1.5);
}

TEST_CASE("a chance goes with the band and from nothing to all")
{
    const std::vector<ValueSeen> seen = {{400.0}, {500.0}, {900.0, true}};
    const NextValue next = NextValue::from(seen, {});
    const auto band = next.band();
    CHECK_THAT(next.chanceBelow(band.low), Catch::WithinAbs(0.05, 1e-6));
    CHECK_THAT(next.chanceBelow(band.high), Catch::WithinAbs(0.95, 1e-6));
    CHECK(next.chanceBelow(1e-9) < 1e-6);
    CHECK(next.chanceBelow(1e12) > 1.0 - 1e-6);
}
