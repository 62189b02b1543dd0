// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/density.h"

#include <catch2/catch.hpp>

#include <cmath>

using Catch::Contains;
using Catch::WithinRel;
using namespace loopside::oil;
using namespace loopside::units;

TEST_CASE("at 15 degrees an oil has its density at 15 degrees")
{
    const double at15 = GENERATE(800.0, 870.0, 1164.0);
    CHECK_THAT(densityAt(at15 * kilogramPerCubicMetre, 15.0 * celsius).value().in(kilogramPerCubicMetre),
               WithinRel(at15, 1e-12));
}

TEST_CASE("oil gets lighter as it warms, all the way")
{
    const double at15 = GENERATE(800.0, 870.0, 1164.0);
    for (int at = -40; at < 150; ++at) {
        CAPTURE(at15, at);
        CHECK(densityAt(at15 * kilogramPerCubicMetre, (at + 1.0) * celsius).value()
              < densityAt(at15 * kilogramPerCubicMetre, at * celsius).value());
    }
}

TEST_CASE("a heavier oil expands less")
{
    const auto shrink = [](double at15) {
        return densityAt(at15 * kilogramPerCubicMetre, 80.0 * celsius).value().in(kilogramPerCubicMetre) / at15;
    };
    CHECK(shrink(850.0) < shrink(900.0));
}

TEST_CASE("a density that lubricating oil cannot have is refused with the fault named")
{
    const double at15 = GENERATE(0.0, -870.0, 0.87, 799.9, 1164.1, std::nan(""));
    CAPTURE(at15);
    const auto density = densityAt(at15 * kilogramPerCubicMetre, 40.0 * celsius);
    REQUIRE_FALSE(density.has_value());
    CHECK(density.error().code == loopside::Errc::OutOfRange);
    CHECK_THAT(density.error().sentence, Contains("density at 15 °C") && Contains("800 to 1164 kg/m³"));
}

TEST_CASE("the density is told within the working temperatures only")
{
    CHECK(densityAt(0.8 * gramPerMillilitre, -40.0 * fahrenheit).has_value());
    const auto refused = densityAt(870.0 * kilogramPerCubicMetre, 151.0 * celsius);
    REQUIRE_FALSE(refused.has_value());
    CHECK_THAT(refused.error().sentence, Contains("oil temperature") && Contains("151.0 °C"));
}
