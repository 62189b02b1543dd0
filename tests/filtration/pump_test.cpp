// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/pump.h"

#include "filtration/refusal.h"

#include <catch2/catch.hpp>

#include <cmath>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using loopside::test::refusal;
using namespace loopside::filtration;
using namespace loopside::units;

namespace {

const SlipConditions thick{60.0 * psi, 100.0 * centipoise};

double slipGpm(const SlipConditions& now)
{
    return slipAt(0.378 * gallonPerMinute, thick, now).value().in(gallonPerMinute);
}

} // namespace

TEST_CASE("shaft power is what was computed outside this program")
{
    // A horsepower of hydraulics: gpm · psi / 1714.2857.
    const auto [gpm, rise, efficiency, hp, digits] = GENERATE(table<double, double, double, double, double>(
        {{5.0, 60.0, 1.0, 0.17500, 5e-6}, {5.0, 60.0, 0.6, 0.2917, 5e-5}, {10.0, 50.0, 0.65, 0.4487, 5e-5}}));
    CHECK_THAT(shaftPower(gpm * gallonPerMinute, rise * psi, efficiency).value().in(horsepower), WithinAbs(hp, digits));
}

TEST_CASE("problem 7.15 of Flow of Fluids: 100 gpm of water against 421 ft at 70 % take 15.2 hp")
{
    // Crane Technical Paper 410, as the library fluids has it (read). Water of 62.37 lb/ft³: from memory.
    const Pressure rise = 421.0 * 62.37 / 144.0 * psi;
    CHECK_THAT(shaftPower(100.0 * gallonPerMinute, rise, 0.7).value().in(horsepower), WithinAbs(15.2, 0.05));
}

TEST_CASE("slip grows with pressure and falls with dynamic viscosity")
{
    // Computed outside this program: a pump of 5.4 gpm with 0.93 at 100 cP and 60 psi.
    CHECK_THAT(slipGpm(thick), WithinRel(0.378, 1e-12));
    CHECK_THAT(slipGpm({60.0 * psi, 50.0 * centipoise}), WithinAbs(0.756, 5e-4));
    CHECK_THAT(slipGpm({60.0 * psi, 20.0 * centipoise}), WithinAbs(1.89, 5e-3));
    CHECK_THAT(slipGpm({20.0 * psi, 100.0 * centipoise}), WithinAbs(0.126, 5e-4));
}

TEST_CASE("what comes out of a pump is what it displaces less the slip")
{
    const auto [cP, efficiency, gpm] = GENERATE(
        table<double, double, double>({{100.0, 0.93, 5.022}, {50.0, 0.86, 4.644}, {20.0, 0.65, 3.51}}));
    CAPTURE(cP);
    const Flow displaced = 5.4 * gallonPerMinute;
    const Flow slip = slipGpm({60.0 * psi, cP * centipoise}) * gallonPerMinute;
    CHECK_THAT(volumetricEfficiency(displaced, slip).value(), WithinAbs(efficiency, 1e-9)); // computed outside
    CHECK_THAT((displaced - slip).in(gallonPerMinute), WithinAbs(gpm, 5e-4));               // this program
}

TEST_CASE("a slip carried to other conditions and back is the same slip")
{
    const SlipConditions now{17.0 * psi, 640.0 * centipoise};
    const Flow there = slipAt(0.378 * gallonPerMinute, thick, now).value();
    CHECK_THAT(slipAt(there, now, thick).value().in(gallonPerMinute), WithinRel(0.378, 1e-12));
    CHECK(volumetricEfficiency(5.0 * gallonPerMinute, Flow{}).value() == 1.0);
    CHECK(volumetricEfficiency(5.0 * gallonPerMinute, 5.0 * gallonPerMinute).value() == 0.0);
}

TEST_CASE("a pump that cannot be is refused with the fault named")
{
    const Flow flow = 19.0 * litrePerMinute;
    const Pressure rise = 400.0 * kilopascal;
    const double number = GENERATE(0.0, -1.0, std::nan(""));
    CAPTURE(number);
    CHECK_THAT(refusal(shaftPower(number * litrePerMinute, rise, 0.6)), Contains("The flow must be above zero"));
    CHECK_THAT(refusal(shaftPower(flow, number * kilopascal, 0.6)), Contains("pressure rise of the pump"));
    CHECK_THAT(refusal(shaftPower(flow, rise, number)), Contains("efficiency of the pump"));
    CHECK_THAT(refusal(shaftPower(flow, rise, 1.01)), Contains("at most 1; it is 1.01"));
    CHECK_THAT(refusal(slipAt(flow, {number * psi, 100.0 * centipoise}, thick)),
               Contains("pressure rise of the pump where the slip is known"));
    CHECK_THAT(refusal(slipAt(flow, thick, {60.0 * psi, number * centipoise})), Contains("viscosity now"));
    CHECK_THAT(refusal(volumetricEfficiency(number * litrePerMinute, Flow{})), Contains("pump displaces"));
    CHECK_THAT(refusal(volumetricEfficiency(flow, 20.0 * litrePerMinute)), Contains("cannot be more than"));
    CHECK_THAT(refusal(slipAt(-1.0 * litrePerMinute, thick, thick)), Contains("slip of the pump"));
}
