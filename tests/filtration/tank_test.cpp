// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/tank.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside::filtration;
using namespace loopside::units;

namespace {

std::vector<TankShape> shapes()
{
    return {BoxTank{1.2 * metre, 0.8 * metre, 0.6 * metre}, UprightCylinder{58.0 * centimetre, 85.0 * centimetre},
            LyingCylinder{0.9 * metre, 1.6 * metre}};
}

} // namespace

TEST_CASE("a tank is empty at its bottom, holds its capacity at the brim, and rises with its level")
{
    for (const TankShape& shape : shapes()) {
        const Length height = heightOf(shape);
        const Volume all = capacityOf(shape).value();
        CHECK(volumeAt(shape, Length{}).value() == Volume{});
        CHECK_THAT(volumeAt(shape, height).value() / all, WithinRel(1.0, 1e-12));
        for (int i = 0; i < 100; ++i) {
            CHECK(volumeAt(shape, height * (i / 100.0)).value() < volumeAt(shape, height * ((i + 1) / 100.0)).value());
        }
    }
}

TEST_CASE("level and volume are each other's inverse")
{
    for (const TankShape& shape : shapes()) {
        const double part = GENERATE(0.0, 1e-6, 0.03, 0.25, 0.5, 0.77, 0.999, 1.0);
        CAPTURE(part);
        const Volume oil = capacityOf(shape).value() * part;
        const Length level = levelFor(shape, oil).value();
        CHECK_THAT(volumeAt(shape, level).value() / capacityOf(shape).value(), WithinAbs(part, 1e-12));
    }
}

TEST_CASE("what a tank holds at a level follows from its shape")
{
    // Computed by hand: 1.2 m × 0.8 m × 0.25 m.
    CHECK_THAT(volumeAt(BoxTank{1.2 * metre, 0.8 * metre, 0.6 * metre}, 25.0 * centimetre).value().in(litre),
               WithinRel(240.0, 1e-12));
    // A cylinder of 1 m by 2 m: π/4·2 m³; half of it at half its height either way it stands.
    const double half = std::numbers::pi / 4.0;
    CHECK_THAT(volumeAt(UprightCylinder{1.0 * metre, 2.0 * metre}, 1.0 * metre).value().in(cubicMetre),
               WithinRel(half, 1e-12));
    const LyingCylinder lying{1.0 * metre, 2.0 * metre};
    CHECK_THAT(volumeAt(lying, 0.5 * metre).value().in(cubicMetre), WithinRel(half, 1e-12));
    // A quarter of the diameter: the segment r²(acos 0.5 − 0.5·√0.75) times the length, computed here.
    const double segment = 0.25 * (std::numbers::pi / 3.0 - 0.5 * std::sqrt(0.75)) * 2.0;
    CHECK_THAT(volumeAt(lying, 0.25 * metre).value().in(cubicMetre), WithinRel(segment, 1e-12));
    // What is missing above three quarters is what lies below one.
    CHECK_THAT(volumeAt(lying, 0.75 * metre).value().in(cubicMetre), WithinRel(2.0 * half - segment, 1e-12));
}

TEST_CASE("a cart that fills lowers the level by its hold-up over the surface")
{
    // Computed by hand: 8 L out of a tank of 0.5 m × 0.4 m are 4 cm.
    const BoxTank box{0.5 * metre, 0.4 * metre, 0.5 * metre};
    CHECK_THAT(levelFall(box, 30.0 * centimetre, 8.0 * litre).value().in(centimetre), WithinRel(4.0, 1e-9));
    CHECK_THAT(levelFall(0.5 * metre, 0.4 * metre, 8.0 * litre).value().in(centimetre), WithinRel(4.0, 1e-9));
    CHECK_THAT(levelFall(box, 30.0 * centimetre, -8.0 * litre).value().in(centimetre), WithinRel(-4.0, 1e-9));
    // A lying cylinder is widest in the middle: the level moves least there.
    const LyingCylinder lying{0.9 * metre, 1.6 * metre};
    CHECK(levelFall(lying, 50.0 * centimetre, 8.0 * litre).value()
          < levelFall(lying, 15.0 * centimetre, 8.0 * litre).value());
    const auto tooMuch = levelFall(box, 3.0 * centimetre, 8.0 * litre);
    REQUIRE_FALSE(tooMuch.has_value());
    CHECK_THAT(tooMuch.error().sentence, Contains("draws 8.0 L") && Contains("holds 6.0 L"));
}

