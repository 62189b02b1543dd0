// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Power and slip of a positive-displacement pump.

#pragma once

#include "base/result.h"
#include "units/quantity.h"

namespace loopside::filtration {

/// The power at the pump's shaft: flow · rise / efficiency.
///
/// Source: definition of the pump's overall efficiency. Validity: warm enough that viscous drag inside the pump is in
/// the efficiency given; cold oil takes more. Uncertainty: that of the efficiency, often a tenth of it (from memory).
/// OutOfRange, naming it, if flow or rise is not above 0, or the efficiency is not above 0 and at most 1.
[[nodiscard]] Result<units::Power> shaftPower(units::Flow flow, units::Pressure rise, double efficiency);

/// What makes oil slip back through a pump; both above 0.
struct SlipConditions
{
    units::Pressure rise; ///< Outlet above inlet.
    units::DynamicViscosity viscosity;
};

/// The flow that slips back at `now`, where `slip` does at `known`: slip ∝ rise / dynamic viscosity.
///
/// Source: laminar flow in the pump's narrow gaps; a note on gear pumps' volumetric efficiency and the abstract of a
/// paper (FPMC 2020) that finds it to depend on rise / (speed · viscosity), read. Validity: the same pump, laminar
/// gaps, clearances that neither temperature nor wear has changed. Uncertainty: not stated by the sources.
/// OutOfRange, naming it, if a rise or a viscosity is not above 0, or the slip is below 0.
[[nodiscard]] Result<units::Flow> slipAt(units::Flow slip, const SlipConditions& known, const SlipConditions& now);

/// Volumetric efficiency (0 to 1): the share of what the pump displaces that comes out.
/// OutOfRange, naming it, if `displaced` is not above 0, or `slip` is not from 0 to all of it.
[[nodiscard]] Result<double> volumetricEfficiency(units::Flow displaced, units::Flow slip);

} // namespace loopside::filtration
