// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Everything that a simulated run depends on: what people know of it (a run::Setup, as typed) and how it truly is.
//
// `drawScenario` draws one. The distributions were fixed before any forecast was tuned against them, and are wide on
// purpose: no open data of oil carts exists to narrow them. Whoever changes one changes the test set; then every figure
// told of it is to be told anew. U: uniform, LU: uniform in the logarithm, N: normal with mean and standard deviation.
//
// A place is drawn from the seed alone: tank, cart, dials, element types. A day is drawn from the seed and the
// occasion: dirt, temperatures, how far the elements were used, what the reader misses. So the occasions of one seed
// are cleanings of one tank with one cart and the same types of elements, which is what a history is made of.
//
//   place                      distribution                                  why
//   oil                        VG 32 46 68 100 150 220 320; VI U(88, 112);   trade practice: what carts meet
//                              860 to 890 kg/m³, told in half the places
//   tank                       LU(150, 3000) L; truly N(1, 0.04) of it       "volume of the oil" is a guess
//   mixing                     U(0.45, 1); told as 0.7                       hoses side by side to opposite ends
//   flow                       a turnover in LU(9, 75) min, 6 to 60 L/min    drum to large reservoir
//   pump                       N(1, 0.02) of the rated flow, less slip of    gear pumps are worn; slip ∝ ΔP/viscosity
//                              U(1, 8) % at 300 kPa and 40 mPa·s
//   dials                      psi (100, 60 or 160), bar (6, 10), kPa (600,  divisions of 1 to 3.3 % of the span:
//   coarse,
//                              1000); grade 1A A B C 1 1.6 2.5               as on carts
//   standing error             U(−1, 1) of the grade's limit, first quarter  definition of a grade (JCGM 100)
//   relief                     0.9 of the span
//   limits                     U(0.12, 0.28) and U(0.16, 0.36) of the span   15 to 35 psi on a dial of 100
//   clean drop                 LU(0.04, 0.3) of the limit at the end         clean at most a third of the setting
//                              temperature; housing U(0, 0.25) of that at
//                              46 cSt, told in half; N(1, 0.06) of the
//                              truth is told
//   bypass valve               in 4 of 10 stages, U(1.05, 1.5) of the limit
//   β                          75, 200 or 1000 at the rating; its excess     finer dirt passes
//                              over 1 falls with size to the power U(3, 6)
//   shape                      6 of 10 with a knee at a phase of U(0.45,     blocking laws between 0 and 2.5, and the
//                              0.85) and a loading of 1 + LU(0.15, 1.5),     knee that bench data in liquids show
//                              n = U(0, 1.5) then U(0.5, 2.5); else one
//                              n = U(0, 2.5)
//   life                       LU(0.3, 12) of the dirt that a typical run    so that some reach the limit and others
//                              brings, ingress of the run included           never come near
//   small dirt blocks more     by (9 µm ÷ size) to the power U(0, 0.6)       silt and gels blind fine media
//   roughness of the process   LU(0.5, 4) % of ln ΔP, correlated over        steps of 2 to 6 % of the limit in open
//                              LU(3, 30) min                                 bench data
//
//   day                        distribution                                  why
//   dirt                       LU(1000, 60 000)/mL from 4 µm(c) is typical   codes 17 to 23; reports of new oil
//                              of a place, a day N(0, 0.5) off in the
//                              logarithm; from 6: U(0.2, 0.4) of it, from
//                              14: U(0.05, 0.2) of that, from 30: U(0.03,
//                              0.15) of that; silt LU(3, 60) mg/L
//   ingress                    LU(0.5, 50) % of the first dirt a turnover,   from an idle tank to a running machine
//   that
//                              a day N(0, 0.5) off in the logarithm          sheds, sucks in and stirs up
//   oil                        starts at U(8, 45) °C, ends U(0, 30) °C       warming as the machine runs; at most 70 °C
//                              warmer, with a time constant of LU(0.5, 4) h
//                              and N(0, 1) °C/h of drift
//   viscosity                  N(1, 0.05) of that of the oil told            a grade is ±10 %
//   elements                   new in 6 of 10 stages, else used to a         loading 1.1 to half-way
//                              loading of LU(1.1, half-way); told in 6 of 10
//   target                     5, 6, 7, 7, 8 or 10 turnovers                 seven is a rule of thumb
//   reader                     misses 8 % of the sets, is late by 1 min      common practice, no source
//                              (exponential), cannot read 2 % of the dials,
//                              misreads 0.5 % by 2 to 5 divisions; needle
//                              off by N(0, U(0.1, 0.5)) divisions
//   thermometer                N(0, 1) °C all day, N(0, 0.5) °C a reading,   in the oil, a cheap one
//                              read to 1 °C
//
// A place (on a typical day, with new elements) and then a day are drawn again, up to a hundred times each, while the
// run could not be started: a drop above 0.8 of its limit, or a pressure before the stages above 0.75 of the relief
// setting, with the oil as cold as it begins.

#pragma once

#include "filtration/clean_drop.h"
#include "filtration/pipe.h"
#include "filtration/pump.h"
#include "practice/blocking_law.h"
#include "practice/dirt.h"
#include "practice/fault.h"
#include "run/catalogue.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace loopside::practice {

