// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The differential pressure of a clean stage at other conditions, and a measured one brought to the conditions of the
// clean.
//
//   clean(q, ν, ρ) = element · (q/q₀)·(νρ)/(ν₀ρ₀)  +  housing · (q/q₀)²·(ρ/ρ₀)
//   corrected      = (measured − housing(q, ρ)) · (ν₀ρ₀)/(νρ)·(q₀/q)  +  housing
//
// Index 0: the conditions at which the clean drop is known. Element = total − housing.
// Source: Darcy's law for the element (∝ dynamic viscosity and flow); inertial loss for the housing (∝ ρq²). The split
//   is general practice, from memory.
// Validity: Newtonian oil, laminar flow through the element, bypass valve shut. In viscous oil the housing's loss
//   becomes laminar too and grows with viscosity, which this under-predicts; keep its part small, or 0.
// Uncertainty: not included. The correction multiplies the error of the measured drop by the same factor as the drop,
//   and 1 % of error in viscosity or flow is 1 % in the element's part. Where either density is not known their ratio
//   is taken as 1, which is 3 % off over 40 °C of one oil, and 8 % between oils of 850 and 920 kg/m³.

#pragma once

#include "base/result.h"
#include "units/quantity.h"

#include <optional>

namespace loopside::filtration {

/// How much of what flows through a stage.
struct Conditions
{
    units::Flow flow;
    units::KinematicViscosity viscosity;
    std::optional<units::Density> density;
};

/// The differential pressure of a stage with clean elements, bypass valve shut.
struct CleanDrop
{
    units::Pressure total;   ///< Above 0.
    units::Pressure housing; ///< The part of `total` that is proportional to ρq²; 0 if it is not known.
    Conditions at;
};

/// How many of a stage's elements, which stand in parallel, the oil goes through.
struct Flowing
{
    int flowing = 1; ///< From 1 to `of`.
    int of = 1;      ///< How many the stage has, all of them flowing when its clean drop was told.
};

/// The clean drop at `now`, with all elements flowing unless said otherwise.
///
/// Of elements that do not flow the others take the share: the elements' part grows of/flowing times. The housing's
/// part stays, as inlet, outlet and common head carry the whole flow in either case; where each element has a head of
/// its own that part grows (of/flowing)² times, which this under-predicts. OutOfRange, naming it, if a flow, a
/// viscosity, a known density or the total is not above 0, the housing's part is not from 0 to the total, or the number
/// of flowing elements is not from 1 to all.
[[nodiscard]] Result<units::Pressure> cleanDropAt(const CleanDrop& clean, const Conditions& now, Flowing flowing = {});

/// The drop `measured` at `now` as it would be at the flow, viscosity and density of `clean`. May be negative, as
/// `measured` may. OutOfRange as of `cleanDropAt`.
[[nodiscard]] Result<units::Pressure> correctedDrop(units::Pressure measured, const CleanDrop& clean,
                                                    const Conditions& now);

/// How many times the clean drop the `corrected` one is: 1 for clean elements.
/// `clean.total` must be above 0, which `correctedDrop` has made sure of.
[[nodiscard]] double loading(units::Pressure corrected, const CleanDrop& clean);

/// The loading of a pair in parallel of which one element is new and the other is left with the loading `old`:
/// 2/(1 + 1/`old`), below 2 whatever the old one is.
///
/// Source: laminar resistances in parallel, computed. Validity: two alike elements, their housing's part left out.
/// Uncertainty: that of `old`, at most the same part of the answer. OutOfRange if `old` is not above 0.
[[nodiscard]] Result<double> halfChangedLoading(double old);

} // namespace loopside::filtration
