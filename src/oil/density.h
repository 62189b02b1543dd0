// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "units/quantity.h"
#include "units/temperature.h"

namespace loopside::oil {

/// Whether lubricating oil can have `at15` at 15 °C, 800 to 1164 kg/m³; OutOfRange otherwise.
[[nodiscard]] Done checkDensityAt15(units::Density at15);

/// The density at `temperature` of lubricating oil that has `at15` at 15 °C.
///
/// ρ = ρ₁₅·exp(−αΔt(1 + 0.8αΔt)), α = 0.6278/ρ₁₅ per °C, Δt from 15 °C.
/// Source: ASTM D1250 / API MPMS 11.1, generalised lubricating oils on the 15 °C basis (1980, table 54D, ISO 91); the
///   constant was read at second hand.
/// Validity: 800 to 1164 kg/m³ at 15 °C (from memory) and −40 to 150 °C (working_range.h); OutOfRange beyond.
/// Uncertainty: not stated by what was read; within the validity it differs from the 60 °F form of 2004 by at most
///   0.002 %.
[[nodiscard]] Result<units::Density> densityAt(units::Density at15, units::Temperature temperature);

/// The density at 15 °C of lubricating oil that was found to have `observed` at `at`: the inverse of `densityAt`.
///
/// OutOfRange as of `densityAt`, and if the answer would be outside 800 to 1164 kg/m³.
[[nodiscard]] Result<units::Density> densityAt15From(units::Density observed, units::Temperature at);

/// What a volume at `temperature` is to be multiplied by to have that at 60 °F, for oil of `at60F` there (CTL).
///
/// CTL = exp(−αΔt(1 + 0.8αΔt)), α = 0.34878/ρ₆₀ per °F, Δt from 60 °F. The density at the temperature is ρ₆₀·CTL.
/// Source: API MPMS 11.1-2004 / ASTM D1250-04, generalised lubricating oils; the constant was read at second hand. The
///   shift of 0.014 °F to the temperature scale of 1990 is left out.
/// Validity: 800.9 to 1163.5 kg/m³ at 60 °F and −40 to 150 °C (working_range.h); OutOfRange beyond.
/// Uncertainty: as of `densityAt`.
[[nodiscard]] Result<double> volumeCorrectionTo60F(units::Density at60F, units::Temperature temperature);

/// The density of water at 60 °F, to which specific gravity and API gravity refer.
/// Source: API MPMS 11.1-2004, from memory; older tables have 999.012 kg/m³.
inline constexpr units::Density waterAt60F = 999.016 * units::kilogramPerCubicMetre;

/// The specific gravity 60/60 °F of oil of so many degrees API: 141.5/(°API + 131.5).
///
/// Source: the definition, in the Hydraulic Institute's data book. Validity: specific gravities of 0.8017 to 1.1647,
/// the densities of `volumeCorrectionTo60F`, which are 45.0 to −10.0 °API; OutOfRange beyond.
[[nodiscard]] Result<double> specificGravity(double degreesApi);

/// The degrees API of oil of this specific gravity 60/60 °F: 141.5/SG − 131.5. OutOfRange likewise.
[[nodiscard]] Result<double> apiGravity(double specificGravity);

} // namespace loopside::oil
