// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/water.h"

#include <catch2/catch.hpp>

#include <limits>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside::oil;
using namespace loopside::units;

namespace {

constexpr double notANumber = std::numeric_limits<double>::quiet_NaN();

} // namespace

TEST_CASE("insulating oil holds as much water as the published table says")
{
    // A transformer-oil article's solubility table. The constants meet it within 1.3 ppm to 60 °C, 4.5 ppm at 100 °C.
    const auto [atC, ppm] = GENERATE(table<double, double>({
        {0, 22},
        {10, 36},
        {20, 55},
        {30, 83},
        {40, 121},
        {50, 173},
        {60, 242},
        {70, 331},
        {80, 446},
        {90, 592},
        {100, 772},
    }));
    CAPTURE(atC);
    CHECK_THAT(waterSaturation(mineralInsulatingOil, atC * celsius).value().in(partPerMillion),
               WithinAbs(ppm, atC > 60 ? 4.6 : 1.3));
}

TEST_CASE("warm oil holds more water")
{
    for (int at = 0; at < 100; ++at) {
        CAPTURE(at);
        CHECK(waterSaturation(mineralInsulatingOil, (at + 1.0) * celsius).value()
              > waterSaturation(mineralInsulatingOil, at * celsius).value());
    }
}

TEST_CASE("the saturation that is told for an oil is met at its temperature")
{
    // Mineral hydraulic oil: 200 to 300 ppm at 20 °C (an article on water limits).
    const auto oil = waterSolubility(250.0 * partPerMillion, 20.0 * celsius).value();
    CHECK_THAT(waterSaturation(oil, 20.0 * celsius).value().in(partPerMillion), WithinRel(250.0, 1e-12));
    CHECK(oil.bKelvin == mineralInsulatingOil.bKelvin);
    CHECK(waterSaturation(oil, 60.0 * celsius).value() > 250.0 * partPerMillion);
}

TEST_CASE("30 ppm are half of what insulating oil holds at 20 degrees")
{
    // Computed here from the constants: 54.1 %.
    CHECK_THAT(relativeSaturation(30.0 * partPerMillion, mineralInsulatingOil, 20.0 * celsius).value().in(percent),
               WithinAbs(54.1, 0.05));
    CHECK(relativeSaturation(200.0 * partPerMillion, mineralInsulatingOil, 20.0 * celsius).value() > 1.0 * one);
    CHECK(relativeSaturation(Fraction(), mineralInsulatingOil, 20.0 * celsius).value() == Fraction());
}

TEST_CASE("water comes out of solution where the oil is saturated with it")
{
    // The published table has 121 ppm at 40 °C; 39.8 °C computed from the constants.
    CHECK_THAT(freeWaterTemperature(121.0 * partPerMillion, mineralInsulatingOil).value().in(celsius),
               WithinAbs(39.8, 0.05));
    for (double ppm = 23.0; ppm < 770.0; ppm += 7.0) {
        CAPTURE(ppm);
        const auto at = freeWaterTemperature(ppm * partPerMillion, mineralInsulatingOil).value();
        CHECK_THAT(relativeSaturation(ppm * partPerMillion, mineralInsulatingOil, at).value().in(one),
                   WithinRel(1.0, 1e-9));
    }
    CHECK_THAT(freeWaterTemperature(10.0 * partPerMillion, mineralInsulatingOil).error().sentence,
               Contains("stay dissolved down to 0 °C"));
    CHECK_THAT(freeWaterTemperature(Fraction(), mineralInsulatingOil).error().sentence, Contains("stay dissolved"));
    CHECK_THAT(freeWaterTemperature(0.1 * percent, mineralInsulatingOil).error().sentence, Contains("even at 100 °C"));
}

TEST_CASE("1000 ppm less in 400 litres are a third of a litre of water")
{
    // By hand: 400 L × 0.870 kg/L × 0.001 = 0.348 kg, / 0.9982 kg/L = 0.3486 L.
    const auto oil = 400.0 * litre;
    const auto density = 870.0 * kilogramPerCubicMetre;
    const auto from = 1200.0 * partPerMillion;
    const auto to = 200.0 * partPerMillion;
    CHECK_THAT(waterToRemove(oil, density, from, to).value().in(litre), WithinAbs(0.3486, 0.0001));
    CHECK_THAT(waterToRemove(2.0 * oil, density, from, to).value().in(litre),
               WithinRel(2.0 * waterToRemove(oil, density, from, to).value().in(litre), 1e-12));
    CHECK(waterToRemove(oil, density, from, from).value() == Volume());
    CHECK(waterToRemove(Volume(), density, from, to).value() == Volume());
}

TEST_CASE("water figures that cannot be are refused with the fault named")
{
    const auto oil = 400.0 * litre;
    const auto density = 870.0 * kilogramPerCubicMetre;
    const auto some = 100.0 * partPerMillion;
    CHECK_THAT(waterToRemove(oil, density, some, 2.0 * some).error().sentence, Contains("must not be above"));
    CHECK_THAT(waterToRemove(oil, density, -1.0 * some, some).error().sentence, Contains("water content before"));
    CHECK_THAT(waterToRemove(oil, density, 2.0 * one, some).error().sentence, Contains("water content before"));
    CHECK_THAT(waterToRemove(oil, density, some, notANumber * one).error().sentence, Contains("water content after"));
    CHECK_THAT(waterToRemove(-1.0 * oil, density, some, Fraction()).error().sentence, Contains("volume of oil"));
    CHECK_THAT(waterToRemove(oil, 0.87 * kilogramPerCubicMetre, some, Fraction()).error().sentence,
               Contains("700 to 1200 kg/m³"));
    const double atC = GENERATE(-0.1, 100.1, 400.0, notANumber);
    CAPTURE(atC);
    CHECK_THAT(waterSaturation(mineralInsulatingOil, atC * celsius).error().sentence, Contains("0 to 100 °C"));
    CHECK_FALSE(waterSolubility(some, atC * celsius).has_value());
    CHECK_FALSE(relativeSaturation(some, mineralInsulatingOil, atC * celsius).has_value());
    CHECK_THAT(waterSolubility(Fraction(), 20.0 * celsius).error().sentence, Contains("1 to 100000 ppm"));
    CHECK_FALSE(waterSolubility(notANumber * one, 20.0 * celsius).has_value());
}
