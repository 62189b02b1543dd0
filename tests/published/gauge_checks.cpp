// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Gauge grades of ASME B40.100 and EN 837-1, and the uncertainty of a difference by JCGM 100.

#include "filtration/differential.h"
#include "filtration/gauge.h"
#include "published/csv.h"
#include "published/sources.h"
#include "published/topics.h"

#include <array>
#include <cmath>

namespace loopside::published {

namespace {

using namespace filtration;
using namespace units;

constexpr Pressure span = 100.0 * psi;

Gauge gaugeTo(Pressure end, const std::string& grade)
{
    return {end, std::nullopt, valueOf(accuracyGrade(grade))};
}

/// A gauge from 0 to 100 psi; blank fields are parts that are left out.
Gauge gaugeOf(const Row& row)
{
    Gauge gauge{span, std::nullopt, std::nullopt};
    if (!row.text("grade").empty()) {
        gauge.grade = valueOf(accuracyGrade(row.text("grade")));
    }
    if (!row.text("graduation").empty()) {
        gauge.graduation = row.number("graduation") * psi;
    }
    return gauge;
}

void addZones(std::vector<Value>& values, const Row& row)
{
    const Gauge gauge = gaugeTo(span, row.text("grade_or_class"));
    const auto add = [&](const std::string& zone, const std::string& title, double reading) {
        values.push_back({row.text("grade_or_class") + ", " + zone, row.text(title),
                          permissibleError(gauge, reading * psi).value().in(psi)});
    };
    add("first quarter", "error_first_quarter_pct_span", 10.0);
    add("middle half", "error_middle_half_pct_span", 50.0);
    add("last quarter", "error_last_quarter_pct_span", 90.0);
}

void zoneChecks(Checks& checks)
{
    std::vector<Value> read;
    std::vector<Value> explained;
    std::vector<Value> remembered;
    for (const Row& row : rowsOf("gauge_grades.csv")) {
        addZones(row.text("provenance") == "read"         ? read
                     : row.text("provenance") == "memory" ? remembered
                                                          : explained,
                 row);
    }
    const std::string quantity = "Permissible error, % of span";
    checks.check({quantity, sources::en837, Tolerance::exact()}, read);
    checks.check({quantity, sources::asmeExplainers, Tolerance::exact()}, explained);
    checks.check({quantity + ", ASME B40.100 grades 4A to 1A and B to D", sources::fromMemory, Tolerance::exact()},
                 remembered);
    checks.check(
        {"Permissible error of a gauge, as a pressure", sources::computed, Tolerance::exact()},
        {{"class 1.6, 0 to 10 bar, bar", "0.16",
          permissibleError(gaugeTo(10.0 * bar, "1.6"), 5.0 * bar).value().in(bar)},
         {"class 2.5, 0 to 100 psi, psi", "2.5", permissibleError(gaugeTo(span, "2.5"), 50.0 * psi).value().in(psi)}});
}

double standingPsi(double permissiblePct)
{
    const Gauge gauge{span, std::nullopt, AccuracyGrade{"example", permissiblePct, permissiblePct, permissiblePct}};
    return standingUncertainty(gauge, 50.0 * psi).value().in(psi);
}

void rectangularChecks(Checks& checks)
{
    const std::string quantity = "Standard uncertainty of limits with no other knowledge";
    checks.check({quantity, sources::distributionGuide}, {{"± 1.5", "0.87", standingPsi(1.5)}});
    std::vector<Value> values;
    for (const Row& row : rowsOf("scipy_statistics.csv")) {
        if (row.text("distribution") == "uniform") {
            values.push_back(
                {"± " + row.text("parameter"), row.text("deviation"), standingPsi(row.number("parameter"))});
        }
    }
    checks.check({quantity, sources::scipy}, values);
}

GaugeValue standing(double value, double psiUncertainty)
{
    return {value * psi, psiUncertainty * psi, std::nullopt};
}

void differenceChecks(Checks& checks)
{
    std::vector<Value> drops;
    std::vector<Value> correlations;
    for (const Row& row : rowsOf("stage_uncertainties.csv")) {
        const std::array<std::optional<GaugeValue>, 3> gauges{standing(38.0, row.number("before")),
                                                              standing(22.0, row.number("between")),
                                                              standing(6.0, row.number("behind"))};
        const auto stages = differences(gauges);
        const std::string at = row.text("before") + ", " + row.text("between") + ", " + row.text("behind") + " psi";
        drops.push_back({at + ", first", row.text("first_drop"), stages.at(0).value().standing.value().in(psi) / 2.0});
        drops.push_back(
            {at + ", second", row.text("second_drop"), stages.at(1).value().standing.value().in(psi) / 2.0});
        correlations.push_back({at, row.text("correlation"), correlation(gauges[0], gauges[1], gauges[2]).value()});
    }
    checks.check({"Standard uncertainty of a stage's drop, psi", sources::uncertaintiesLibrary}, drops);
    checks.check({"Correlation of two neighbouring stages' drops", sources::uncertaintiesLibrary}, correlations);
}

/// Standing and reading error together, in psi.
double bothOf(const Difference& difference)
{
    return std::hypot(difference.standing.value_or(Pressure{}).in(psi),
                      difference.reading.value_or(Pressure{}).in(psi));
}

void computedChecks(Checks& checks)
{
    std::vector<Value> standard;
    std::vector<Value> expanded;
    for (const Row& row : rowsOf("gauge_uncertainty_computed.csv")) {
        const Gauge gauge = gaugeOf(row);
        const Pressure mid = 50.0 * psi;
        const GaugeValue value{mid, standingUncertainty(gauge, mid), readingUncertainty(gauge, Pressure{})};
        const std::array<std::optional<GaugeValue>, 2> gauges{value, value};
        const double both = bothOf(differences(gauges).at(0).value());
        const std::string at = "grade " + row.text("grade") + ", graduation " + row.text("graduation");
        standard.push_back({at, row.text("u"), both / 2.0});
        expanded.push_back({at, row.text("expanded"), both});
    }
    checks.check({"Standard uncertainty of the difference of two gauges, psi", sources::computed}, standard);
    checks.check({"Expanded uncertainty of the difference of two gauges, psi", sources::computed}, expanded);

    const Gauge gauge = gaugeTo(span, "B");
    const std::array<std::optional<GaugeValue>, 2> gauges{
        GaugeValue{60.0 * psi, standingUncertainty(gauge, 60.0 * psi), std::nullopt},
        GaugeValue{40.0 * psi, standingUncertainty(gauge, 40.0 * psi), std::nullopt}};
    checks.check({"Standing part of the difference of two grade B gauges, psi", sources::computed},
                 {{"60 and 40 psi", "3.266", differences(gauges).at(0).value().standing.value().in(psi)}});
}

} // namespace

void gaugeChecks(Checks& checks)
{
    zoneChecks(checks);
    rectangularChecks(checks);
    differenceChecks(checks);
    computedChecks(checks);
}

} // namespace loopside::published
