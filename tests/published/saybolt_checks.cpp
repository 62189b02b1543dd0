// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Saybolt Universal seconds, ASTM D2161.

#include "filtration/suction.h"
#include "oil/saybolt.h"
#include "published/printed.h"
#include "published/sources.h"
#include "published/topics.h"

namespace loopside::published {

namespace {

using namespace oil;
using namespace units;

double secondsOf(double cSt)
{
    return valueOf(sayboltSeconds(cSt * centistokes)).in(second);
}

} // namespace

void sayboltChecks(Checks& checks)
{
    checks.check({"Viscosity of Saybolt seconds, cSt", sources::chemicalsLibrary},
                 {{"700 SUS", "151.089", valueOf(viscosityFromSaybolt(700.0 * second)).in(centistokes)}});

    // 54.64 lb/ft³ are 875.25 kg/m³.
    const double viscosity = valueOf(viscosityFromSaybolt(75.0 * second, 60.0 * fahrenheit)).in(centistokes);
    checks.deviates({"Dynamic viscosity of Saybolt seconds, cP", sources::tp410, Tolerance::printed(),
                     "1 % off: read from a chart there"},
                    {"problem 7.17, 75 SUS at 60 °F, 54.64 lb/ft³", "12.5", viscosity * 0.87525});

    std::vector<Value> perCst;
    for (const double cSt : {70.0, 100.0, 220.0, 460.0, 1000.0}) {
        perCst.push_back({shortest(cSt) + " cSt", "4.632", secondsOf(cSt) / cSt});
    }
    checks.check({"Saybolt seconds per cSt from 70 cSt up", sources::hydraulicInstitute, Tolerance::withinPart(0.002),
                  "a shortcut there"},
                 perCst);

    checks.check({"Thickest oil to start a gear pump with, SUS", sources::gearPumpLiterature,
                  Tolerance::withinPart(0.001), "kept as 1620 cSt"},
                 {{"", "7500", valueOf(sayboltSeconds(filtration::defaultPumpViscosityMax)).in(second)}});

    checks.check({"Saybolt seconds at 100 °F", sources::computed},
                 {{"32 cSt", "150.49", secondsOf(32.0)},
                  {"46 cSt", "214.19", secondsOf(46.0)},
                  {"68 cSt", "315.5", secondsOf(68.0)},
                  {"220 cSt", "1019.2", secondsOf(220.0)}});
    checks.check({"Viscosity of Saybolt seconds, cSt", sources::computed},
                 {{"7500 SUS", "1619.0", valueOf(viscosityFromSaybolt(7500.0 * second)).in(centistokes)}});
}

} // namespace loopside::published
