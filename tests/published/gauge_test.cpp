// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Gauge grades of ASME B40.100 and EN 837-1, and the uncertainty of a difference by JCGM 100.

#include "filtration/gauge.h"

#include "filtration/differential.h"
#include "published/csv.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using Catch::WithinAbs;
using Catch::WithinRel;
using loopside::published::Row;
using loopside::published::rowsOf;
using namespace loopside::filtration;
using namespace loopside::units;

namespace {

Gauge gaugeTo(Pressure span, const std::string& grade)
{
    return {span, std::nullopt, accuracyGrade(grade).value()};
}

/// A gauge from 0 to 100 psi; blank fields are parts that are left out.
Gauge gaugeOf(const Row& row)
{
    Gauge gauge{100.0 * psi, std::nullopt, std::nullopt};
    if (!row.text("grade").empty()) {
        gauge.grade = accuracyGrade(row.text("grade")).value();
    }
    if (!row.text("graduation").empty()) {
        gauge.graduation = row.number("graduation") * psi;
    }
    return gauge;
}

/// Standing and reading error together, in psi.
double bothOf(const Difference& difference)
{
    return std::hypot(difference.standing.value_or(Pressure{}).in(psi),
                      difference.reading.value_or(Pressure{}).in(psi));
}

} // namespace

TEST_CASE("every gauge grade permits the tabled errors in its three zones")
{
    const std::vector<Row> rows = rowsOf("gauge_grades.csv");
    REQUIRE(rows.size() == 15);
    for (const Row& row : rows) {
        CAPTURE(row.text("system"), row.text("grade_or_class"));
        const Gauge gauge = gaugeTo(100.0 * psi, row.text("grade_or_class"));
        const auto errorAt = [&](double reading) { return permissibleError(gauge, reading * psi).value().in(psi); };
        CHECK_THAT(errorAt(10.0), WithinRel(row.number("error_first_quarter_pct_span"), 1e-12));
        CHECK_THAT(errorAt(50.0), WithinRel(row.number("error_middle_half_pct_span"), 1e-12));
        CHECK_THAT(errorAt(90.0), WithinRel(row.number("error_last_quarter_pct_span"), 1e-12));
    }
}

TEST_CASE("a class is a limit in percent of span")
{
    // EN 837-1:1998 table 11, and arithmetic.
    CHECK_THAT(permissibleError(gaugeTo(10.0 * bar, "1.6"), 5.0 * bar).value().in(bar), WithinRel(0.16, 1e-12));
    CHECK_THAT(permissibleError(gaugeTo(100.0 * psi, "2.5"), 50.0 * psi).value().in(psi), WithinRel(2.5, 1e-12));
}

TEST_CASE("limits with no other knowledge are divided by the root of three")
{
    // A guide's worked example of the rectangular distribution: a = 1.5 gives 0.87.
    const Gauge gauge{100.0 * psi, std::nullopt, AccuracyGrade{"example", 1.5, 1.5, 1.5}};
    CHECK_THAT(standingUncertainty(gauge, 50.0 * psi).value().in(psi), WithinAbs(0.87, 0.005));
}

TEST_CASE("the difference of two gauges has the computed uncertainty")
{
    const std::vector<Row> rows = rowsOf("gauge_uncertainty_computed.csv");
    REQUIRE(rows.size() == 6);
    for (const Row& row : rows) {
        CAPTURE(row.text("grade"), row.text("graduation"));
        const Gauge gauge = gaugeOf(row);
        const Pressure middle = 50.0 * psi;
        const GaugeValue value{middle, standingUncertainty(gauge, middle), readingUncertainty(gauge, Pressure{})};
        const std::array<std::optional<GaugeValue>, 2> gauges{value, value};
        const auto stages = differences(gauges);
        REQUIRE(stages.size() == 1);
        REQUIRE(stages[0].has_value());
        CHECK_THAT(bothOf(*stages[0]) / 2.0, WithinAbs(row.number("u"), 1.01 * row.halfDigit("u")));
        CHECK_THAT(bothOf(*stages[0]), WithinAbs(row.number("expanded"), 1.01 * row.halfDigit("expanded")));
    }
}

TEST_CASE("two grade B gauges of 100 psi tell a difference to 3.266 psi")
{
    const Gauge gauge = gaugeTo(100.0 * psi, "B"); // computed by JCGM 100
    const GaugeValue up{60.0 * psi, standingUncertainty(gauge, 60.0 * psi), std::nullopt};
    const GaugeValue down{40.0 * psi, standingUncertainty(gauge, 40.0 * psi), std::nullopt};
    const std::array<std::optional<GaugeValue>, 2> gauges{up, down};
    const auto stages = differences(gauges);
    REQUIRE(stages.at(0).has_value());
    REQUIRE(stages[0]->standing.has_value());
    CHECK_THAT(stages[0]->standing->in(psi), WithinAbs(3.266, 0.0005));
}
