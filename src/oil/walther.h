// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How the viscosity of an oil falls with temperature: a straight line on a Walther chart.
//
//   log log Z = A − B·log T        T in kelvin, log to base 10, Z from the viscosity in mm²/s
//
// Source: ASTM D341, in the short form of Z with one exponential each way.
// Validity: a homogeneous Newtonian liquid between its cloud point and its boiling point. Answers are given from −40 to
//   150 °C (working_range.h) and from 0.2 mm²/s, below which the short form fails, to 2×10⁷ mm²/s, the upper limit
//   stated for the older long form (from memory). Beyond either: OutOfRange, never a guess.
// Uncertainty: that of the two points, carried along the line and growing outside them. The short form is within 0.004
//   mm²/s of the older long one from 0.3 to 5 mm²/s. Oils thickened with polymers are far thicker in the cold than the
//   line says: one that the line puts at 201 mm²/s at −40 °C was published with 495.

#pragma once

#include "base/result.h"
#include "units/quantity.h"
#include "units/temperature.h"

#include <string_view>

namespace loopside::oil {

/// Z of `viscosity`: ν + 0.7 + exp(−1.47 − 1.84ν − 0.51ν²), ν in mm²/s.
[[nodiscard]] double waltherZ(units::KinematicViscosity viscosity);

/// The viscosity of which `z` is the Z; within 0.0002 mm²/s of the exact inverse of `waltherZ` from 0.2 up.
[[nodiscard]] units::KinematicViscosity viscosityFromZ(double z);

/// The line of one oil.
class WaltherLine
{
public:
    /// The line through two points, in either order.
    /// OutOfRange, with a sentence, if a temperature or a viscosity is outside the validity above, the temperatures are
    /// less than 5 °C apart (rounding of the viscosities would then decide the slope), or the viscosity does not fall
    /// with temperature.
    [[nodiscard]] static Result<WaltherLine> through(units::Temperature first, units::KinematicViscosity atFirst,
                                                     units::Temperature second, units::KinematicViscosity atSecond);

    /// The viscosity at `temperature`. OutOfRange if either is outside the validity above.
    [[nodiscard]] Result<units::KinematicViscosity> at(units::Temperature temperature) const;

    [[nodiscard]] double a() const { return a_; }
    [[nodiscard]] double b() const { return b_; } ///< Slope, above 0.

private:
    WaltherLine(double a, double b) : a_{a}, b_{b} {}

    double a_;
    double b_;
};

/// Whether a viscosity is one that oil can have, 0.2 to 2×10⁷ mm²/s; OutOfRange naming `what` otherwise.
[[nodiscard]] Done checkViscosity(units::KinematicViscosity viscosity, std::string_view what);

} // namespace loopside::oil