/// The oil as it is in the tank.
struct OilTruth
{
    oil::FluidProperties properties;
    double viscosityTimes = 1.0; ///< Viscosity ÷ that of `properties`, above 0.
    units::Temperature start;
    units::Temperature end;          ///< Toward which it goes.
    units::Duration timeConstant;    ///< Above 0.
    double driftKelvinPerHour = 0.0; ///< Of the end.
    double saturationPpm = 200.0;    ///< Water that the oil holds dissolved, which no element takes.
};

/// The tank: a mixed tank (filtration/clean_up.h), the mixing factor being the share of the flow that counts.
struct TankTruth
{
    units::Volume volume;
    double mixing = 1.0; ///< Above 0 to 1.
    PerClass<double> dirtMgPerL = {};
    PerClass<double> settledMg = {}; ///< On the bottom, until it is stirred up.
    PerClass<double> ingressMgPerMin = {};
    double waterPpm = 0.0;
};

struct PumpTruth
{
    units::Flow displaced; ///< At no pressure.
    units::Flow slip = {}; ///< At `slipAt`; above 0 only with it.
    filtration::SlipConditions slipAt = {300.0 * units::kilopascal, 40.0 * units::centipoise};
    std::optional<units::Pressure> relief = {};
    double reliefOverride = 0.1; ///< By how much of its setting the pressure is above it when it takes the whole flow.
};

/// The way back to the tank.
struct ReturnTruth
{
    std::optional<filtration::Pipe> hose = {};
    units::Pressure staticHead = {};
};

/// One stage as it is.
struct StageTruth
{
    struct Bypass
    {
        units::Pressure setting;
        double overridden = 0.1; ///< By how much of the setting the drop is above it when all the flow goes round.
    };

    /// What an element for water does.
    struct Water
    {
        BlockingLaw swelling; ///< Against the grams of water in one element; multiplies what dirt does.
        double capture = 0.9; ///< Share of the free water held back in one pass.
    };

    int elements = 2;
    filtration::CleanDrop clean; ///< All new.
    BlockingLaw law;             ///< Of one element, against its blocking grams.
    PerClass<double> blockingPerGram = {1.0, 1.0, 1.0, 1.0, 1.0};
    PerClass<double> beta = {1.0, 1.0, 1.0, 1.0, 1.0};
    std::optional<Bypass> bypass = {};
    std::optional<Water> water = {};
    double loadedAtStart = 1.0; ///< From 1.
    double roughness = 0.0;     ///< Standard deviation of the process, of ln ΔP.
    units::Duration roughnessTime = 10.0 * units::minute;
};

/// One dial as it is, beside its record in the set-up.
struct DialTruth
{
    units::Pressure standing = {};   ///< Error all through the run.
    double readingSdDivisions = 0.0; ///< Standard deviation of how far off the needle is read, before rounding.
};

struct ThermometerTruth
{
    double standingKelvin = 0.0;
    double readingSdKelvin = 0.0;
};

/// The person who reads.
struct ReaderTruth
{
    bool checksPumpOff = true; ///< Reads the dials once before the pump runs.
    double missesShare = 0.0;  ///< Of the sets.
    units::Duration meanLate = {};
    double blankShare = 0.0;   ///< Of the dials.
    double misreadShare = 0.0; ///< Of the dials.
};

struct FaultAt
{
    Fault fault;
    units::Duration at;
};

struct Scenario
{
    std::uint64_t seed = 0; ///< Of what is drawn while it runs: reading errors, roughness.
    run::Setup setup;       ///< As people know it; N stages and N + 1 dials.
    OilTruth oil = {};
    TankTruth tank = {};
    PumpTruth pump = {};
    ReturnTruth wayBack = {};
    std::vector<StageTruth> stages = {};
    std::vector<DialTruth> dials = {};
    ThermometerTruth thermometer = {};
    ReaderTruth reader = {};
    std::vector<FaultAt> faults = {}; ///< `simulate` inflicts them.
    bool changesAtLimit = true;       ///< Whether the person changes a stage that was read at its limit.
};

/// Whether such a scenario can be; otherwise OutOfRange, Malformed or Unavailable, naming what is wrong and where.
[[nodiscard]] Done checkScenario(const Scenario& scenario);

/// Whether `fault` can happen on the cart of `scenario`. OutOfRange, naming it, for a place that is not there or a size
/// that cannot be; Conflict where this cart cannot have it.
[[nodiscard]] Done checkFault(const Fault& fault, const Scenario& scenario);

/// A scenario drawn from the table above. The same seed and occasion give the same scenario.
[[nodiscard]] Scenario drawScenario(std::uint64_t seed, int occasion = 0);

/// The test set on which a forecast is judged: `testScenario(0)` to `testScenario(testScenarios − 1)`.
inline constexpr int testScenarios = 2000;
[[nodiscard]] Scenario testScenario(int number);

/// The seed of a test scenario; occasions 1, 2, … of it are other days at the same place: its history.
[[nodiscard]] std::uint64_t testSeed(int number);

} // namespace loopside::practice
