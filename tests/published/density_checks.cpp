// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Density of lubricating oil, ASTM D1250 on the bases of 15 °C and 60 °F. No published worked value was found, but the
// constants were: they are got back from what our code answers.

#include "oil/density.h"
#include "published/csv.h"
#include "published/printed.h"
#include "published/sources.h"
#include "published/topics.h"

#include <cmath>

namespace loopside::published {

namespace {

using namespace oil;
using namespace units;

constexpr double lightest = 810.0;
constexpr double middle = 870.0;
constexpr double heaviest = 1150.0;

double densityAtCelsius(double at15, double at)
{
    return valueOf(densityAt(at15 * kilogramPerCubicMetre, at * celsius)).in(kilogramPerCubicMetre);
}

double correctionTo60F(double at60F, double at)
{
    return valueOf(volumeCorrectionTo60F(at60F * kilogramPerCubicMetre, at * fahrenheit));
}

/// Expansion per degree times density, from a small step either way.
std::vector<Value> constantAt15()
{
    std::vector<Value> values;
    for (const double density : {lightest, middle, heaviest}) {
        const double ratio = densityAtCelsius(density, 14.99) / densityAtCelsius(density, 15.01);
        values.push_back({shortest(density) + " kg/m³ at 15 °C", "0.6278", density * std::log(ratio) / 0.02});
    }
    return values;
}

std::vector<Value> constantAt60F()
{
    std::vector<Value> values;
    for (const double density : {lightest, middle, heaviest}) {
        const double ratio = correctionTo60F(density, 59.99) / correctionTo60F(density, 60.01);
        values.push_back({shortest(density) + " kg/m³ at 60 °F", "0.34878", density * std::log(ratio) / 0.02});
    }
    return values;
}

std::string answerFor(double at60F)
{
    return volumeCorrectionTo60F(at60F * kilogramPerCubicMetre, 100.0 * fahrenheit) ? "given" : "refused";
}

std::vector<Words> rangeOf2004()
{
    return {{"800.8 kg/m³ at 60 °F", "refused", answerFor(800.8)},
            {"800.9 kg/m³", "given", answerFor(800.9)},
            {"1163.5 kg/m³", "given", answerFor(1163.5)},
            {"1163.6 kg/m³", "refused", answerFor(1163.6)}};
}

void constantChecks(Checks& checks)
{
    checks.check({"Expansion of oil by 1 °C × density, kg/m³", sources::iso91Code}, constantAt15());
    checks.check({"Expansion of oil by 1 °F × density, kg/m³", sources::apiMpms2004}, constantAt60F());
    checks.check({"Expansion of oil by 1 °F × density, kg/m³", sources::vcfCalculator}, constantAt60F());
    checks.check({"Densities for which lubricating oils' correction holds", sources::apiMpms2004}, rangeOf2004());
    checks.check({"Densities for which lubricating oils' correction holds", sources::vcfCalculator}, rangeOf2004());
}

void apiGravityChecks(Checks& checks)
{
    constexpr double poundPerCubicFoot = 0.45359237 / (0.3048 * 0.3048 * 0.3048);
    checks.check({"Density of oil of a gravity in °API, lb/ft³", sources::tp410},
                 {{"problem 7.17, 30 °API at 60 °F", "54.64",
                   valueOf(specificGravity(30.0)) * waterAt60F.in(kilogramPerCubicMetre) / poundPerCubicFoot}});
    checks.check({"Gravity in °API", sources::mil5606},
                 {{"specific gravity 0.871", "31.0", valueOf(apiGravity(0.871))}});
    const double ofWater = valueOf(apiGravity(1.0));
    const double numerator = (valueOf(apiGravity(0.85)) - ofWater) / (1.0 / 0.85 - 1.0);
    const std::vector<Value> constants = {{"numerator", "141.5", numerator},
                                          {"subtrahend", "131.5", numerator - ofWater}};
    checks.check({"Constants of the gravity in °API", sources::hydraulicInstitute, Tolerance::exact()}, constants);
    checks.check({"Constants of the gravity in °API", sources::apiMpms2004, Tolerance::exact()}, constants);
    checks.check({"Specific gravity of 30 °API", sources::computed}, {{"", "0.87616", valueOf(specificGravity(30.0))}});
    checks.check({"Gravity in °API", sources::computed},
                 {{"specific gravity 0.871", "30.96", valueOf(apiGravity(0.871))}});
    const double water = waterAt60F.in(kilogramPerCubicMetre);
    checks.check(
        {"Density of water at 60 °F, kg/m³", sources::iapws, Tolerance::within(0.002), "to the digits that 2004 gives"},
        {{"101.325 kPa", "999.0171", water}});
    checks.deviates({"Density of water at 60 °F, kg/m³", sources::apiMpms2004, Tolerance::printed(),
                     "the older value; ours is that of 2004, from memory"},
                    {"", "999.012", water});
}

void computedChecks(Checks& checks)
{
    checks.check(
        {"Density of an oil of 870 kg/m³ at 15 °C, kg/m³", sources::computed},
        {{"40 °C", "854.22", densityAtCelsius(middle, 40.0)}, {"0 °C", "879.39", densityAtCelsius(middle, 0.0)}});
    checks.check({"Density at 40 °C ÷ density at 15 °C, of 870 kg/m³", sources::computed},
                 {{"", "0.981866", densityAtCelsius(middle, 40.0) / middle}});
    checks.check({"Density of an oil of 880.776 kg/m³ at 15 °C, kg/m³", sources::computed, Tolerance::within(0.01)},
                 {{"40 °C", "865.0", densityAtCelsius(880.776, 40.0)}});
    checks.check({"Density at 15 °C from an observed one, kg/m³", sources::computed, Tolerance::within(0.01)},
                 {{"865.0 kg/m³ at 40 °C", "880.776",
                   valueOf(densityAt15From(865.0 * kilogramPerCubicMetre, 40.0 * celsius)).in(kilogramPerCubicMetre)}});

    const double at60F = 0.88 * 999.012;
    checks.check(
        {"Volume correction to 60 °F, specific gravity 0.88", sources::computed},
        {{"100 °F", "0.98406", correctionTo60F(at60F, 100.0)}, {"140 °F", "0.96798", correctionTo60F(at60F, 140.0)}});
    checks.check({"55 gal filled at 50 °F, at 100 °F, gal", sources::computed},
                 {{"specific gravity 0.88, basis 60 °F", "56.11",
                   55.0 * correctionTo60F(at60F, 50.0) / correctionTo60F(at60F, 100.0)},
                  // 15 °C is 59 °F, one degree cooler than 60 °F.
                  {"the same, basis 15 °C", "56.11",
                   55.0 * densityAtCelsius(at60F + 0.34878, 10.0) / densityAtCelsius(at60F + 0.34878, 340.0 / 9.0)}});
}

void gridChecks(Checks& checks)
{
    std::vector<Value> values;
    for (const Row& row : rowsOf("density_computed.csv")) {
        for (const auto& [at, title] : row.grid()) {
            values.push_back({row.text("rho15") + " kg/m³ at 15 °C, at " + title + " °C", row.text(title),
                              densityAtCelsius(row.number("rho15"), at)});
        }
    }
    checks.check({"Density from −20 to 100 °C, kg/m³", sources::computed}, values);
}

} // namespace

void densityChecks(Checks& checks)
{
    constantChecks(checks);
    apiGravityChecks(checks);
    computedChecks(checks);
    gridChecks(checks);
}

} // namespace loopside::published
