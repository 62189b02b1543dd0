// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/history.h"

#include "loadings.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using namespace loopside;
using namespace loopside::forecast;
using namespace loopside::forecast::test;
using Catch::WithinAbs;
using Catch::WithinRel;

TEST_CASE("a shape is the drop over phase, whatever the life")
{
    const auto shape = shapeOf(pastOf(730.0), limit);
    REQUIRE(shape.has_value());
    CHECK_THAT(shape->life, WithinRel(730.0, 1e-12));
    CHECK_THAT(shape->shape[50], WithinRel(0.05 * std::exp(2.9957 * 0.5), 0.05)); // smoothed over 2 % of the life
    CHECK(shape->shape.back() == 1.0);
}

TEST_CASE("against a lower limit a past loading is shorter, against a higher one it is cut short")
{
    // 0.05·e^(2.9957·u) = 0.5 at u = ln 10 ÷ 2.9957 = 0.76862.
    const auto half = shapeOf(pastOf(1000.0), limit * 0.5);
    REQUIRE(half.has_value());
    CHECK_THAT(half->life, WithinRel(768.6, 0.01));
    CHECK_FALSE(shapeOf(pastOf(1000.0), limit * 1.5).has_value());
    const History history = learn(std::vector{pastOf(1000.0)}, limit * 1.5).value();
    CHECK(history.loadings == 0);
    CHECK(history.cutShort == 1);
}

TEST_CASE("against a limit a little higher a past loading is carried on as it rose last")
{
    const auto higher = shapeOf(pastOf(1000.0), limit * 1.2);
    REQUIRE(higher.has_value());
    CHECK_THAT(higher->life, WithinRel(1000.0 * (1.0 + std::log(1.2) / 2.9957), 0.005)); // 1060.9
    CHECK(learn(std::vector{pastOf(1000.0)}, limit * 1.001).value().loadings == 1);

    PastLoading cut = pastOf(1000.0);
    cut.isCutShort = true;
    CHECK_FALSE(shapeOf(cut, limit * 1.2).has_value());
}

TEST_CASE("a loading that was cut short makes longer lives likelier and none shorter")
{
    std::vector<PastLoading> past = {pastOf(500.0), pastOf(1000.0), pastOf(2000.0)};
    const Lives before = learn(past, limit).value().lives;
    PastLoading cut = pastOf(800.0);
    cut.isCutShort = true;
    for (CurvePoint& point : cut.curve) {
        point.drop = point.drop * 0.3;
    }
    past.push_back(cut);
    const Lives after = learn(past, limit).value().lives;
    REQUIRE(after.bells.size() == 3);
    // Efron: its quarter goes in halves to 1000 and 2000. 1/4; 1/4 + 1/8; 1/4 + 1/8.
    CHECK_THAT(before.bells[0].weight, WithinAbs(1.0 / 3.0, 1e-12));
    CHECK_THAT(after.bells[0].weight, WithinAbs(0.25, 1e-12));
    CHECK_THAT(after.bells[1].weight, WithinAbs(0.375, 1e-12));
    CHECK_THAT(after.bells[2].weight, WithinAbs(0.375, 1e-12));
}

TEST_CASE("lives come from the nearest kin that has enough of them")
{
    std::vector<PastLoading> past;
    for (int i = 0; i < 4; ++i) {
        past.push_back(pastOf(1000.0 + i, Kinship::SameTank));
        past.push_back(pastOf(5000.0 + i, Kinship::SameType));
    }
    const History history = learn(past, limit).value();
    CHECK(history.loadings == 8);
    REQUIRE(history.lives.bells.size() == 4);
    CHECK_THAT(std::exp(history.lives.bells.back().lnLoad), WithinRel(1003.0, 1e-9));
    past.erase(past.begin(), past.begin() + 4); // two of each are left: not enough of the tank's own
    CHECK(learn(past, limit).value().lives.bells.size() == 4);
}

TEST_CASE("a thousand past loadings are as many as count, the nearest kin first")
{
    std::vector<PastLoading> past(1000, pastOf(1000.0, Kinship::SameKind));
    for (int i = 0; i < 5; ++i) {
        past.push_back(pastOf(500.0, Kinship::SameTank));
    }
    const History history = learn(past, limit).value();
    CHECK(history.loadings == static_cast<int>(pastMax));
    CHECK(history.families.front().drops.rows() == 5);
}

TEST_CASE("a history that cannot be is refused, and a loading that says nothing is left out")
{
    CHECK_FALSE(learn({}, 0.0 * units::psi).has_value());
    CHECK_FALSE(learn({}, std::numeric_limits<double>::quiet_NaN() * units::psi).has_value());
    PastLoading bad = pastOf(1000.0);
    bad.curve[3].load = std::numeric_limits<double>::infinity();
    CHECK_FALSE(learn(std::vector{bad}, limit).has_value());
    PastLoading empty;
    empty.limit = limit;
    CHECK(learn(std::vector{empty}, limit).value().loadings == 0);
}