TEST_CASE("a level, a volume or a dimension that cannot be is refused with the fault named")
{
    const double wrong = GENERATE(0.0, -1.0, std::nan(""));
    const auto flat = capacityOf(BoxTank{1.0 * metre, wrong * metre, 1.0 * metre});
    REQUIRE_FALSE(flat.has_value());
    CHECK_THAT(flat.error().sentence, Contains("width of the tank"));
    CHECK_THAT(capacityOf(UprightCylinder{wrong * metre, 1.0 * metre}).error().sentence, Contains("diameter"));
    CHECK_THAT(capacityOf(LyingCylinder{1.0 * metre, wrong * metre}).error().sentence, Contains("length"));
    const LyingCylinder lying{1.0 * metre, 2.0 * metre};
    CHECK_THAT(volumeAt(lying, 101.0 * centimetre).error().sentence, Contains("level") && Contains("100.0 cm"));
    CHECK_THAT(volumeAt(lying, -1.0 * centimetre).error().sentence, Contains("level"));
    CHECK_THAT(levelFor(lying, 2000.0 * litre).error().sentence, Contains("1570.8 L"));
    CHECK_THAT(levelFor(lying, std::nan("") * litre).error().sentence, Contains("oil"));
    CHECK_THAT(levelFall(wrong * metre, 1.0 * metre, 8.0 * litre).error().sentence, Contains("surface"));
}

TEST_CASE("the room above the oil is held against what the oil grows by")
{
    // Common practice: 2 to 3 % of the oil.
    const HeadSpace room = headSpace(205.0 * litre, 200.0 * litre).value();
    CHECK_THAT(room.free.in(litre), WithinRel(5.0, 1e-9));
    CHECK_THAT(room.expansionMin.in(litre), WithinRel(4.0, 1e-9));
    CHECK_THAT(room.expansionMax.in(litre), WithinRel(6.0, 1e-9));
    CHECK_FALSE(room.suffices());
    CHECK(headSpace(205.0 * litre, 190.0 * litre).value().suffices());
    CHECK(headSpace(205.0 * litre, Volume{}).value().suffices());
    CHECK_THAT(headSpace(205.0 * litre, 206.0 * litre).error().sentence, Contains("206.0 L"));
    CHECK_THAT(headSpace(Volume{}, Volume{}).error().sentence, Contains("capacity"));
}

TEST_CASE("the mixing factor comes with its reason, and an unknown placement is said to be one")
{
    // Judgement from common practice: 0.9, 0.7, 0.5.
    CHECK(mixingOf(HosePlacement::OppositeEnds).factor == 0.9);
    CHECK(mixingOf(HosePlacement::SameSideApart).factor == 0.7);
    for (const auto poor : {HosePlacement::Adjacent, HosePlacement::BothAtTop, HosePlacement::OneBung}) {
        CHECK(mixingOf(poor).factor == 0.5);
        CHECK_THAT(std::string(mixingOf(poor).reason), Contains("0.5"));
    }
    CHECK(mixingOf(HosePlacement::Unknown).factor == 0.7);
    CHECK_THAT(std::string(mixingOf(HosePlacement::Unknown).reason), Contains("not known"));
}

TEST_CASE("a cart cannot warm a tank")
{
    // Common practice, computed: 1 hp warms 200 L by at most 8 °C an hour, 400 L by 4, 1000 L by 1.6.
    const auto [oil, degrees] = GENERATE(table<double, double>({{200.0, 8.0}, {400.0, 4.0}, {1000.0, 1.6}}));
    const auto anHour = warmingPerHour(1.0 * horsepower, oil * litre).value();
    CHECK_THAT(anHour.in(kelvins), WithinRel(degrees, 0.03)); // the figures are rounded
    // Twice the warming takes twice the time, and an hour warms by what an hour warms.
    CHECK_THAT(timeToWarm(1.0 * horsepower, oil * litre, 2.0 * anHour).value().in(hour), WithinRel(2.0, 1e-12));
    CHECK(warmingPerHour(Power{}, oil * litre).value() == TemperatureDifference{});
    CHECK_THAT(warmingPerHour(-1.0 * watt, oil * litre).error().sentence, Contains("power"));
    CHECK_THAT(warmingPerHour(1.0 * watt, Volume{}).error().sentence, Contains("oil in the tank"));
    CHECK_THAT(timeToWarm(Power{}, oil * litre, 10.0 * kelvins).error().sentence, Contains("power"));
    CHECK_THAT(timeToWarm(1.0 * watt, oil * litre, -1.0 * kelvins).error().sentence, Contains("warming"));
}
