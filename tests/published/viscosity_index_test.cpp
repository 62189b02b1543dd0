// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The viscosity index, ASTM D2270.

#include "oil/viscosity_index.h"

#include "oil/grade.h"
#include "published/csv.h"

#include <catch2/catch.hpp>

using Catch::WithinAbs;
using loopside::published::Row;
using loopside::published::rowsOf;
using namespace loopside::oil;
using namespace loopside::units;

TEST_CASE("the eighteen worked viscosity indices are met")
{
    const std::vector<Row> rows = rowsOf("d2270_examples.csv");
    REQUIRE(rows.size() == 18);
    for (const Row& row : rows) {
        CAPTURE(row.text("U_cSt_40C"), row.text("Y_cSt_100C"), row.text("note"));
        const auto at100 = row.number("Y_cSt_100C") * centistokes;
        const auto oils = referenceOils(at100);
        REQUIRE(oils.has_value());
        CHECK_THAT(oils->l.in(centistokes), WithinAbs(row.number("L"), 1.01 * row.halfDigit("L")));
        CHECK_THAT(oils->h.in(centistokes), WithinAbs(row.number("H"), 1.01 * row.halfDigit("H")));

        const auto index = viscosityIndex(row.number("U_cSt_40C") * centistokes, at100);
        REQUIRE(index.has_value());
        CHECK_THAT(*index, WithinAbs(row.number("VI_unrounded_table"), 0.01));
        CHECK(reportedViscosityIndex(*index) == row.number("VI_reported"));
    }
}

TEST_CASE("the examples printed in the standard are met as printed")
{
    // ASTM D2270-93(98), calculation examples: 92, 156 (156.37 with H rounded on the way), 111.
    // The library test's 193; typical data of a MIL-PRF-5606 type fluid, 382; a negative index, computed.
    const auto [at40, at100, expected] = GENERATE(table<double, double, double>({
        {73.30, 8.86, 92.0},
        {22.83, 5.05, 156.0},
        {53.47, 7.80, 111.0},
        {1000.0, 100.0, 193.0},
        {13.5, 5.1, 382.0},
        {120.0, 8.0, -50.0},
    }));
    const auto index = viscosityIndex(at40 * centistokes, at100 * centistokes);
    REQUIRE(index.has_value());
    CHECK(reportedViscosityIndex(*index) == expected);
}

TEST_CASE("the viscosity index is undefined below 2 cSt at 100 degrees")
{
    // ASTM D2270-93(98): not reportable below 2.0.
    const auto index = viscosityIndex(5.0 * centistokes, 1.5 * centistokes);
    REQUIRE_FALSE(index.has_value());
    CHECK(index.error().code == loopside::Errc::OutOfRange);
    CHECK(viscosityIndex(7.0 * centistokes, 2.0 * centistokes).has_value());
}

TEST_CASE("L and H are those of table 1 of D2270 at its ends and inside")
{
    const auto [at100, l, h] = GENERATE(table<double, double, double>({
        {2.0, 7.994, 6.394},
        {8.0, 100.0, 59.6},
        {70.0, 4905.0, 1558.0},
    }));
    const auto oils = referenceOils(at100 * centistokes);
    REQUIRE(oils.has_value());
    CHECK_THAT(oils->l.in(centistokes), WithinAbs(l, 1e-9));
    CHECK_THAT(oils->h.in(centistokes), WithinAbs(h, 1e-9));
}

TEST_CASE("VG 46 of viscosity index 95 has the computed viscosity at 100 degrees")
{
    const auto at100 = viscosityAt100(gradeNamed("ISO VG 46").value().mid, 95.0); // computed
    REQUIRE(at100.has_value());
    CHECK_THAT(at100->in(centistokes), WithinAbs(6.6450, 0.001));
}

TEST_CASE("the pairs of a public chart for index 100 come back from the index")
{
    // A public chart's pairs 32/5.36, 46/6.76 and 68/8.73 for viscosity index 100, printed to three digits.
    const auto [at40, at100] = GENERATE(table<double, double>({{32.0, 5.36}, {46.0, 6.76}, {68.0, 8.73}}));
    const auto found = viscosityAt100(at40 * centistokes, 100.0);
    REQUIRE(found.has_value());
    CHECK_THAT(found->in(centistokes), WithinAbs(at100, 0.005));
}
