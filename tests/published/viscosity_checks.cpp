// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Viscosity over temperature, ASTM D341.

#include "oil/fluid.h"
#include "oil/grade.h"
#include "oil/viscosity_index.h"
#include "oil/walther.h"
#include "published/csv.h"
#include "published/printed.h"
#include "published/sources.h"
#include "published/topics.h"

#include <algorithm>
#include <cmath>

namespace loopside::published {

namespace {

using namespace oil;
using namespace units;

Fluid gradeFluid(const std::string& vg, double viscosityIndex)
{
    FluidProperties properties;
    properties.grade = "ISO VG " + vg;
    properties.viscosityIndex = viscosityIndex;
    return valueOf(Fluid::from(properties));
}

double cStAt(const Fluid& fluid, double celsiusDegrees)
{
    return valueOf(fluid.viscosityAt(celsiusDegrees * celsius)).in(centistokes);
}

double cStAt(const WaltherLine& line, Temperature at)
{
    return valueOf(line.at(at)).in(centistokes);
}

WaltherLine lineThrough(Temperature first, double firstCst, Temperature second, double secondCst)
{
    return valueOf(WaltherLine::through(first, firstCst * centistokes, second, secondCst * centistokes));
}

/// The sheet takes 273 for absolute zero: 40, 80 and 100 °C are 313, 353 and 373 K.
void sheetChecks(Checks& checks)
{
    const WaltherLine line = lineThrough(313.0 * kelvin, 32.0, 373.0 * kelvin, 5.4);
    checks.check({"Constants A and B of a D341 line", sources::astmD341Sheet},
                 {{"A, 32 cSt at 40 °C and 5.4 at 100 °C", "9.5259", line.a()}, {"B", "3.7449", line.b()}});
    checks.check({"Viscosity between two points, cSt", sources::astmD341Sheet},
                 {{"80 °C, 32 cSt at 40 °C and 5.4 at 100 °C", "8.5", cStAt(line, 353.0 * kelvin)}});
    checks.check({"Viscosity between two points, absolute zero taken as −273 °C, cSt", sources::computed},
                 {{"80 °C", "8.5331", cStAt(line, 353.0 * kelvin)}});
}

void helpPageChecks(Checks& checks)
{
    std::vector<Value> excess;
    for (const double cSt : {2.0, 3.0, 10.0, 100.0}) {
        excess.push_back({shortest(cSt) + " cSt", "0.7", waltherZ(cSt * centistokes) - cSt});
    }
    checks.check({"Z of D341 less the viscosity, from 2 cSt up", sources::pipelineHelp, Tolerance::within(0.001),
                  "Z = ν + 0.7 is enough from 2 cSt up"},
                 excess);
}

void lineChecks(Checks& checks)
{
    const WaltherLine line = lineThrough(40.0 * celsius, 32.0, 100.0 * celsius, 5.4);
    checks.check({"Constants A and B of a D341 line", sources::computed, Tolerance::within(2e-5)},
                 {{"A, 32 cSt at 40 °C and 5.4 at 100 °C", "9.53082", line.a()}, {"B", "3.74658", line.b()}});
    checks.check({"Viscosity between and beyond two points, cSt", sources::computed},
                 {{"80 °C", "8.5332", cStAt(line, 80.0 * celsius)},
                  {"60 °C", "15.186", cStAt(line, 60.0 * celsius)},
                  {"20 °C", "86.28", cStAt(line, 20.0 * celsius)},
                  {"10 °C", "161.0", cStAt(line, 10.0 * celsius)},
                  {"0 °C", "336.0", cStAt(line, 0.0 * celsius)},
                  {"−10 °C", "805", cStAt(line, -10.0 * celsius)}});

    const WaltherLine thickened = lineThrough(40.0 * celsius, 13.5, 100.0 * celsius, 5.1);
    checks.check({"Viscosity that the line gives a polymer-thickened oil at −40 °C, cSt", sources::computed,
                  Tolerance::within(0.1)},
                 {{"13.5 cSt at 40 °C, 5.1 at 100 °C", "200.6", cStAt(thickened, -40.0 * celsius)}});
    checks.deviates({"Viscosity of a polymer-thickened oil at −40 °C, cSt", sources::mil5606, Tolerance::printed(),
                     "D341 does not hold for polymer-thickened oils in the cold; walther.h says so"},
                    {"13.5 cSt at 40 °C, 5.1 at 100 °C", "495", cStAt(thickened, -40.0 * celsius)});
}

void zChecks(Checks& checks)
{
    struct Case
    {
        double cSt;
        const char* z;
        const char* back;
    };
    std::vector<Value> there;
    std::vector<Value> back;
    for (const Case& one : {Case{0.5, "1.280661", "0.50006"}, Case{1.0, "1.721928", "0.99995"},
                            Case{2.0, "2.700754", "2.00017"}, Case{5.0, "5.700000", "5.00000"}}) {
        const std::string at = shortest(one.cSt) + " cSt";
        there.push_back({at, one.z, waltherZ(one.cSt * centistokes)});
        back.push_back({at, one.back, viscosityFromZ(numberIn(one.z)).in(centistokes)});
    }
    checks.check({"Z of D341", sources::computed, Tolerance::within(0.6e-6)}, there);
    checks.check({"Viscosity from Z of D341, cSt", sources::computed, Tolerance::within(0.6e-5)}, back);
}

void gradeLineChecks(Checks& checks)
{
    std::vector<Value> at100;
    std::vector<Value> constants;
    for (const Row& row : rowsOf("grade_lines_computed.csv")) {
        const std::string at = "VG " + row.text("vg") + ", index " + row.text("vi");
        const KinematicViscosity mid = valueOf(gradeNamed(row.text("vg"))).mid;
        const KinematicViscosity hot = valueOf(viscosityAt100(mid, row.number("vi")));
        const WaltherLine line = valueOf(WaltherLine::through(40.0 * celsius, mid, 100.0 * celsius, hot));
        at100.push_back({at, row.text("nu100_cSt"), hot.in(centistokes)});
        constants.push_back({at + ", A", row.text("a"), line.a()});
        constants.push_back({at + ", B", row.text("b"), line.b()});
    }
    checks.check({"Viscosity of a grade at 100 °C from its index, cSt", sources::computed}, at100);
    checks.check({"Constants A and B of a grade's line", sources::computed, Tolerance::within(2e-5)}, constants);
}

void gridChecks(Checks& checks)
{
    std::vector<Value> values;
    for (const Row& row : rowsOf("grade_viscosities_vi95_computed.csv")) {
        const Fluid fluid = gradeFluid(row.text("vg"), 95.0);
        for (const auto& [at, title] : row.grid()) {
            values.push_back({"VG " + row.text("vg") + ", " + title + " °C", row.text(title), cStAt(fluid, at)});
        }
    }
    checks.check({"Viscosity of grades of index 95 from −20 to 100 °C, cSt", sources::computed,
                  Tolerance::printed().orPart(1e-7)},
                 values);
}

/// The table is of oils of index 95 to 105: what is furthest in that range from the value is held against it.
void practitionerChecks(Checks& checks)
{
    std::vector<Value> values;
    for (const Row& row : rowsOf("practice_viscosities.csv")) {
        const Fluid low = gradeFluid(row.text("vg"), 95.0);
        const Fluid high = gradeFluid(row.text("vg"), 105.0);
        for (const auto& [at, title] : row.grid()) {
            const auto [thinner, thicker] = std::minmax({cStAt(low, at), cStAt(high, at)});
            values.push_back({"VG " + row.text("vg") + ", " + title + " °C", row.text(title),
                              std::clamp(row.number(title), thinner, thicker)});
        }
    }
    checks.check({"Viscosity of oils of index 95 to 105, cSt", sources::practitioner, Tolerance::withinPart(0.03),
                  "against the nearest of what our range of indices gives; printed to two digits"},
                 values);
    checks.check({"Viscosity of VG 460 in the cold, cSt", sources::practitioner, Tolerance::withinPart(0.03)},
                 {{"8 °C", "6300", cStAt(gradeFluid("460", 95.0), 8.0)}});
}

} // namespace

void viscosityChecks(Checks& checks)
{
    sheetChecks(checks);
    helpPageChecks(checks);
    lineChecks(checks);
    zChecks(checks);
    gradeLineChecks(checks);
    gridChecks(checks);
    practitionerChecks(checks);
}

} // namespace loopside::published
