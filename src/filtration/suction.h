// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the pump has to pull: the vacuum at its inlet.
//
//   vacuum = friction of the suction hose (pipe.h, at viscosity / allowance) + ρ·g·lift
//
// Source: hydrostatics and pipe.h. Validity: as of pipe.h; the atmosphere at sea level, so that "possible" is too kind
//   on high ground (about 1.2 kPa less for each 100 m up, from memory); the vapour pressure of oil is taken as 0. The
//   pressure that sets the oil moving, ρv²/2, is left out: 0.7 kPa at 38 L/min in 25 mm, 0.03 kPa at 19 L/min in 38 mm.
// Uncertainty: that of pipe.h and of the viscosity; couplings and strainer are covered by the allowance alone, which is
//   a choice and not a measurement.

#pragma once

#include "base/result.h"
#include "filtration/pipe.h"
#include "units/quantity.h"

namespace loopside::filtration {

/// Room for couplings and strainer, which are not computed: plan with 70 % of the viscosity that the bare hose would
/// bear. Common practice, no source.
inline constexpr double defaultSuctionAllowance = 0.7;

/// Where the pump's maker does not say: 5 inHg, a cautious figure for gear pumps. Common practice, no source; a study
/// question takes about 10 inHg as the most.
inline constexpr units::Pressure defaultSuctionLimit{17.0, units::kilopascal};

/// Where the pump's maker does not say: the thickest oil that a gear pump may be started with, 7500 SUS. Read in one
/// maker's service literature; other makers differ.
inline constexpr units::KinematicViscosity defaultPumpViscosityMax{1620.0, units::centistokes};

inline constexpr units::Pressure standardAtmosphere{101.325, units::kilopascal};

/// The suction side of a cart.
struct Suction
{
    Pipe hose;
    units::Length lift; ///< Pump inlet above the oil's surface; negative where the oil stands higher.
    double allowance = defaultSuctionAllowance; ///< Above 0 to 1. 1: the bare hose, nothing for couplings or strainer.
};

/// What the pump finds at its inlet.
struct Inlet
{
    units::Pressure vacuum; ///< Below the atmosphere. Negative: the oil's own height pushes more than the hose takes.
    PipeLoss hose;          ///< At viscosity / allowance.
    bool isPossible;        ///< Whether `vacuum` is less than the atmosphere; else the flow cannot be had at all.
};

/// The vacuum at the pump's inlet.
/// OutOfRange, naming it, if the allowance is not above 0 and at most 1, the lift is not a finite number, or as of
/// `pipeLoss`.
[[nodiscard]] Result<Inlet> pumpInlet(const Suction& suction, units::Flow flow, units::KinematicViscosity viscosity,
                                      units::Density density);

/// Net positive suction head available: (atmosphere − vacuum) / (ρ·g), for oil without vapour pressure. Negative where
/// the vacuum is not possible. OutOfRange if the density is not above 0.
[[nodiscard]] Result<units::Length> suctionHeadAvailable(units::Pressure vacuum, units::Density density);

} // namespace loopside::filtration
