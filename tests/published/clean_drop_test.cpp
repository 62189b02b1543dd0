// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The clean drop at other conditions. No published worked example was found: the numbers were computed outside this
// program from Darcy's law for the element and the inertial law for the housing.

#include "filtration/clean_drop.h"

#include "published/csv.h"

#include <catch2/catch.hpp>

using Catch::WithinAbs;
using loopside::published::Row;
using loopside::published::rowsOf;
using namespace loopside::filtration;
using namespace loopside::units;

namespace {

const Conditions known{10.0 * gallonPerMinute, 30.0 * centistokes, 860.0 * kilogramPerCubicMetre};
const CleanDrop assembly{4.5 * psi, 1.5 * psi, known};

double psiAt(const CleanDrop& clean, const Conditions& now)
{
    return cleanDropAt(clean, now).value().in(psi);
}

} // namespace

TEST_CASE("element and housing have the computed clean drops at other conditions")
{
    const CleanDrop element{3.0 * psi, Pressure{}, known};
    const CleanDrop housing{1.5 * psi, 1.5 * psi, known};
    const std::vector<Row> rows = rowsOf("clean_drop_computed.csv");
    REQUIRE(rows.size() == 5);
    for (const Row& row : rows) {
        CAPTURE(row.text("flow_gpm"), row.text("viscosity_cSt"));
        const Conditions now{row.number("flow_gpm") * gallonPerMinute, row.number("viscosity_cSt") * centistokes,
                             row.number("density_kg_m3") * kilogramPerCubicMetre};
        CHECK_THAT(psiAt(element, now), WithinAbs(row.number("element"), 1.01 * row.halfDigit("element")));
        CHECK_THAT(psiAt(housing, now), WithinAbs(row.number("housing"), 1.01 * row.halfDigit("housing")));
        CHECK_THAT(psiAt(assembly, now), WithinAbs(row.number("total"), 1.01 * row.halfDigit("total")));
    }
}

TEST_CASE("14 psi read in thick oil are 6.2707 psi at the known conditions")
{
    const Conditions now{8.0 * gallonPerMinute, 100.0 * centistokes, 880.0 * kilogramPerCubicMetre};
    const auto corrected = correctedDrop(14.0 * psi, assembly, now);
    REQUIRE(corrected.has_value());
    CHECK_THAT(corrected->in(psi), WithinAbs(6.2707, 0.00005));
    CHECK_THAT(loading(*corrected, assembly), WithinAbs(6.2707 / 4.5, 0.00002));
}
