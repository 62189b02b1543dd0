// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "units/quantity.h"

namespace loopside::filtration {

/// How long `flow` takes to pass `volume` once. OutOfRange, naming it, if either is not above 0.
[[nodiscard]] Result<units::Duration> turnoverTime(units::Volume volume, units::Flow flow);

/// How long `flow` takes to pass `volume` as often as `turnovers` says, which may be 0. OutOfRange, naming it, if that
/// is negative or not finite, and as of `turnoverTime`.
[[nodiscard]] Result<units::Duration> runTime(double turnovers, units::Volume volume, units::Flow flow);

/// The share (0 to 1) of what was in the tank that is still there after so many turnovers: exp(−n·k), with n for
/// `turnovers` and k for `captureTimesMixing`.
///
/// Source: mass balance of a perfectly mixed tank; k = (1 − 1/β)·mixing.
/// Validity: nothing comes in; `turnovers` from 0; k from 0 to 1, where 1 is perfect mixing and capture. Real tanks
///   stop earlier, at what comes in. It schedules samples and proves nothing.
/// Uncertainty: not included; n·Δk relative, to first order, for an error Δk of k.
[[nodiscard]] double leftBehind(double turnovers, double captureTimesMixing);

} // namespace loopside::filtration
