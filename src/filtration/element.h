// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How well elements hold particles back: the filtration ratio β of a size, particles before ÷ particles behind.
//
// Source: ISO 16889, definition of β (its scope and several handbooks read).
// Validity: one particle size; steady flow, new oil-compatible elements, as in the test. Vibration, surges and cold
//   starts lower it in service.
// Uncertainty: not included; β of 1000 rests on a few particles behind the element.

#pragma once

#include "base/result.h"
#include "units/quantity.h"

#include <span>

namespace loopside::filtration {

/// The part of the particles that is held back in one pass: 1 − 1/β. OutOfRange if `beta` is below 1.
[[nodiscard]] Result<units::Fraction> efficiencyOf(double beta);

/// β of an efficiency: 1/(1 − efficiency). OutOfRange if it is not from 0 to below 1; nothing holds everything back.
[[nodiscard]] Result<double> betaOf(units::Fraction efficiency);

/// β of stages that the same oil passes one after the other: the product.
///
/// An upper bound: the first stage lets through the particles that are hard to catch by shape or surface, so that the
/// next meets a harder lot of the same size than the one it was tested with; and any leak limits the whole.
/// OutOfRange if there is no stage or one is below 1.
[[nodiscard]] Result<double> betaInSeries(std::span<const double> stages);

/// β of an element past which the part `leak` of the flow goes unfiltered, through a bypass valve or a bad seal:
/// 1/β = leak + (1 − leak)/`beta`.
///
/// Source: balance of particles, computed. Validity: the leak carries the same oil as the element is given.
/// OutOfRange if `beta` is below 1 or `leak` is not from 0 to 1.
[[nodiscard]] Result<double> betaWithLeak(double beta, units::Fraction leak);

} // namespace loopside::filtration
