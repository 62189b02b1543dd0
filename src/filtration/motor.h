// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the cart's motor draws, and whether the circuit bears it. The local electrical code and a qualified electrician
// decide; this only says when to ask them.

#pragma once

#include "base/result.h"
#include "units/quantity.h"

#include <string>

namespace loopside::filtration {

/// The full-load current that the table of the code gives for a single-phase motor of `rating` (its shaft power).
///
/// Source: NEC table 430.248 (430-148 of 1999), two agreeing copies read; 1/6 to 5 hp for motors of 115, 200, 208 and
///   230 V. That it holds for supplies of 110 to 120 and 220 to 240 V as well: from memory of the table's note.
/// Validity: a motor of usual speed and torque at its full load. A rating within 1 % of a row is that row, so that 0.75
///   kW is 1 hp.
/// Uncertainty: a rule to choose conductors by, not a measurement; a motor at part load draws less, and one that turns
///   cold oil may draw more. The nameplate goes before the table.
/// NotFound, with what the table has, for another rating or voltage.
[[nodiscard]] Result<units::Current> fullLoadCurrent(units::Power rating, units::Voltage supply);

/// The current of a motor that takes the electrical power `input`: P/(V·pf) on one phase, P/(√3·V·pf) on three, with
/// the voltage between the lines.
///
/// Source: definition of the power factor. Validity: a steady, balanced load. Uncertainty: that of the power factor.
/// OutOfRange, naming it, if power or voltage is not above 0, the power factor is not above 0 and at most 1, or the
/// phases are not 1 or 3.
[[nodiscard]] Result<units::Current> motorCurrent(units::Power input, units::Voltage supply, double powerFactor,
                                                  int phases);

/// How much of a circuit's rating a continuous load, one of 3 hours or more, may take: 80 %.
///
/// Source: NEC 210.20(A), at second hand: the breaker is rated for 125 % of the continuous load. Validity: the United
/// States; elsewhere, and for breakers listed for all of their rating, the local code says otherwise and goes before.
[[nodiscard]] units::Current continuousCapacity(units::Current circuit);

/// A motor against the circuit that it is plugged into, nothing else being on that circuit.
struct CircuitCheck
{
    units::Current drawn;
    units::Current continuousCapacity;
    bool fits;            ///< Whether `drawn` is at most `continuousCapacity`.
    std::string sentence; ///< Says both, and who decides.
};

/// OutOfRange, naming it, if either current is not above 0.
[[nodiscard]] Result<CircuitCheck> checkCircuit(units::Current drawn, units::Current circuit);

} // namespace loopside::filtration
