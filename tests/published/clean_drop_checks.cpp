// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The clean drop at other conditions. No published worked example was found: the numbers were computed outside this
// program from Darcy's law for the element and the inertial law for the housing.

#include "filtration/clean_drop.h"
#include "published/csv.h"
#include "published/sources.h"
#include "published/topics.h"

namespace loopside::published {

namespace {

using namespace filtration;
using namespace units;

const Conditions known{10.0 * gallonPerMinute, 30.0 * centistokes, 860.0 * kilogramPerCubicMetre};
const CleanDrop assembly{4.5 * psi, 1.5 * psi, known};

double psiAt(const CleanDrop& clean, const Conditions& now)
{
    return valueOf(cleanDropAt(clean, now)).in(psi);
}

} // namespace

void cleanDropChecks(Checks& checks)
{
    const CleanDrop element{3.0 * psi, Pressure{}, known};
    const CleanDrop housing{1.5 * psi, 1.5 * psi, known};
    std::vector<Value> elements;
    std::vector<Value> housings;
    std::vector<Value> totals;
    for (const Row& row : rowsOf("clean_drop_computed.csv")) {
        const Conditions now{row.number("flow_gpm") * gallonPerMinute, row.number("viscosity_cSt") * centistokes,
                             row.number("density_kg_m3") * kilogramPerCubicMetre};
        const std::string at = row.text("flow_gpm") + " gpm, " + row.text("viscosity_cSt") + " cSt";
        elements.push_back({at, row.text("element"), psiAt(element, now)});
        housings.push_back({at, row.text("housing"), psiAt(housing, now)});
        totals.push_back({at, row.text("total"), psiAt(assembly, now)});
    }
    checks.check({"Clean drop of an element at other conditions, psi", sources::computed}, elements);
    checks.check({"Clean drop of a housing at other conditions, psi", sources::computed}, housings);
    checks.check({"Clean drop of element and housing at other conditions, psi", sources::computed}, totals);

    const Conditions now{8.0 * gallonPerMinute, 100.0 * centistokes, 880.0 * kilogramPerCubicMetre};
    const Pressure corrected = valueOf(correctedDrop(14.0 * psi, assembly, now));
    checks.check({"Corrected drop of 14.0 psi read in thick oil, psi", sources::computed},
                 {{"8 gpm, 100 cSt", "6.2707", corrected.in(psi)}});
    checks.check({"Loading of the same", sources::computed, Tolerance::within(0.00002)},
                 {{"÷ 4.5 psi", "1.393489", loading(corrected, assembly)}});
}

} // namespace loopside::published
