// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The viscosity index, ASTM D2270.

#include "oil/grade.h"
#include "oil/viscosity_index.h"
#include "published/csv.h"
#include "published/printed.h"
#include "published/sources.h"
#include "published/topics.h"

#include <array>

namespace loopside::published {

namespace {

using namespace oil;
using namespace units;

/// Where an example comes from, under the name by which the data know it.
struct Origin
{
    const char* name;
    Source source;
};

const std::array origins = {
    Origin{"D2270", sources::astmD2270},
    Origin{"chemicals", sources::chemicalsLibrary},
    Origin{"viscosity-chart", sources::viscosityChart},
    Origin{"MIL-PRF-5606", sources::mil5606},
    Origin{"computed", sources::computed},
};

double index(const Row& row)
{
    return valueOf(viscosityIndex(row.number("U_cSt_40C") * centistokes, row.number("Y_cSt_100C") * centistokes));
}

std::string placeOf(const Row& row)
{
    return row.text("U_cSt_40C") + " cSt at 40 °C, " + row.text("Y_cSt_100C") + " at 100 °C";
}

void exampleChecks(Checks& checks)
{
    const std::vector<Row> rows = rowsOf("d2270_examples.csv");
    for (const Origin& origin : origins) {
        std::vector<Value> reported;
        for (const Row& row : rows) {
            if (row.text("source") == origin.name) {
                reported.push_back({placeOf(row), row.text("VI_reported"), reportedViscosityIndex(index(row))});
            }
        }
        checks.check({"Viscosity index as reported", origin.source, Tolerance::exact()}, reported);
    }

    std::vector<Value> unrounded;
    std::vector<Value> unroundedClosed;
    std::vector<Value> oils;
    for (const Row& row : rows) {
        unrounded.push_back({placeOf(row), row.text("VI_unrounded_table"), index(row)});
        unroundedClosed.push_back({placeOf(row), row.text("VI_unrounded_poly"),
                                   valueOf(viscosityIndexClosedForm(row.number("U_cSt_40C") * centistokes,
                                                                    row.number("Y_cSt_100C") * centistokes))});
        const ReferenceOils found = valueOf(referenceOils(row.number("Y_cSt_100C") * centistokes));
        oils.push_back({placeOf(row) + ", L", row.text("L"), found.l.in(centistokes)});
        oils.push_back({placeOf(row) + ", H", row.text("H"), found.h.in(centistokes)});
    }
    checks.check({"Viscosity index, unrounded", sources::computed, Tolerance::within(0.01)}, unrounded);
    checks.check({"Viscosity index by the closed form, unrounded", sources::computed, Tolerance::within(0.0002)},
                 unroundedClosed);
    checks.check({"L and H at the examples, cSt", sources::computed}, oils);
}

void referenceOilChecks(Checks& checks)
{
    std::vector<Value> l;
    std::vector<Value> h;
    for (const Row& row : rowsOf("d2270_table1.csv")) {
        const std::string at = row.text("Y_cSt_at_100C") + " cSt at 100 °C";
        const ReferenceOils oils = valueOf(referenceOils(row.number("Y_cSt_at_100C") * centistokes));
        l.push_back({at, row.text("L_cSt_at_40C"), oils.l.in(centistokes)});
        h.push_back({at, row.text("H_cSt_at_40C"), oils.h.in(centistokes)});
    }
    checks.check({"L of table 1, cSt", sources::astmD2270, Tolerance::exact()}, l);
    checks.check({"H of table 1, cSt", sources::astmD2270, Tolerance::exact()}, h);

    const ReferenceOils thin = valueOf(referenceOils(2.63 * centistokes));
    checks.check({"L between rows of the table, cSt", sources::laboratorio},
                 {{"2.63 cSt at 100 °C", "12.447", thin.l.in(centistokes)}});
    checks.check({"H between rows of the table, cSt", sources::laboratorio},
                 {{"2.63 cSt at 100 °C", "9.828", thin.h.in(centistokes)}});
}

/// L and H as one of the two quantities of `ReferenceOils`.
using OneOil = KinematicViscosity ReferenceOils::*;

/// Above 70 cSt L and H are parabolas: their coefficients, from three values.
std::vector<Value> parabola(OneOil oil, const std::array<const char*, 3>& expected)
{
    const auto at = [oil](double at100) { return (valueOf(referenceOils(at100 * centistokes)).*oil).in(centistokes); };
    const double square = (at(100.0) - 2.0 * at(90.0) + at(80.0)) / 200.0;
    const double linear = (at(100.0) - at(80.0)) / 20.0 - 180.0 * square;
    return {{"of Y²", expected[0], square},
            {"of Y", expected[1], linear},
            {"constant", expected[2], at(90.0) - 90.0 * linear - 8100.0 * square}};
}

/// The closed form against the table.
std::vector<Value> closedForm(OneOil oil, const std::string& title)
{
    std::vector<Value> values;
    for (const Row& row : rowsOf("d2270_table1.csv")) {
        const std::string& at100 = row.text("Y_cSt_at_100C");
        const ReferenceOils oils = valueOf(referenceOilsClosedForm(numberIn(at100) * centistokes));
        values.push_back({at100 + " cSt at 100 °C", row.text(title), (oils.*oil).in(centistokes)});
    }
    return values;
}

void formulaChecks(Checks& checks)
{
    const Tolerance coefficient = Tolerance::withinPart(1e-7);
    checks.check({"Coefficients of L above 70 cSt", sources::astmD2270, coefficient},
                 parabola(&ReferenceOils::l, {"0.8353", "14.67", "-216"}));
    checks.check({"Coefficients of H above 70 cSt", sources::astmD2270, coefficient},
                 parabola(&ReferenceOils::h, {"0.1684", "11.85", "-97"}));
    const std::string note = "the standard's table X2.1 against its table 1";
    checks.check({"L by the closed form, cSt", sources::astmD2270, Tolerance::withinPart(0.0012), note},
                 closedForm(&ReferenceOils::l, "L_cSt_at_40C"));
    checks.check({"H by the closed form, cSt", sources::astmD2270, Tolerance::withinPart(0.0012), note},
                 closedForm(&ReferenceOils::h, "H_cSt_at_40C"));
}

void rangeChecks(Checks& checks)
{
    const auto answer = [](double at40, double at100) {
        return std::string(viscosityIndex(at40 * centistokes, at100 * centistokes) ? "given" : "refused");
    };
    checks.check(
        {"Whether there is a viscosity index", sources::astmD2270, Tolerance::exact()},
        {{"1.5 cSt at 100 °C", "refused", answer(5.0, 1.5)}, {"2.0 cSt at 100 °C", "given", answer(7.0, 2.0)}});
}

void inverseChecks(Checks& checks)
{
    checks.check({"Viscosity at 100 °C from the index, cSt", sources::computed, Tolerance::within(0.001)},
                 {{"VG 46, index 95", "6.6450",
                   valueOf(viscosityAt100(valueOf(gradeNamed("ISO VG 46")).mid, 95.0)).in(centistokes)}});
    std::vector<Value> pairs;
    for (const auto& [at40, at100] : {std::pair{22.0, "4.29"}, {32.0, "5.36"}, {46.0, "6.76"}, {68.0, "8.73"}}) {
        pairs.push_back({std::to_string(static_cast<int>(at40)) + " cSt at 40 °C, index 100", at100,
                         valueOf(viscosityAt100(at40 * centistokes, 100.0)).in(centistokes)});
    }
    checks.check({"Viscosity at 100 °C from the index, cSt", sources::viscosityChart}, pairs);
}

} // namespace

void viscosityIndexChecks(Checks& checks)
{
    exampleChecks(checks);
    referenceOilChecks(checks);
    formulaChecks(checks);
    rangeChecks(checks);
    inverseChecks(checks);
}

} // namespace loopside::published
