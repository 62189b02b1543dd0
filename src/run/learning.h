// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What one run teaches the forecasts of later ones, and what a new run may learn from.
//
// A loading teaches once it is over: its elements were changed, or its run is closed. One that did not reach its limit
// teaches that its life is longer; elements that had caught something before teach how such elements creep, but no
// life. Nothing is learned from a practice run, where only some elements were changed, or from sets that were entered
// later than seen. A loading of other elements is kin only by its kind: see forecast/loading.h.

#pragma once

#include "forecast/loading.h"
#include "run/standing.h"

#include <cstddef>
#include <vector>

namespace loopside::run {

/// Standard deviation of the logarithm by which a litre's worth of dirt differs from one day to another where nobody
/// counts: our choice, from how far tanks differ that are cleaned for the same reason.
inline constexpr double dirtUnsure = 0.5;

/// At most so many past loadings go with a run, and at most so many points with each.
inline constexpr std::size_t learnedMost = 64;
inline constexpr std::size_t curvePointsMost = 24;

/// What the loadings of `run` teach and was not told so before; after an amendment also what is to be taken back.
/// `standing` is that of `run`, with or without its forecast.
[[nodiscard]] std::vector<LoadingLearned> learningChanges(const RunState& run, const Standing& standing);

/// All in `state` that a run with `setup` may learn from: the nearest kin first, of those the latest; each at most
/// once.
[[nodiscard]] std::vector<LoadingLearned> learnedFor(const State& state, const Setup& setup);

/// Whose kin is looked for.
struct ElementsOf
{
    std::string tank;
    std::string type; ///< Empty if unknown: then of a kind at most.
    std::string kind;
};

/// What of `learned` is kin of `elements`, as the forecast takes it.
[[nodiscard]] std::vector<forecast::PastLoading> pastLoadings(const std::vector<LoadingLearned>& learned,
                                                              const ElementsOf& elements);

} // namespace loopside::run
