// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Density of lubricating oil, ASTM D1250 on the 15 °C basis. No published worked value was found: the numbers were
// computed outside this program from the published constants.

#include "oil/density.h"

#include "published/csv.h"

#include <catch2/catch.hpp>

using Catch::WithinAbs;
using loopside::published::Row;
using loopside::published::rowsOf;
using namespace loopside::oil;
using namespace loopside::units;

namespace {

double densityAtCelsius(double at15, double at)
{
    return densityAt(at15 * kilogramPerCubicMetre, at * celsius).value().in(kilogramPerCubicMetre);
}

} // namespace

TEST_CASE("an oil of 870 at 15 degrees has the computed density at 40 and 0 degrees")
{
    CHECK_THAT(densityAtCelsius(870.0, 40.0), WithinAbs(854.22, 0.005));
    CHECK_THAT(densityAtCelsius(870.0, 40.0) / 870.0, WithinAbs(0.981866, 0.5e-6));
    CHECK_THAT(densityAtCelsius(870.0, 0.0), WithinAbs(879.39, 0.005));
}

TEST_CASE("an oil of 865 at 40 degrees is the computed 880.776 at 15 degrees")
{
    CHECK_THAT(densityAtCelsius(880.776, 40.0), WithinAbs(865.0, 0.01));
}

TEST_CASE("55 gallons filled at 50 degrees Fahrenheit take 56.11 gallons at 100")
{
    // Specific gravity 0.88 at 60/60 °F, water 999.012 kg/m³; computed on the 60 °F basis of 2004. 15 °C is 59 °F, one
    // degree cooler, where the oil is heavier by that basis's 0.34878/ρ per °F.
    const Density at15 = 0.88 * 999.012 * (1.0 + 0.34878 / (0.88 * 999.012)) * kilogramPerCubicMetre;
    const auto cold = densityAt(at15, 50.0 * fahrenheit);
    const auto warm = densityAt(at15, 100.0 * fahrenheit);
    REQUIRE(cold.has_value());
    REQUIRE(warm.has_value());
    CHECK_THAT(55.0 * (*cold / *warm), WithinAbs(56.11, 0.005));
}

TEST_CASE("densities from minus 20 to 100 degrees are the computed ones")
{
    const std::vector<Row> rows = rowsOf("density_computed.csv");
    REQUIRE(rows.size() == 14);
    for (const Row& row : rows) {
        REQUIRE(row.grid().size() == 12);
        for (const auto& [at, title] : row.grid()) {
            CAPTURE(row.text("rho15"), at);
            CHECK_THAT(densityAtCelsius(row.number("rho15"), at),
                       WithinAbs(row.number(title), 1.01 * row.halfDigit(title)));
        }
    }
}
