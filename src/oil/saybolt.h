// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Saybolt Universal Seconds (SUS, SSU): how long 60 mL of oil take to run out of the Saybolt cup.
//
//   SUS(100 °F) = 4.6324ν + (1 + 0.03264ν) / ((3930.2 + 262.7ν + 23.97ν² + 1.646ν³)·10⁻⁵)      ν in mm²/s
//   SUS(t °F)   = SUS(100 °F)·(1 + 0.000061(t − 100))
//
// Source: ASTM D2161, the equation as in a public library; the factor for other temperatures from memory.
// Validity: from 1.81 mm²/s (32 s at 100 °F; from memory) to the upper limit of `checkViscosity` (walther.h), and in
// the
//   working range of temperatures (working_range.h). The viscosity is that at the temperature of the seconds.
// Uncertainty: not stated by what was read. Seconds were never printed to more than 0.1.

#pragma once

#include "base/result.h"
#include "units/quantity.h"
#include "units/temperature.h"

namespace loopside::oil {

/// Where Saybolt seconds are told if nothing else is said.
inline constexpr units::Temperature sayboltTemperature = 100.0 * units::fahrenheit;

/// The Saybolt Universal seconds at `at` of an oil that has the viscosity there. OutOfRange outside the validity.
[[nodiscard]] Result<units::Duration> sayboltSeconds(units::KinematicViscosity viscosity,
                                                     units::Temperature at = sayboltTemperature);

/// The viscosity at `at` of an oil with so many Saybolt Universal seconds there: the inverse. OutOfRange likewise.
[[nodiscard]] Result<units::KinematicViscosity> viscosityFromSaybolt(units::Duration seconds,
                                                                     units::Temperature at = sayboltTemperature);

} // namespace loopside::oil
