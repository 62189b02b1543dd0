// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Water in oil.

#include "oil/water.h"
#include "published/csv.h"
#include "published/sources.h"
#include "published/topics.h"

namespace loopside::published {

namespace {

using namespace oil;
using namespace units;

void saturationChecks(Checks& checks)
{
    std::vector<Value> values;
    for (const Row& row : rowsOf("water_saturation.csv")) {
        values.push_back(
            {row.text("celsius") + " °C", row.text("ppm"),
             valueOf(waterSaturation(mineralInsulatingOil, row.number("celsius") * celsius)).in(partPerMillion)});
    }
    checks.check({"Water in saturated mineral insulating oil, ppm", sources::saturationArticle,
                  Tolerance::within(0.6).orPart(0.0075), "the formula's two constants are from memory"},
                 values);

    const WaterSolubility example = valueOf(waterSolubility(1000.0 * partPerMillion, 50.0 * celsius));
    const auto saturated = [&](double ppm) {
        return valueOf(relativeSaturation(ppm * partPerMillion, example, 50.0 * celsius)).in(percent);
    };
    checks.check({"Relative saturation where 1000 ppm saturate, %", sources::permittedWater, Tolerance::exact()},
                 {{"500 ppm, caution", "50", saturated(500.0)}, {"1000 ppm, critical", "100", saturated(1000.0)}});
}

void removalChecks(Checks& checks)
{
    constexpr double fluidOunceInGallons = 1.0 / 128.0;
    const Volume water = valueOf(
        waterToRemove(15.0 * gallon, 870.0 * kilogramPerCubicMetre, 3000.0 * partPerMillion, 0.0 * partPerMillion));
    checks.check({"Water to take out, US fluid ounces", sources::waterQuestion, Tolerance::within(0.5),
                  "\"5 to 6\"; for an oil of 870 kg/m³"},
                 {{"3000 ppm in 15 gal", "5.5", water.in(gallon) / fluidOunceInGallons}});

    // 1 m³ of 1000 kg/m³ holds as many kilogrammes of water at 10 % as 100 kg of water: their volume tells its density.
    const Volume hundredKilograms = valueOf(
        waterToRemove(1.0 * cubicMetre, 1000.0 * kilogramPerCubicMetre, 10.0 * percent, 0.0 * percent));
    checks.check({"Density of water at 20 °C, kg/m³", sources::iapws, Tolerance::within(0.01), "kept as 998.2"},
                 {{"101.325 kPa", "998.2072", 100.0 / hundredKilograms.in(cubicMetre)}});

    checks.check({"Mass of water to take out, kg", sources::computed},
                 {{"500 to 100 ppm of 200 gal of 870 kg/m³", "0.2635",
                   valueOf(waterToRemove(200.0 * gallon, 870.0 * kilogramPerCubicMetre, 500.0 * partPerMillion,
                                         100.0 * partPerMillion))
                           .in(cubicMetre)
                       * 998.2}});
}

void computedChecks(Checks& checks)
{
    checks.check(
        {"Relative saturation of insulating oil, %", sources::computed},
        {{"30 ppm at 20 °C", "54.1",
          valueOf(relativeSaturation(30.0 * partPerMillion, mineralInsulatingOil, 20.0 * celsius)).in(percent)}});
    checks.check({"Temperature below which water comes free, °C", sources::computed},
                 {{"121 ppm in insulating oil", "39.8",
                   valueOf(freeWaterTemperature(121.0 * partPerMillion, mineralInsulatingOil)).in(celsius)}});
}

} // namespace

void waterChecks(Checks& checks)
{
    saturationChecks(checks);
    removalChecks(checks);
    computedChecks(checks);
}

} // namespace loopside::published
