// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the runs at a tank teach of the tank itself: how well it mixes and how fast dirt gets in. And what a cart's
// dials showed of clean elements. Each with the number of runs behind it; with none it is what was told or usual, and
// as wide.
//
// Mixing: a run's samples before and after hold ln(after/before) = ln(φ + (1 − φ)·e^(−k·n)) with n turnovers, k = (1 −
// 1/β)·mixing and φ the floor as part of the start (filtration/clean_up.h). On a grid: k normal about what was told, a
// quarter of it either way, from 0 to 1; ln φ alike likely from a ten-thousandth to a half. What the sizes say goes in
// as their mean: it is one sample. Ingress: the count of a size rises by r a day between runs; ln r alike likely over
// the grid. Source: Bayes' rule; the mass balance of clean_up.h; scatter of a count as in clean_up_learned.h. What is
// taken
//   beforehand is our choice.
// Validity: samples of the tank, not from behind a filter; of ingress: nothing else was done with the oil meanwhile.
// Uncertainty: it is the answer: bands hold 90 % of what is likely.

#pragma once

#include "run/place_learned.h"
#include "run/tank_past.h"

#include <optional>

namespace loopside::run {

/// From the cleanings of `past`; `told` is the tank's mixing factor as its record has it, none: the usual one.
[[nodiscard]] MixingLearned mixingLearned(const TankPast& past, const std::optional<Decimal>& told);

/// For each size of ISO 4406; none where no two runs in a row have it counted in samples of the tank.
[[nodiscard]] filtration::PerSize<std::optional<IngressLearned>> ingressLearned(const TankPast& past);

/// Of stage `stage` (from 1) of `setup`, from the first readings of sets of that type that were fitted new in that
/// stage of that cart under the same reference conditions: the dials' errors are in it, which go with the cart.
[[nodiscard]] CleanLearned cleanLearned(const State& state, const Setup& setup, int stage);

/// All of it for a run by `setup`, in six digits. What no run taught is not in it.
[[nodiscard]] PlaceLearned placeLearned(const State& state, const Setup& setup);

} // namespace loopside::run
