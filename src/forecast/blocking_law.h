// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How the pressure drop of a filter grows with what it has caught: the blocking laws at constant flow, and their fit.
//
//   dP/dx = k·Pⁿ        P^(1−n) = P₀^(1−n) + (1−n)·k·x;  for n = 1: P = P₀·e^(k·x)
//
// n: 0 cake, 1 intermediate, 3/2 standard (gradual), 2 complete blocking. x: the caught load, in the caller's unit.
// Source: Hermia, Trans. IChemE 60 (1982) 183; Hlavacek and Bouchet, J. Membrane Sci. 82 (1993) 285 for constant rate
//   (from memory); the characteristic form for constant rate read in its handbook abstract.
// Validity: constant flow and viscosity, so for corrected drops. Above n = 1 the drop goes to infinity at a finite
// load. Uncertainty: real elements change from one law to another (a knee); a single law through early readings says
// little
//   of the late ones. See shape.h for what is done about it.

#pragma once

#include "base/result.h"

#include <optional>
#include <span>

namespace loopside::forecast {

/// One blocking law. The drop may be in any unit of pressure, or a fraction of the limit.
struct BlockingLaw
{
    double exponent;  ///< n, from 0 to 3.
    double cleanDrop; ///< P₀, above 0.
    double slope;     ///< k, above 0: per load and per drop^(n−1).
};

/// A drop that was seen at a load, in the units of the law.
struct LawPoint
{
    double load;
    double drop;
};

/// The drop at `load` (0 and above), or nothing at and beyond the load where the law goes to infinity.
[[nodiscard]] std::optional<double> dropAt(const BlockingLaw& law, double load);

/// The load at which the law reaches `drop`, negative if that is below the clean drop. Nothing if the law never does.
[[nodiscard]] std::optional<double> loadAt(const BlockingLaw& law, double drop);

/// The law of this `exponent` that comes nearest to the points: least squares of the drops, Gauss-Newton with halved
/// steps. OutOfRange, naming it, if the exponent is not from 0 to 3, a point is not finite or a drop not above 0;
/// Unavailable with fewer than two loads, with drops that do not rise, or if no law is found in 200 steps.
[[nodiscard]] Result<BlockingLaw> leastSquares(std::span<const LawPoint> points, double exponent);

} // namespace loopside::forecast
