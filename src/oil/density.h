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

} // namespace loopside::oil
