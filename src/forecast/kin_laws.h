// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What past loadings of one tank teach where few or none of them got to the limit: that the element creeps along such
// laws, with such lives, and along no others. Most cleanings end long before their elements do, so this is the usual
// case on a cart.
//
//   p(law, L₀ | past) ∝ p(L₀) · Πᵈ ∫ p(readings of day d | law, L)·N(ln L; ln L₀, unit error) d ln L
//
// L₀: the usual life at this tank; L: that of one day, which differs as the unit of loads does (loading over turnovers:
// as the dirt of days does). Every day counts, cut short or not, with used elements or new ones.
// Source: the textbook two-level model with a common law and lives of days.
// Validity: elements of one type on one tank, drops creeping along blocking laws with at most one knee.
// Uncertainty: the laws are few, so a loading may stray 10 % from the best of them, most of its life long.

#pragma once

#include "forecast/history.h"

#include <optional>
#include <span>

namespace loopside::forecast {

/// The laws and lives that `past` leaves, against a corrected `limit` above 0. Only the same type counts, at most
/// `kinMax` loadings of it, those of the same tank first, the last given first. Nothing if there is none.
inline constexpr std::size_t kinMax = 16;
[[nodiscard]] std::optional<Family> kinLaws(std::span<const PastLoading> past, units::Pressure limit,
                                            double loadUnitError);

} // namespace loopside::forecast
