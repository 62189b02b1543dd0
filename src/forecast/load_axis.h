// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The axis that a loading is drawn over, and the way from it to time.
//
// Where oil goes round, its dirt falls with the turnovers, so an element loads fast at first and slowly later. Over
// litres the curve bends; over dirt caught it does not:
//
//   dirt(n) = (1 − φ)·(1 − e^(−k·n))/k + φ·n        n: turnovers; k = (1 − 1/β)·mixing; φ: floor ÷ start
//
// in turnovers' worth of the dirt at the start; the same times the tank's volume is litres' worth.
// Source: integral of the mixed tank's mass balance (filtration/clean_up.h).
// Validity: steady flow, bypass valves shut, one size class stands for all.
// Uncertainty: k and φ are rarely known better than a quarter and a factor of two.

#pragma once

#include "base/result.h"

#include <optional>

namespace loopside::forecast {

/// How the dirt of a tank falls.
struct CleaningUp
{
    double captureTimesMixing = 0.0; ///< k, from 0 (does not fall) to 1.
    double floorPart = 0.0;          ///< φ, from 0 to 1.
};

/// The dirt that went through in `turnovers`, in turnovers' worth of the dirt at the start.
/// OutOfRange, naming it, if the turnovers are negative or not finite, or k or φ is not from 0 to 1.
[[nodiscard]] Result<double> dirtAfter(double turnovers, const CleaningUp& cleaning);

/// How the load grows from now on: at a rate that falls from `perSecond` towards `perSecondLater` with the time
/// constant 1/`fallPerSecond`; steady where that is 0.
struct Ahead
{
    double perSecond = 0.0;      ///< Now, 0 or more.
    double perSecondLater = 0.0; ///< 0 to `perSecond`.
    double fallPerSecond = 0.0;  ///< 0 or more.
};

/// What is taken for a tank whose dirt nobody counted: most of the flow counts for mixing, and what comes in keeps a
/// sixth of the dirt going. Our choice.
inline constexpr CleaningUp usualCleaningUp = {0.7, 0.15};

/// How the dirt that goes through, as of `dirtAfter`, grows behind `turnovers` at a steady flow of so many turnovers
/// a second. OutOfRange as of `dirtAfter`, and if the flow is negative or not finite.
[[nodiscard]] Result<Ahead> aheadAfter(double turnovers, const CleaningUp& cleaning, double turnoversPerSecond);

/// The load that is added in `seconds`, 0 or more.
[[nodiscard]] double loadAdded(const Ahead& ahead, double seconds);

/// The seconds in which `load` (0 or more) is added. Nothing if it never is, or not in `secondsMax`.
[[nodiscard]] std::optional<double> secondsToAdd(const Ahead& ahead, double load, double secondsMax);

} // namespace loopside::forecast
