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

TEST_CASE("a density observed warm or cold leads back to that at 15 degrees")
{
    // Computed from the constant of ASTM D1250's generalised lubricating oils: 865.0 at 40 °C is 880.776 at 15 °C.
    CHECK_THAT(densityAt15From(865.0 * kilogramPerCubicMetre, 40.0 * celsius).value().in(kilogramPerCubicMetre),
               WithinRel(880.776, 1e-6));
    for (double at15 = 800.0; at15 <= 1164.0; at15 += 14.0) {
        for (double at = -40.0; at <= 150.0; at += 19.0) {
            CAPTURE(at15, at);
            const auto observed = densityAt(at15 * kilogramPerCubicMetre, at * celsius).value();
            CHECK_THAT(densityAt15From(observed, at * celsius).value().in(kilogramPerCubicMetre),
                       WithinRel(at15, 1e-10));
        }
    }
}

TEST_CASE("a density that no lubricating oil has at its temperature is refused")
{
    const double observed = GENERATE(0.0, -865.0, 0.865, 700.0, 1200.0, std::nan(""));
    CAPTURE(observed);
    const auto at15 = densityAt15From(observed * kilogramPerCubicMetre, 40.0 * celsius);
    REQUIRE_FALSE(at15.has_value());
    CHECK_THAT(at15.error().sentence, Contains("lubricating oil at 40.0 °C is from"));
    CHECK_FALSE(densityAt15From(865.0 * kilogramPerCubicMetre, 151.0 * celsius).has_value());
}

TEST_CASE("55 gallons filled at 50 degrees Fahrenheit are 56.11 at 100")
{
    // Computed from the constant of API MPMS 11.1-2004: specific gravity 0.88, CTL(100 °F) 0.98406, +2.02 %.
    const auto oil = 0.88 * waterAt60F;
    const double cool = volumeCorrectionTo60F(oil, 50.0 * fahrenheit).value();
    const double warm = volumeCorrectionTo60F(oil, 100.0 * fahrenheit).value();
    CHECK_THAT(warm, WithinRel(0.98406, 1e-5));
    CHECK_THAT(55.0 * cool / warm, WithinRel(56.11, 1e-4));
    CHECK_THAT(volumeCorrectionTo60F(oil, 60.0 * fahrenheit).value(), WithinRel(1.0, 1e-12));
}

TEST_CASE("the forms of 60 Fahrenheit and of 15 Celsius agree within 0.002 %")
{
    for (double at15 = 802.0; at15 <= 1163.0; at15 += 19.0) {
        for (double at = -40.0; at <= 150.0; at += 19.0) {
            CAPTURE(at15, at);
            const auto base = densityAt(at15 * kilogramPerCubicMetre, 60.0 * fahrenheit).value();
            CHECK_THAT(
                (base * volumeCorrectionTo60F(base, at * celsius).value()).in(kilogramPerCubicMetre),
                WithinRel(densityAt(at15 * kilogramPerCubicMetre, at * celsius).value().in(kilogramPerCubicMetre),
                          2e-5));
        }
    }
}

TEST_CASE("a volume at 60 Fahrenheit is told within the ranges only")
{
    const double kgM3 = GENERATE(0.0, 800.8, 1163.6, std::nan(""));
    CHECK_THAT(volumeCorrectionTo60F(kgM3 * kilogramPerCubicMetre, 20.0 * celsius).error().sentence,
               Contains("density at 60 °F") && Contains("800.9 to 1163.5"));
    CHECK(volumeCorrectionTo60F(800.9 * kilogramPerCubicMetre, 150.0 * celsius).has_value());
    CHECK_FALSE(volumeCorrectionTo60F(880.0 * kilogramPerCubicMetre, 200.0 * celsius).has_value());
}

TEST_CASE("API gravity and specific gravity are each other's inverse")
{
    // Hydraulic Institute, Engineering Data Book: 30 °API is 0.8762; typical data of a MIL-PRF-5606 fluid: 0.871, 31.0.
    CHECK_THAT(specificGravity(30.0).value(), WithinRel(0.87616, 1e-5));
    CHECK_THAT(apiGravity(0.871).value(), WithinRel(30.96, 1e-3));
    for (double degrees = -9.9; degrees < 45.0; degrees += 0.7) {
        CAPTURE(degrees);
        CHECK(std::abs(apiGravity(specificGravity(degrees).value()).value() - degrees) < 1e-9);
        CHECK(specificGravity(degrees + 0.01).value() < specificGravity(degrees).value());
    }
}

TEST_CASE("gravities that no lubricating oil has are refused with what was given")
{
    const double degrees = GENERATE(-131.5, -200.0, -11.0, 46.0, 1e9, std::nan(""));
    CAPTURE(degrees);
    CHECK_THAT(specificGravity(degrees).error().sentence, Contains("specific gravity") && Contains("°API"));
    const double gravity = GENERATE(0.0, -0.88, 0.80, 1.17, 880.0, std::nan(""));
    CAPTURE(gravity);
    CHECK_FALSE(apiGravity(gravity).has_value());
}
