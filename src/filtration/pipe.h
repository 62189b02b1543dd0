// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The pressure that oil loses to friction in a straight round smooth hose.
//
//   loss = f · (length/bore) · ρv²/2        Darcy and Weisbach, v = flow / bore area
//   Re   = v · bore / ν
//   f    = 64/Re                            laminar; the loss is then 128·ρν·length·flow / (π·bore⁴)
//   1/√f = 2·log₁₀(Re·√f / 2.51)            turbulent
//
// Source: Hagen and Poiseuille for laminar flow; for turbulent flow the law of smooth pipes of Prandtl and von Kármán
//   with Nikuradse's constant, as the library `fluids` has it (read). Laminar below Re 2040, turbulent above 4000: that
//   library and the engineering data book of the Hydraulic Institute, read.
// Between 2040 and 4000 neither law holds, and the flow may change from one to the other; the larger of both losses is
//   told there, which is the turbulent one. So the loss leaps up by about 6 parts in 10 at Re 2040.
// Validity: Newtonian oil, a hose that runs full, Re up to 3.4×10⁶ (the end of Nikuradse's measurements, from memory).
//   Straight hose alone: couplings, strainers, bends, valves, corrugation and the run-in at the entrance come on top.
// Uncertainty: laminar, that of what goes in: 1 % of bore is 4 % of loss, 1 % of viscosity or flow is 1 %. Turbulent,
//   about 2 % for a smooth wall (from memory), more for a rough one. Not included.

#pragma once

#include "base/result.h"
#include "units/quantity.h"

namespace loopside::filtration {

/// A straight hose or pipe; both above 0.
struct Pipe
{
    units::Length bore; ///< Inside diameter.
    units::Length length;
};

enum class FlowRegime
{
    Laminar,
    Between, ///< Neither for sure: Re from 2040 to 4000.
    Turbulent,
};

/// What a hose costs at one flow.
struct PipeLoss
{
    units::Pressure loss;
    double reynolds;
    FlowRegime regime;
};

inline constexpr double laminarReynoldsMax = 2040.0;
inline constexpr double turbulentReynoldsMin = 4000.0;

/// Re = 4·flow / (π·bore·ν), dimensionless. `bore` and `viscosity` must be above 0.
[[nodiscard]] double reynoldsNumber(units::Length bore, units::Flow flow, units::KinematicViscosity viscosity);

/// Below `laminarReynoldsMax` laminar, above `turbulentReynoldsMin` turbulent.
[[nodiscard]] FlowRegime regimeOf(double reynolds);

/// Darcy friction factor of laminar flow, four times that of Fanning. `reynolds` must be above 0.
[[nodiscard]] double laminarFriction(double reynolds);

/// Darcy friction factor of turbulent flow in a smooth pipe. `reynolds` must be above 0; it means something from
/// `turbulentReynoldsMin` up.
[[nodiscard]] double turbulentFriction(double reynolds);

/// The friction loss of `pipe`.
/// OutOfRange, naming it, if bore, length, flow, viscosity or density is not above 0, or Re is beyond the validity.
[[nodiscard]] Result<PipeLoss> pipeLoss(const Pipe& pipe, units::Flow flow, units::KinematicViscosity viscosity,
                                        units::Density density);

} // namespace loopside::filtration
