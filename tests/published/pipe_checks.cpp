// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Friction in hoses, and what a pump has to pull.

#include "filtration/pipe.h"
#include "filtration/suction.h"
#include "published/csv.h"
#include "published/sources.h"
#include "published/topics.h"

#include <numbers>

namespace loopside::published {

namespace {

using namespace filtration;
using namespace units;

/// 42 US gallons.
constexpr Volume oilBarrel = 42.0 * gallon;

double velocity(Length bore, Flow flow)
{
    const double area = std::numbers::pi / 4.0 * bore.in(metre)*bore.in(metre);
    return flow.in(cubicMetrePerSecond) / area;
}

void libraryChecks(Checks& checks)
{
    std::vector<Value> reynolds;
    std::vector<Value> laminar;
    std::vector<Value> turbulent;
    std::vector<Value> losses;
    for (const Row& row : rowsOf("fluids_pipes.csv")) {
        const Pipe pipe{row.number("bore_mm") * millimetre, row.number("length_m") * metre};
        const Flow flow = row.number("flow_L_min") * litrePerMinute;
        const KinematicViscosity viscosity = row.number("viscosity_cSt") * centistokes;
        const std::string at = row.text("flow_L_min") + " L/min of " + row.text("viscosity_cSt") + " cSt in "
            + row.text("bore_mm") + " mm";
        reynolds.push_back({at, row.text("reynolds"), reynoldsNumber(pipe.bore, flow, viscosity)});
        const bool isLaminar = row.text("regime") == "laminar";
        (isLaminar ? laminar : turbulent)
            .push_back(
                {"Re " + row.text("reynolds"), row.text("friction"),
                 isLaminar ? laminarFriction(row.number("reynolds")) : turbulentFriction(row.number("reynolds"))});
        losses.push_back({at, row.text("loss_Pa"),
                          valueOf(pipeLoss(pipe, flow, viscosity, row.number("density_kg_m3") * kilogramPerCubicMetre))
                              .loss.in(pascal)});
    }
    // The examples of the library's documentation: 2.5 m/s in 0.25 m; Re 128.
    const Flow flow = 2.5 * std::numbers::pi / 4.0 * 0.25 * 0.25 * cubicMetrePerSecond;
    reynolds.push_back({"2.5 m/s in 0.25 m, 1.9e-5 Pa·s, 1.1613 kg/m³", "38200.6579",
                        reynoldsNumber(0.25 * metre, flow, 1.9e-5 / 1.1613 * squareMetrePerSecond)});
    reynolds.push_back({"2.5 m/s in 0.25 m, 1.636e-5 m²/s", "38202.934",
                        reynoldsNumber(0.25 * metre, flow, 1.636e-5 * squareMetrePerSecond)});
    laminar.push_back({"Re 128", "0.5", laminarFriction(128.0)});

    const Tolerance close = Tolerance::withinPart(1e-7);
    checks.check({"Reynolds number of a hose", sources::fluidsLibrary, close}, reynolds);
    checks.check({"Friction factor of laminar flow", sources::fluidsLibrary, close}, laminar);
    checks.check({"Friction factor of turbulent flow in a smooth pipe", sources::fluidsLibrary, close}, turbulent);
    checks.check({"Friction loss of a hose, Pa", sources::fluidsLibrary, Tolerance::withinPart(1e-6)}, losses);
    checks.check({"Reynolds number up to which flow is laminar", sources::fluidsLibrary, Tolerance::exact()},
                 {{"", "2040", laminarReynoldsMax}});
}

void handbookChecks(Checks& checks)
{
    const auto regime = [](double reynolds) {
        return std::string(regimeOf(reynolds) == FlowRegime::Laminar         ? "laminar"
                               : regimeOf(reynolds) == FlowRegime::Turbulent ? "turbulent"
                                                                             : "between");
    };
    checks.check(
        {"Regime of flow", sources::hydraulicInstitute, Tolerance::exact(), "\"about 2000\" and \"about 4000\""},
        {{"Re 1900", "laminar", regime(1900.0)},
         {"Re 3000", "between", regime(3000.0)},
         {"Re 4100", "turbulent", regime(4100.0)}});
}

/// Problems of oil and of smooth pipe in Technical Paper 410.
void paper410Checks(Checks& checks)
{
    checks.check({"Friction factor of turbulent flow in a smooth pipe", sources::tp410, Tolerance::withinPart(0.01),
                  "read from a chart there"},
                 {{"problem 7.1, Re 100 600", "0.0179", turbulentFriction(100600.0)}});

    // Problem 7.8: 200 mm schedule 40 (202.7 mm) and a globe valve of 340 times the friction factor 0.014.
    const Pipe pipe{202.7 * millimetre, 60.0 * metre};
    const Flow flow = 600.0 * oilBarrel.in(cubicMetre)*cubicMetrePerHour;
    const Density density = 869.2 * kilogramPerCubicMetre;
    const KinematicViscosity viscosity = 0.130 / 869.2 * squareMetrePerSecond;
    const double head = 869.2 / 2.0 * velocity(pipe.bore, flow) * velocity(pipe.bore, flow);
    const double loss = valueOf(pipeLoss(pipe, flow, viscosity, density)).loss.in(pascal);
    checks.check({"Friction loss of thick oil in a pipe with a valve, Pa", sources::tp410,
                  Tolerance::withinPart(0.0005), "the valve's part, 340 × 0.014 × ρv²/2, is the paper's"},
                 {{"problem 7.8", "6382", loss + 340.0 * 0.014 * head}});

    // Problem 7.13: 2 in schedule 40 (2.067 in).
    const auto thin = pipeLoss({2.067 * inch, 100.0 * foot}, 120.0 * gallonPerMinute, 2.7 * centistokes,
                               0.815 * 999.1 * kilogramPerCubicMetre);
    checks.deviates({"Friction loss of thin oil in a steel pipe, psi", sources::tp410, Tolerance::printed(),
                     "a rough steel pipe there; ours is a smooth hose, as pipe.h says"},
                    {"problem 7.13", "9.65", valueOf(thin).loss.in(psi)});
}

void suctionChecks(Checks& checks)
{
    std::vector<Value> heads;
    for (const Row& row : rowsOf("fluids_heads.csv")) {
        const Pressure pressure = row.number("pressure_Pa") * pascal;
        heads.push_back({row.text("pressure_Pa") + " Pa, " + row.text("density_kg_m3") + " kg/m³", row.text("head_m"),
                         valueOf(suctionHeadAvailable(standardAtmosphere - pressure,
                                                      row.number("density_kg_m3") * kilogramPerCubicMetre))
                             .in(metre)});
    }
    checks.check({"Suction head available, m", sources::fluidsLibrary, Tolerance::withinPart(1e-7)}, heads);

    std::vector<Value> losses;
    std::vector<Value> vacuums;
    std::vector<Value> reynolds;
    for (const Row& row : rowsOf("suction_computed.csv")) {
        const Suction suction{{row.number("bore_in") * inch, 10.0 * foot}, Length{}, 1.0};
        const Inlet inlet = valueOf(pumpInlet(suction, row.number("flow_gpm") * gallonPerMinute,
                                              row.number("viscosity_cSt") * centistokes,
                                              row.number("density_kg_m3") * kilogramPerCubicMetre));
        const std::string at = row.text("viscosity_cSt") + " cSt in " + row.text("bore_in") + " in";
        losses.push_back({at, row.text("psi"), inlet.hose.loss.in(psi)});
        vacuums.push_back({at, row.text("inHg"), inlet.vacuum.in(inchOfMercury)});
        reynolds.push_back({at, row.text("reynolds"), inlet.hose.reynolds});
    }
    checks.check(
        {"Friction loss of a suction hose at 5 gpm, psi", sources::computed, Tolerance::printed().orPart(3e-4)},
        losses);
    checks.check({"Vacuum at a pump, inHg", sources::computed, Tolerance::printed().orPart(3e-4)}, vacuums);
    checks.check({"Reynolds number of a suction hose", sources::computed}, reynolds);
    checks.check({"Friction loss of a suction hose of 10 ft, Pa", sources::computed},
                 {{"100 cSt, 870 kg/m³, 5 gpm, 1 in", "8188.25",
                   valueOf(pipeLoss({1.0 * inch, 10.0 * foot}, 5.0 * gallonPerMinute, 100.0 * centistokes,
                                    870.0 * kilogramPerCubicMetre))
                       .loss.in(pascal)}});

    // Inlet 82.52 kPa absolute: 101.325 − 82.52 of vacuum.
    const Suction lifted{{1.0 * inch, 10.0 * foot}, 4.0 * foot, 1.0};
    const Inlet inlet = valueOf(
        pumpInlet(lifted, 5.0 * gallonPerMinute, 100.0 * centistokes, 880.0 * kilogramPerCubicMetre));
    checks.check({"Pressure at a pump's inlet with 4 ft of lift, kPa", sources::computed},
                 {{"100 cSt, 880 kg/m³", "82.52", (standardAtmosphere - inlet.vacuum).in(kilopascal)}});
    checks.check({"Suction head available with 4 ft of lift, m", sources::computed},
                 {{"100 cSt, 880 kg/m³", "9.562",
                   valueOf(suctionHeadAvailable(inlet.vacuum, 880.0 * kilogramPerCubicMetre)).in(metre)}});
}

/// At the thickest oil of the table the vacuum is the table's limit.
void practitionerChecks(Checks& checks)
{
    std::vector<Value> values;
    for (const Row& row : rowsOf("suction_practice.csv")) {
        const Suction suction{{row.number("bore_in") * inch, 3.0 * metre}, 0.5 * metre, 1.0};
        for (const char* vacuum : {"5", "10"}) {
            const double cSt = row.number(std::string("cSt_at_") + vacuum + "_inHg");
            const Inlet inlet = valueOf(pumpInlet(suction, row.number("flow_L_min") * litrePerMinute, cSt * centistokes,
                                                  870.0 * kilogramPerCubicMetre));
            values.push_back({row.text("flow_L_min") + " L/min of " + std::to_string(static_cast<int>(cSt)) + " cSt in "
                                  + row.text("bore_in") + " in",
                              vacuum, inlet.vacuum.in(inchOfMercury)});
        }
    }
    checks.check({"Vacuum at a pump with 0.5 m of lift, inHg", sources::practitioner, Tolerance::withinPart(0.01),
                  "of 870 kg/m³"},
                 values);
}

} // namespace

void pipeChecks(Checks& checks)
{
    libraryChecks(checks);
    handbookChecks(checks);
    paper410Checks(checks);
    suctionChecks(checks);
    practitionerChecks(checks);
}

} // namespace loopside::published
