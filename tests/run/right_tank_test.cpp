// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/right_tank.h"

#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point.hpp>
#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace loopside;
using namespace loopside::run;

namespace {

/// The outside witness: Boost.Geometry's haversine.
double boostDistance_m(const Place& a, const Place& b)
{
    namespace bg = boost::geometry;
    using Point = bg::model::point<double, 2, bg::cs::spherical_equatorial<bg::degree>>;
    return bg::distance(Point(a.longitude_deg, a.latitude_deg), Point(b.longitude_deg, b.latitude_deg),
                        bg::strategy::distance::haversine<double>(6'371'008.8));
}

/// 20 m and 200 m farther north.
const std::vector<std::optional<Fix>> row = {Fix{{53.55, 9.99}}, Fix{{53.55018, 9.99}}, Fix{{53.552, 9.99}}};

TankLook look(LookBy by, bool fits, const char* expected = "A", const char* of = "", const char* why = "")
{
    return {by, "x", expected, fits, of, why};
}

} // namespace

TEST_CASE("distances are those of Boost.Geometry's haversine, near and far")
{
    std::mt19937 random(7);
    std::uniform_real_distribution<double> latitude(-89.9, 89.9);
    std::uniform_real_distribution<double> longitude(-180.0, 180.0);
    std::uniform_real_distribution<double> step(-0.001, 0.001);
    for (int i = 0; i < 500; ++i) {
        const Place a{latitude(random), longitude(random)};
        const Place b{latitude(random), longitude(random)};
        const Place near{a.latitude_deg + step(random), a.longitude_deg + step(random)};
        // the last digits of a sine decide; a micrometre is beyond any receiver
        CHECK(distance_m(a, b) == Approx(boostDistance_m(a, b)).epsilon(1e-9));
        CHECK(distance_m(a, near) == Approx(boostDistance_m(a, near)).margin(1e-6));
    }
}

