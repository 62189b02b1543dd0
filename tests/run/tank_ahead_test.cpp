// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Worked by hand from F = R/(Q·k): 400 L at 20 L/min is a turnover of 20 min, so that a count that rises by r a day has
// risen by r/72 in one turnover, and the floor is r/(72·k).

#include "run/tank_ahead.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

PlaceLearned rising(const filtration::Band& perMlADay)
{
    PlaceLearned place;
    place.ingress[0] = IngressLearned{perMlADay, 2};
    return place;
}

} // namespace

TEST_CASE("without anything learned the mixing is as told, a quarter either way, and nothing gets in")
{
    const TankAhead tank = tankAhead({}, ordinary(), 0, 0.8);
    CHECK_THAT(tank.best.captureTimesMixing, WithinAbs(1.0, 1e-12));
    CHECK_THAT(tank.likely.captureTimesMixing, WithinAbs(0.8, 1e-12));
    CHECK_THAT(tank.worst.captureTimesMixing, WithinAbs(0.6, 1e-12));
    CHECK(tank.worst.floorPerMl == 0.0);
    CHECK_THAT(tankAhead({}, ordinary(), 0, 0.9).best.captureTimesMixing, WithinAbs(1.0, 1e-12)); // no more than all
    CHECK(chanceNever({}, ordinary(), 0, 100.0, 0.8) == 0.0);
}

TEST_CASE("what gets in between runs makes a floor, the higher the worse the tank mixes")
{
    PlaceLearned place = rising({3600.0, 7200.0, 14400.0});
    place.mixing = MixingLearned{{0.25, 0.5, 0.8}, 0.7, 4};
    const TankAhead tank = tankAhead(place, ordinary(), 0, 0.7);
    CHECK_THAT(tank.best.floorPerMl, WithinRel(3600.0 / 72.0 / 0.8, 1e-9));
    CHECK_THAT(tank.likely.floorPerMl, WithinRel(7200.0 / 72.0 / 0.5, 1e-9)); // 200 per mL
    CHECK_THAT(tank.worst.floorPerMl, WithinRel(14400.0 / 72.0 / 0.25, 1e-9));
    CHECK(tankAhead(place, ordinary(), 1, 0.7).worst.floorPerMl == 0.0); // not counted at that size
}

TEST_CASE("counts that tell no ingress bound the worst tank only")
{
    const TankAhead tank = tankAhead(rising({1.0, 100.0, 7200.0}), ordinary(), 0, 0.5);
    CHECK(tank.best.floorPerMl == 0.0);
    CHECK(tank.likely.floorPerMl == 0.0);
    CHECK_THAT(tank.worst.floorPerMl, WithinRel(7200.0 / 72.0 / 0.375, 1e-9));
}

TEST_CASE("the chance that a target is never reached is a half at the likely floor and 5 % at its high end")
{
    const PlaceLearned place = rising({3600.0, 7200.0, 14400.0}); // its ends lie alike far off, as logarithms
    CHECK_THAT(chanceNever(place, ordinary(), 0, 200.0, 0.5), WithinAbs(0.5, 1e-9));
    CHECK_THAT(chanceNever(place, ordinary(), 0, 400.0, 0.5), WithinAbs(0.05, 1e-6));
    CHECK_THAT(chanceNever(place, ordinary(), 0, 100.0, 0.5), WithinAbs(0.95, 1e-6));
}
