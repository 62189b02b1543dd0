// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/walther.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

using Catch::Contains;
using Catch::WithinRel;
using namespace loopside::oil;
using namespace loopside::units;

namespace {

WaltherLine lineThrough(double at40, double at100)
{
    return WaltherLine::through(40.0 * celsius, at40 * centistokes, 100.0 * celsius, at100 * centistokes).value();
}

loopside::Error refusal(double firstC, double firstCst, double secondC, double secondCst)
{
    const auto line = WaltherLine::through(firstC * celsius, firstCst * centistokes, secondC * celsius,
                                           secondCst * centistokes);
    REQUIRE_FALSE(line.has_value());
    return line.error();
}

} // namespace

TEST_CASE("a line passes through the points that it was drawn through")
{
    // The inverse of Z is off by less than 1e-10 cSt from 5 cSt up (computed outside this program).
    const auto [at40,
                at100] = GENERATE(table<double, double>({{32.0, 5.4}, {46.0, 6.76}, {460.0, 30.35}, {3200.0, 101.6}}));
    const WaltherLine line = lineThrough(at40, at100);
    CHECK_THAT(line.at(40.0 * celsius).value().in(centistokes), WithinRel(at40, 1e-9));
    CHECK_THAT(line.at(100.0 * celsius).value().in(centistokes), WithinRel(at100, 1e-9));
}

TEST_CASE("the order of the two points does not matter")
{
    const auto turned =
        WaltherLine::through(100.0 * celsius, 5.4 * centistokes, 40.0 * celsius, 32.0 * centistokes).value();
    CHECK(turned.a() == lineThrough(32.0, 5.4).a());
    CHECK(turned.b() == lineThrough(32.0, 5.4).b());
}

TEST_CASE("two points read off a line give the same line")
{
    const WaltherLine line = lineThrough(220.0, 18.75);
    const auto again = WaltherLine::through(5.0 * celsius, line.at(5.0 * celsius).value(), 63.0 * celsius,
                                            line.at(63.0 * celsius).value());
    REQUIRE(again.has_value());
    CHECK_THAT(again->a(), WithinRel(line.a(), 1e-9));
    CHECK_THAT(again->b(), WithinRel(line.b(), 1e-9));
}

TEST_CASE("oil thins as it warms, all the way")
{
    const auto [at40, at100] = GENERATE(table<double, double>({{10.0, 2.64}, {46.0, 6.76}, {320.0, 23.96}}));
    const WaltherLine line = lineThrough(at40, at100);
    CHECK(line.b() > 0.0);
    for (int at = -40; at < 150; ++at) {
        CAPTURE(at);
        CHECK(line.at((at + 1) * celsius).value() < line.at(at * celsius).value());
    }
}

TEST_CASE("Z and its inverse undo each other within 0.0002 cSt")
{
    double worst = 0.0;
    for (int step = 0; step < 625; ++step) {
        const double viscosity = 0.2 * std::pow(1.01, step); // to 100 cSt
        const double back = viscosityFromZ(waltherZ(viscosity * centistokes)).in(centistokes);
        worst = std::max(worst, std::abs(back - viscosity));
    }
    CHECK(worst < 0.0002);
}

TEST_CASE("a line answers from minus 40 to 150 degrees and not beyond")
{
    const WaltherLine line = lineThrough(46.0, 6.76);
    CHECK(line.at(-40.0 * celsius).has_value());
    CHECK(line.at(-40.0 * fahrenheit).has_value());
    CHECK(line.at(150.0 * celsius).has_value());
    CHECK(line.at(302.0 * fahrenheit).has_value());
    const double outside = GENERATE(-40.1, 150.1, 400.0, -300.0, std::numeric_limits<double>::quiet_NaN());
    CAPTURE(outside);
    const auto refused = line.at(outside * celsius);
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().code == loopside::Errc::OutOfRange);
    CHECK_THAT(refused.error().sentence, Contains("oil temperature") && Contains("from -40 to 150 °C"));
}

TEST_CASE("a viscosity that no oil has is refused and not returned")
{
    const auto frozen = lineThrough(3200.0, 101.64).at(-40.0 * celsius);
    REQUIRE_FALSE(frozen.has_value());
    CHECK(frozen.error().code == loopside::Errc::OutOfRange);
    CHECK_THAT(frozen.error().sentence, Contains("viscosity at -40.0 °C") && Contains("20000000 cSt"));
}

TEST_CASE("points that cannot be an oil's are refused with the fault named")
{
    CHECK_THAT(refusal(40.0, 5.4, 100.0, 32.0).sentence,
               Contains("falls as it warms") && Contains("32.00 cSt at 100.0 °C"));
    CHECK_THAT(refusal(40.0, 32.0, 100.0, 32.0).sentence, Contains("falls as it warms"));
    CHECK_THAT(refusal(40.0, 32.0, 40.0, 5.4).sentence, Contains("at least 5 °C apart"));
    CHECK_THAT(refusal(44.9, 32.0, 40.0, 46.0).sentence, Contains("at least 5 °C apart") && Contains("40.0 and 44.9"));
    CHECK_THAT(refusal(40.0, 0.0, 100.0, 5.4).sentence, Contains("viscosity at 40.0 °C") && Contains("0.000 cSt"));
    CHECK_THAT(refusal(40.0, 32.0, 100.0, -5.4).sentence, Contains("viscosity at 100.0 °C") && Contains("-5.400 cSt"));
    CHECK_THAT(refusal(40.0, 3e7, 100.0, 5.4).sentence, Contains("viscosity at 40.0 °C"));
    CHECK_THAT(refusal(40.0, 32.0, 212.0, 5.4).sentence,
               Contains("temperature of a viscosity point") && Contains("212.0 °C"));
    CHECK(refusal(40.0, std::nan(""), 100.0, 5.4).code == loopside::Errc::OutOfRange);
}