TEST_CASE("the length of a degree of latitude is that of the mean sphere")
{
    // 2 π 6371.0088 km / 360 = 111.1951 km, by hand
    CHECK(distance_m({0, 0}, {1, 0}) == Approx(111'195.1).margin(0.1));
    CHECK(distance_m({90, 0}, {90, 135}) == Approx(0.0).margin(1e-6));
    CHECK(distance_m({0, 179.5}, {0, -179.5}) == Approx(111'195.1).margin(0.1));
    CHECK(distance_m({0, 0}, {0, 180}) == Approx(180 * 111'195.08).margin(10));
}

TEST_CASE("a distance is the same both ways, none to itself, and no shorter by way of a third place")
{
    std::mt19937 random(11);
    std::uniform_real_distribution<double> latitude(-90, 90);
    std::uniform_real_distribution<double> longitude(-180, 180);
    const auto anywhere = [&] { return Place{latitude(random), longitude(random)}; };
    for (int i = 0; i < 500; ++i) {
        const Place a = anywhere();
        const Place b = anywhere();
        const Place c = anywhere();
        CHECK(distance_m(a, b) == Approx(distance_m(b, a)));
        CHECK(distance_m(a, a) == 0.0);
        CHECK(distance_m(a, b) <= distance_m(a, c) + distance_m(c, b) + 1e-3);
    }
}

TEST_CASE("a fix that is finer than the tanks are apart tells one of them")
{
    const TanksAround around = tanksAround({{53.550001, 9.990000}, 4.0}, row);
    CHECK(around.told == WhereTold::One);
    REQUIRE(around.nearest.size() == 3);
    CHECK(around.nearest[0].tank == 0);
    CHECK(around.nearest[1].tank == 1);
    CHECK(around.nearest[1].away_m == Approx(19.9).margin(0.2)); // 1.79e-4° × 111.2 km
    CHECK_FALSE(around.nearest[1].mayBeIt);
}

TEST_CASE("a fix that is coarser than the tanks are apart tells them not apart")
{
    const TanksAround around = tanksAround({{53.550001, 9.990000}, 16.0}, row);
    CHECK(around.told == WhereTold::CannotTellApart);
    CHECK(around.nearest[0].mayBeIt);
    CHECK(around.nearest[1].mayBeIt);
    CHECK_FALSE(around.nearest[2].mayBeIt);
}

TEST_CASE(
    "a fix tells no tank where it is not known how far it is off, where none is near, and where a place is not known")
{
    const Fix here{{53.550001, 9.990000}, 4.0};
    CHECK(tanksAround({here.place, std::nullopt}, row).told == WhereTold::AccuracyUnknown);
    CHECK(tanksAround({{53.560, 9.990}, 4.0}, row).told == WhereTold::NoneHere);
    CHECK(tanksAround(here, {std::nullopt}).told == WhereTold::NoPlaces);
    auto oneWithout = row;
    oneWithout.emplace_back();
    CHECK(tanksAround(here, oneWithout).told == WhereTold::CannotTellApart);
}

TEST_CASE("how well it is known where a tank stands counts as well")
{
    const Fix here{{53.55, 9.99}, 4.0};
    auto coarse = row;
    coarse[1]->accuracy_m = 10.0; // 20 m away: 4 + 10 + 5 do not reach it
    CHECK(tanksAround(here, coarse).told == WhereTold::One);
    coarse[1]->accuracy_m = 12.0;
    CHECK(tanksAround(here, coarse).told == WhereTold::CannotTellApart);
}

TEST_CASE("a coarser fix never tells more")
{
    std::mt19937 random(13);
    std::uniform_real_distribution<double> north(53.5495, 53.5525);
    std::uniform_real_distribution<double> accuracy(0.5, 40.0);
    for (int i = 0; i < 500; ++i) {
        const Place here{north(random), 9.990000};
        const double fine = accuracy(random);
        const auto told = [&](double accuracy_m) { return tanksAround({here, accuracy_m}, row); };
        const auto candidates = [](const TanksAround& around) {
            return std::ranges::count_if(around.nearest, &TankAway::mayBeIt);
        };
        CHECK(candidates(told(fine + accuracy(random))) >= candidates(told(fine)));
        if (told(fine).told == WhereTold::One) {
            CHECK(told(fine).nearest.front().mayBeIt);
        }
    }
}

TEST_CASE("a tag is compared by letters and digits")
{
    CHECK(readsAs("bm-hy-012", "BM-HY-012"));
    CHECK(readsAs(" BM HY 012", "BM-HY-012"));
    CHECK_FALSE(readsAs("BM-HY-013", "BM-HY-012"));
    CHECK_FALSE(readsAs("HT-1", "HT-11"));
    CHECK(readsAs("Öl 3", "Öl-3"));
    CHECK_FALSE(readsAs("Öl 3", "l 3"));
}

TEST_CASE("a tank is known by one look, better by two that do not rest on the same sign")
{
    CHECK(knownFrom({}, "A") == TankKnown::Not);
    CHECK(knownFrom({look(LookBy::Reader, true)}, "A") == TankKnown::Once);
    CHECK(knownFrom({look(LookBy::Reader, true), look(LookBy::Camera, true)}, "A") == TankKnown::Once);
    CHECK(knownFrom({look(LookBy::Reader, true), look(LookBy::Typed, true)}, "A") == TankKnown::Twice);
    CHECK(knownFrom({look(LookBy::Typed, true), look(LookBy::Oil, true)}, "A") == TankKnown::Twice);
    CHECK(knownFrom({look(LookBy::Position, true), look(LookBy::Camera, true)}, "A") == TankKnown::Twice);
    CHECK(knownFrom({look(LookBy::Oil, true)}, "A") == TankKnown::Not); // twins may hold the same oil
}

TEST_CASE("looks at another tank do not count, and one that does not fit undoes those before it")
{
    CHECK(knownFrom({look(LookBy::Reader, true, "B")}, "A") == TankKnown::Not);
    CHECK(knownFrom({look(LookBy::Reader, true), look(LookBy::Oil, false)}, "A") == TankKnown::Not);
    CHECK(knownFrom({look(LookBy::Reader, false), look(LookBy::Reader, true)}, "A") == TankKnown::Once);
}

TEST_CASE("a tank that was gone on with against a look stays marked")
{
    CHECK(knownFrom({look(LookBy::Reader, false, "A", "B", "the order is wrong"), look(LookBy::Typed, true, "B")}, "B")
          == TankKnown::AgainstIt);
    CHECK(knownFrom({look(LookBy::Oil, false, "A", "", "the plate is old"), look(LookBy::Reader, true)}, "A")
          == TankKnown::AgainstIt);
    CHECK(knownFrom({look(LookBy::Reader, false, "A", "B", "the order is wrong")}, "A") == TankKnown::Not);
}

TEST_CASE("ways of looking have the names that the journal keeps")
{
    for (const LookBy by : {LookBy::Reader, LookBy::Camera, LookBy::Typed, LookBy::Oil, LookBy::Position}) {
        CHECK(lookByNamed(nameOf(by)) == by);
    }
    CHECK_FALSE(lookByNamed("smell"));
}
