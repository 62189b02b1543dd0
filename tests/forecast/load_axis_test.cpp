// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/load_axis.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace loopside::forecast;
using Catch::WithinAbs;
using Catch::WithinRel;

TEST_CASE("the dirt that went through levels off as the tank gets cleaner")
{
    CHECK_THAT(dirtAfter(3.0, {0.0, 0.0}).value(), WithinRel(3.0, 1e-12));        // nothing captured: all as before
    CHECK_THAT(dirtAfter(1.0, {1.0, 0.0}).value(), WithinRel(0.632120559, 1e-9)); // 1 − 1/e
    CHECK_THAT(dirtAfter(60.0, {0.5, 0.0}).value(), WithinRel(2.0, 1e-9));        // 1/k
    CHECK_THAT(dirtAfter(2.0, {0.7, 1.0}).value(), WithinRel(2.0, 1e-12));        // as much comes in
}

TEST_CASE("turnovers and shares that cannot be are refused")
{
    CHECK_FALSE(dirtAfter(-1.0, {}).has_value());
    CHECK_FALSE(dirtAfter(NAN, {}).has_value());
    CHECK_FALSE(dirtAfter(1.0, {1.1, 0.0}).has_value());
    CHECK_FALSE(dirtAfter(1.0, {0.5, -0.1}).has_value());
}

TEST_CASE("the time to a load is the one after which that load was added")
{
    const Ahead ahead = GENERATE(Ahead{2.0, 2.0, 0.0}, Ahead{2.0, 0.5, 1e-3}, Ahead{2.0, 0.0, 1e-4});
    const double load = GENERATE(1e-6, 1.0, 900.0);
    const auto seconds = secondsToAdd(ahead, load, 1e6);
    REQUIRE(seconds.has_value());
    CHECK_THAT(loadAdded(ahead, *seconds), WithinRel(load, 1e-8)); // the root is found to 40 bits
}

TEST_CASE("a load that is never added has no time")
{
    CHECK_FALSE(secondsToAdd({2.0, 0.0, 1e-2}, 201.0, 1e9).has_value()); // levels off at 200
    CHECK_FALSE(secondsToAdd({0.0, 0.0, 0.0}, 1.0, 1e9).has_value());
    CHECK_FALSE(secondsToAdd({1.0, 1.0, 0.0}, 101.0, 100.0).has_value());
    CHECK(secondsToAdd({0.0, 0.0, 0.0}, 0.0, 1e9) == 0.0);
}

TEST_CASE("what lies ahead adds what the way from the start has more")
{
    const CleaningUp cleaning = GENERATE(CleaningUp{0.0, 0.0}, CleaningUp{0.7, 0.15}, CleaningUp{1.0, 1.0});
    const double turnovers = GENERATE(0.0, 0.4, 6.0);
    const Ahead ahead = aheadAfter(turnovers, cleaning, 2e-4).value();
    const double later = dirtAfter(turnovers + 3.0, cleaning).value();
    CHECK_THAT(loadAdded(ahead, 3.0 / 2e-4), WithinRel(later - dirtAfter(turnovers, cleaning).value(), 1e-9));
    CHECK_FALSE(aheadAfter(-1.0, cleaning, 2e-4).has_value());
    CHECK_FALSE(aheadAfter(1.0, cleaning, NAN).has_value());
}
