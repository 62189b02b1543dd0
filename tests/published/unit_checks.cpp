// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Factors between units and scales of temperature, against programs that know them. tests/units asks GNU Units for
// every pair while it runs; here are the units that oil people use, as the programs printed them once.

#include "published/csv.h"
#include "published/sources.h"
#include "published/topics.h"
#include "units/typed.h"

#include <array>
#include <map>

namespace loopside::published {

namespace {

using namespace units;

/// A program that was run, under the name by which the data know it.
struct Witness
{
    const char* name;
    Source source;
};

const std::array witnesses = {
    Witness{"GNU Units 2.22", sources::gnuUnits},      Witness{"Pint 0.19.2", sources::pint},
    Witness{"Astropy 5.2.1", sources::astropy},        Witness{"unyt 2.9.3", sources::unyt},
    Witness{"quantities 0.13.0", sources::quantities}, Witness{"SciPy 1.10.1 (scipy.constants)", sources::scipy},
};

template<class Q>
double factor(const std::string& from, const std::string& to)
{
    return Q(1.0, valueOf(unitNamed<Q>(from))->unit).in(valueOf(unitNamed<Q>(to))->unit);
}

double factorOf(const std::string& kind, const std::string& from, const std::string& to)
{
    static const std::map<std::string, double (*)(const std::string&, const std::string&)> factors = {
        {"pressure", factor<Pressure>}, {"volume", factor<Volume>}, {"flow", factor<Flow>},
        {"length", factor<Length>},     {"power", factor<Power>},   {"viscosity", factor<KinematicViscosity>},
        {"density", factor<Density>},   {"time", factor<Duration>},
    };
    return factors.at(kind)(from, to);
}

/// Astropy's pound-force is off in the eighth digit: its slug is rounded to 32.174049 pounds.
Check unitCheck(const Source& source)
{
    if (source.name == sources::astropy.name) {
        return {"Factors between units", source, Tolerance::withinPart(2e-8),
                "its slug, and with it psi and hp, and its gallon are rounded to eight or nine digits"};
    }
    return {"Factors between units", source, Tolerance::exact()};
}

void factorChecks(Checks& checks)
{
    const std::vector<Row> rows = rowsOf("unit_factors.csv");
    for (const Witness& witness : witnesses) {
        std::vector<Value> values;
        for (const Row& row : rows) {
            if (row.text("witness") == witness.name) {
                values.push_back({row.text("from") + " in " + row.text("to"), row.text("factor"),
                                  factorOf(row.text("kind"), row.text("from"), row.text("to"))});
            }
        }
        checks.check(unitCheck(witness.source), values);
    }
}

void scaleChecks(Checks& checks)
{
    const std::vector<Row> rows = rowsOf("temperature_scales.csv");
    for (const Witness& witness : witnesses) {
        std::vector<Value> values;
        for (const Row& row : rows) {
            if (row.text("witness") == witness.name) {
                const Temperature at = row.number("fahrenheit") * fahrenheit;
                values.push_back({row.text("fahrenheit") + " °F in °C", row.text("celsius"), at.in(celsius)});
                values.push_back({row.text("fahrenheit") + " °F in K", row.text("kelvin"), at.in(kelvin)});
            }
        }
        if (!values.empty()) {
            checks.check({"Scales of temperature", witness.source}, values);
        }
    }
}

void gslChecks(Checks& checks)
{
    checks.check({"Factors between units", sources::gslConstants, Tolerance::exact()},
                 {
                     {"psi in Pa", "6.89475729317e3", (1.0 * psi).in(pascal)},
                     {"bar in Pa", "1e5", (1.0 * bar).in(pascal)},
                     {"gal in m³", "3.78541178402e-3", (1.0 * gallon).in(cubicMetre)},
                     {"in in m", "2.54e-2", (1.0 * inch).in(metre)},
                     {"ft in m", "3.048e-1", (1.0 * foot).in(metre)},
                     {"100 cSt in m²/s", "1e-4", (100.0 * centistokes).in(squareMetrePerSecond)},
                     {"100 cP in Pa·s", "1e-1", (100.0 * centipoise).in(pascalSecond)},
                 });
    checks.deviates({"Horsepower", sources::gslConstants, Tolerance::exact(), "rounded there to four digits"},
                    {"hp in W", "7.457e2", (1.0 * horsepower).in(watt)});
    checks.deviates({"Inch of mercury", sources::gslConstants, Tolerance::exact(),
                     "an atmosphere ÷ 760 × 25.4 there; ours is the conventional one, of 13595.1 kg/m³"},
                    {"inHg in Pa", "3.38638815789e3", (1.0 * inchOfMercury).in(pascal)});
}

} // namespace

void unitChecks(Checks& checks)
{
    factorChecks(checks);
    gslChecks(checks);
    scaleChecks(checks);
}

} // namespace loopside::published
