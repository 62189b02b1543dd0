// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The viscosity index: how little the viscosity changes with temperature, from the kinematic viscosities U at 40 °C and
// Y at 100 °C. It compares U with L and H, those of two reference oils that have the same Y: of index 0 and index 100.
//
//   procedure A, U ≥ H:  VI = 100 (L − U) / (L − H)
//   procedure B, U < H:  N = (log H − log U) / log Y,  VI = (10^N − 1) / 0.00715 + 100
//
// Source: ASTM D2270-93(98) and its table 1 (assets/reference/d2270_LH.csv), with linear interpolation; above Y = 70
//   mm²/s L = 0.8353Y² + 14.67Y − 216 and H = 0.1684Y² + 11.85Y − 97. The same as ISO 2909.
// Validity: Y of 2 mm²/s and above.
// Uncertainty: in 18 examples the interpolation is within 0.1 of an index point of the standard's own polynomials. A
//   viscosity 1 % off at 100 °C moves the index by about 3 points at VG 46.

#pragma once

#include "base/result.h"
#include "oil/walther.h"
#include "units/quantity.h"
#include "units/temperature.h"

namespace loopside::oil {

/// Viscosities at 40 °C of the two reference oils.
struct ReferenceOils
{
    units::KinematicViscosity l; ///< Of the oil with index 0.
    units::KinematicViscosity h; ///< Of the oil with index 100.
};

/// The reference oils that have the viscosity `at100` at 100 °C. OutOfRange below 2 mm²/s.
[[nodiscard]] Result<ReferenceOils> referenceOils(units::KinematicViscosity at100);

/// The same by the closed form of appendix X2: in each of 16 ranges of Y, L = aY² + bY + c and H = dY² + eY + f.
///
/// Source: ASTM D2270, table X2.1 (assets/reference/d2270_poly.csv), from memory, confirmed by public code copies.
/// Uncertainty: from Y = 2 to 70 within 0.10 % of table 1 for L (worst at 30) and 0.12 % for H (worst at 7.7); the
///   index by it is then within 0.6 of a point from −50 to 400. Above 70 within 0.01 % of the equations (computed
///   here).
[[nodiscard]] Result<ReferenceOils> referenceOilsClosedForm(units::KinematicViscosity at100);

/// The index, unrounded. OutOfRange if `at100` is below 2 mm²/s or not below `at40`.
[[nodiscard]] Result<double> viscosityIndex(units::KinematicViscosity at40, units::KinematicViscosity at100);

/// The same by the closed form: a second opinion, never what is reported.
[[nodiscard]] Result<double> viscosityIndexClosedForm(units::KinematicViscosity at40, units::KinematicViscosity at100);

/// The viscosity at 100 °C of an oil with `at40` and the index: the inverse of `viscosityIndex`.
///
/// The index rises with the viscosity at 100 °C throughout, but for a step down of less than 0.1 at 70 mm²/s, where
/// table and equations differ by 0.02 %; the answer is as exact as that. OutOfRange for an index outside −100 to 500,
/// which no lubricant has (our bounds, about the widest of published examples), for a viscosity outside that of
/// `checkViscosity` (walther.h), and for an oil so thin that the answer would be below 2 mm²/s.
[[nodiscard]] Result<units::KinematicViscosity> viscosityAt100(units::KinematicViscosity at40, double viscosityIndex);

/// The line of an oil that was measured at one temperature and has the index: the line through that point whose
/// viscosities at 40 and 100 °C have the index. A point at 40 °C is what a grade's mid-point is.
///
/// OutOfRange as of `viscosityAt100`, for a temperature outside the working range (working_range.h), and for a point
/// through which no line with the index goes: the oil would be below 2 mm²/s at 100 °C or above 2×10⁷ at 40 °C.
/// Uncertainty: the further the point is from the temperature that is asked for, the more the index decides; 5 points
///   of index are about 4 % at 0 °C for a VG 46 known at 40 °C.
[[nodiscard]] Result<WaltherLine> lineWithIndex(units::Temperature at, units::KinematicViscosity viscosity,
                                                double viscosityIndex);

/// The index as it is reported: the nearest whole number, of two equally near the even one (ASTM E29).
[[nodiscard]] double reportedViscosityIndex(double viscosityIndex);

} // namespace loopside::oil
