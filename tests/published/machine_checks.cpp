// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Pump, motor, supply, tank, flush and transfer.

#include "filtration/flush.h"
#include "filtration/motor.h"
#include "filtration/pump.h"
#include "filtration/tank.h"
#include "filtration/transfer.h"
#include "published/csv.h"
#include "published/sources.h"
#include "published/topics.h"

#include <algorithm>

namespace loopside::published {

namespace {

using namespace filtration;
using namespace units;

/// What a column of so many feet weighs.
Pressure column(double feet, double poundsPerCubicFoot)
{
    constexpr double poundPerCubicFoot = 0.45359237 / (0.3048 * 0.3048 * 0.3048);
    return poundsPerCubicFoot * poundPerCubicFoot * 9.80665 * (feet * foot).in(metre)*pascal;
}

void pumpChecks(Checks& checks)
{
    checks.check(
        {"Power at a pump's shaft, hp", sources::tp410, Tolerance::printed().orPart(0.001),
         "by shortcut formulas there"},
        {{"problem 7.15, 100 gpm of water, 421 ft, 70 %", "15.2",
          valueOf(shaftPower(100.0 * gallonPerMinute, column(421.0, 62.298), 0.70)).in(horsepower)},
         {"problem 7.17, 1900 bbl/h of oil, 3406.5 ft, 67 %", "1496",
          valueOf(shaftPower(1900.0 * 42.0 / 60.0 * gallonPerMinute, column(3406.5, 54.64), 0.67)).in(horsepower)}});
    checks.check(
        {"Power at a pump's shaft, hp", sources::computed},
        {{"5 gpm, 60 psi, all of it", "0.1750",
          valueOf(shaftPower(5.0 * gallonPerMinute, 60.0 * psi, 1.0)).in(horsepower)},
         {"5 gpm, 60 psi, 0.6", "0.2917", valueOf(shaftPower(5.0 * gallonPerMinute, 60.0 * psi, 0.6)).in(horsepower)},
         {"10 gpm, 50 psi, 0.65", "0.4487",
          valueOf(shaftPower(10.0 * gallonPerMinute, 50.0 * psi, 0.65)).in(horsepower)}});

    const SlipConditions known{60.0 * psi, 100.0 * centipoise};
    const Flow displaced = 5.4 * gallonPerMinute;
    const auto slip = [&](double risePsi, double centipoises) {
        return valueOf(slipAt(0.378 * gallonPerMinute, known, {risePsi * psi, centipoises * centipoise}));
    };
    checks.check({"Slip of a gear pump, gpm", sources::computed},
                 {{"50 cP, 60 psi", "0.756", slip(60.0, 50.0).in(gallonPerMinute)},
                  {"20 cP, 60 psi", "1.89", slip(60.0, 20.0).in(gallonPerMinute)},
                  {"100 cP, 20 psi", "0.126", slip(20.0, 100.0).in(gallonPerMinute)}});
    checks.check({"Volumetric efficiency of a gear pump", sources::computed},
                 {{"100 cP, 60 psi", "0.93", valueOf(volumetricEfficiency(displaced, slip(60.0, 100.0)))},
                  {"50 cP, 60 psi", "0.86", valueOf(volumetricEfficiency(displaced, slip(60.0, 50.0)))},
                  {"20 cP, 60 psi", "0.65", valueOf(volumetricEfficiency(displaced, slip(60.0, 20.0)))}});
}

void motorChecks(Checks& checks)
{
    std::vector<Value> fullLoad;
    for (const Row& row : rowsOf("nec_430_248.csv")) {
        for (const auto& [volts, title] : row.grid()) {
            fullLoad.push_back({row.text("hp_label") + " hp at " + title + " V", row.text(title),
                                valueOf(fullLoadCurrent(row.number("hp") * horsepower, volts * volt)).in(ampere)});
        }
    }
    checks.check({"Full-load current of a single-phase motor, A", sources::nec, Tolerance::exact()}, fullLoad);
    checks.check({"Continuous load that a circuit may bear, A", sources::nec, Tolerance::exact()},
                 {{"15 A", "12", continuousCapacity(15.0 * ampere).in(ampere)},
                  {"20 A", "16", continuousCapacity(20.0 * ampere).in(ampere)}});

    std::vector<Value> currents;
    for (const Row& row : rowsOf("fluids_currents.csv")) {
        currents.push_back({row.text("power_W") + " W, " + row.text("voltage_V") + " V, " + row.text("phases")
                                + "-phase, power factor " + row.text("power_factor"),
                            row.text("current_A"),
                            valueOf(motorCurrent(row.number("power_W") * watt, row.number("voltage_V") * volt,
                                                 row.number("power_factor"), static_cast<int>(row.number("phases"))))
                                .in(ampere)});
    }
    checks.check({"Current of a motor, A", sources::fluidsLibrary}, currents);
    checks.check({"Current of a motor, A", sources::computed},
                 {{"1/2 hp at 0.6 of efficiency, power factor 0.7, 115 V", "7.72",
                   valueOf(motorCurrent(0.5 / 0.6 * horsepower, 115.0 * volt, 0.7, 1)).in(ampere)}});
}

void tankChecks(Checks& checks)
{
    std::vector<Value> volumes;
    std::vector<Value> levels;
    for (const Row& row : rowsOf("fluids_tanks.csv")) {
        const TankShape tank = LyingCylinder{row.number("diameter_m") * metre, row.number("length_m") * metre};
        const Length level = row.number("level_m") * metre;
        const std::string size = row.text("diameter_m") + " m by " + row.text("length_m") + " m";
        volumes.push_back({size + ", level " + row.text("level_m") + " m", row.text("volume_m3"),
                           valueOf(volumeAt(tank, level)).in(cubicMetre)});
        const Volume volume = std::min(row.number("volume_m3") * cubicMetre, valueOf(capacityOf(tank)));
        levels.push_back({size + ", " + row.text("volume_m3") + " m³", row.text("level_m"),
                          valueOf(levelFor(tank, volume)).in(metre)});
    }
    checks.check({"Oil in a lying cylinder, m³", sources::fluidsLibrary, Tolerance::withinPart(1e-7)}, volumes);
    checks.check({"Level in a lying cylinder, m", sources::fluidsLibrary, Tolerance::within(2e-4)}, levels);

    const auto warming = [](double hp, Volume oil) {
        return valueOf(warmingPerHour(hp * horsepower, oil)).in(kelvins);
    };
    checks.check({"Warming by a pump's work, °C in an hour", sources::computed},
                 {{"1/2 hp in 55 gal", "3.9", warming(0.5, 55.0 * gallon)},
                  {"1 hp in 1000 L", "1.6", warming(1.0, 1000.0 * litre)},
                  {"1 hp in 200 L", "8", warming(1.0, 200.0 * litre)}});
}

void flushChecks(Checks& checks)
{
    const auto left = [](double litresLeft, double batch, int batches) {
        return valueOf(residualAfter(litresLeft * litre, batch * litre, batches)).in(percent);
    };
    checks.check({"Old oil left after flushing, %", sources::practitioner},
                 {{"1.5 L left, 10 L once", "13", left(1.5, 10.0, 1)},
                  {"twice", "1.7", left(1.5, 10.0, 2)},
                  {"three times", "0.22", left(1.5, 10.0, 3)}});
    checks.check({"Old oil left after flushing, %", sources::computed},
                 {{"10 % left, three times", "0.1", left(1.0, 9.0, 3)}});
}

void labelChecks(Checks& checks)
{
    const std::vector<std::string> lines = usedOilLabel({"Mill 3", "VG 220", 100.0 * litre});
    const bool isMarked = std::any_of(
        lines.begin(), lines.end(), [](const std::string& line) { return line.find("Used Oil") != std::string::npos; });
    checks.check({"Words on a container of used oil", sources::cfr279},
                 {{"", "Used Oil", isMarked ? "Used Oil" : lines.front()}});
}

} // namespace

void machineChecks(Checks& checks)
{
    pumpChecks(checks);
    motorChecks(checks);
    tankChecks(checks);
    flushChecks(checks);
    labelChecks(checks);
}

} // namespace loopside::published
