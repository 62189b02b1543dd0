// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Turnovers: the sources are in the tables.

#include "filtration/turnover.h"

#include "published/csv.h"
#include "units/typed.h"

#include <catch2/catch.hpp>

using Catch::WithinAbs;
using loopside::published::Row;
using loopside::published::rowsOf;
using namespace loopside::filtration;
using namespace loopside::units;

TEST_CASE("run times are the published ones")
{
    const std::vector<Row> rows = rowsOf("turnovers.csv");
    REQUIRE(rows.size() == 7);
    for (const Row& row : rows) {
        CAPTURE(row.text("source"));
        const Volume volume{row.number("volume"), unitNamed<Volume>(row.text("volume_unit")).value()->unit};
        const Flow flow{row.number("flow"), unitNamed<Flow>(row.text("flow_unit")).value()->unit};
        const auto time = runTime(row.number("turnovers"), volume, flow);
        REQUIRE(time.has_value());
        CHECK_THAT(time->in(minute), WithinAbs(row.number("minutes"), 1e-9));
    }
}

TEST_CASE("24 gallons at 4 gallons a minute turn over in 6 minutes")
{
    CHECK_THAT(turnoverTime(24.0 * gallon, 4.0 * gallonPerMinute).value().in(minute),
               WithinAbs(6.0, 1e-9)); // arithmetic
}

TEST_CASE("a perfectly mixed tank keeps the tabled share")
{
    const std::vector<Row> rows = rowsOf("turnover_perfect_mixing.csv");
    REQUIRE(rows.size() == 16);
    for (const Row& row : rows) {
        const std::string title = "fraction_never_passed_exp_minus_N";
        CAPTURE(row.text("N_turnovers"));
        CHECK_THAT(leftBehind(row.number("N_turnovers"), 1.0),
                   WithinAbs(row.number(title), 1.01 * row.halfDigit(title)));
    }
}

TEST_CASE("poor mixing leaves more behind")
{
    // A practitioner's table at capture × mixing 0.7, computed, printed to two digits.
    const auto [turnovers, left, halfDigit] = GENERATE(table<double, double, double>({
        {1.0, 0.50, 0.005},
        {3.0, 0.12, 0.005},
        {5.0, 0.030, 0.0005},
        {6.0, 0.015, 0.0005},
        {7.0, 0.0074, 0.00005},
        {10.0, 0.0009, 0.00005},
    }));
    CAPTURE(turnovers);
    CHECK_THAT(leftBehind(turnovers, 0.7), WithinAbs(left, halfDigit));
}
