// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How raw ÷ corrected goes on. Limits hold for raw drops, readings are corrected; between them stands the factor by
// which the oil is thicker than at the element's reference. It falls as the oil warms, and levels off:
//
//   ln f(t) = a + b·e^(−t/τ) + c·t        t: seconds of filtering since the elements' load was 0
//
// a, b, c are Gaussian before the readings, τ is one of a few; all are weighed by the readings (Bayesian linear
// regression, a textbook result). What is told is the mean and standard deviation of ln f over all of that.
// Validity: one warming towards an end; a heater switched on, a cold night or a stop are not foreseen.
// Uncertainty: told with it. Early in a run it is large: nobody knows yet how warm the oil will get.

#pragma once

#include "base/result.h"

#include <array>
#include <span>

namespace loopside::forecast {

/// Raw ÷ corrected as seen at one reading.
struct FactorSeen
{
    double filteredSeconds;      ///< 0 or more.
    double rawPerCorrected;      ///< Above 0.
    double relativeError = 0.03; ///< Standard (k = 1), fresh each time, above 0: a thermometer read to a degree.
};

/// Raw ÷ corrected as expected.
struct FactorExpected
{
    double value = 1.0;
    double relativeError = 0.0; ///< Standard (k = 1).
};

/// What the series of factors tells. From `factorTrend`.
struct FactorTrend
{
    /// For one τ.
    struct Part
    {
        double weight;                    ///< All sum to 1.
        double perSecond;                 ///< 1/τ.
        std::array<double, 3> mean;       ///< Of a, b and c (per hour).
        std::array<double, 9> covariance; ///< Of them.
    };
    std::array<Part, 6> parts;
};

/// The trend of a run from its readings, in any order. OutOfRange, naming it, without a reading or if a number is not
/// finite or not in its range.
[[nodiscard]] Result<FactorTrend> factorTrend(std::span<const FactorSeen> seen);

/// The factor at `filteredSeconds`, past or to come; 0 or more.
[[nodiscard]] FactorExpected factorAt(const FactorTrend& trend, double filteredSeconds);

/// What limits are judged by: a range from the factor at `now`, held, to what the trend makes of it until `then`; told
/// are its middle, and half its width joined to the trend's own error. By try-out runs of a simulated cart: of the held
/// value, the trend's and the middle the last has the best Brier score and the truest chances.
[[nodiscard]] FactorExpected factorHeld(const FactorTrend& trend, double now, double then);

} // namespace loopside::forecast
