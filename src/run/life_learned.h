// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How long the next elements may last, as lives that are over tell (next_value.h), and whether those that are in last
// as they should.
//
// Lives are in litres' worth of the dirt at the start of their run; they stray beforehand as the dirt of a day does
// that nobody counted (learning.h).

#pragma once

#include "run/next_value.h"
#include "run/standing.h"
#include "run/tank_past.h"

#include <optional>
#include <span>
#include <vector>

namespace loopside::run {

/// What lives that are over tell of the next.
struct LifeLearned
{
    int whole = 0; ///< That reached their limit.
    int cutShort = 0;
    std::optional<filtration::Band> litres = {}; ///< Of the next life; none while no life was whole.
};

/// Lives that are not above 0 are left out.
[[nodiscard]] LifeLearned lifeLearned(std::span<const ElementLife> lives);

/// The lives that `learned` tells of elements of one type at one tank; not those that were used before or taken back.
[[nodiscard]] std::vector<ElementLife> livesOf(const std::vector<LoadingLearned>& learned, const std::string& tank,
                                               const std::string& type);

/// So many whole lives are a history that elements can be held against: our choice.
inline constexpr int livesForFinding = 3;

/// element-life-short: a stage reached its limit sooner than 199 of 200 lives of that type at that tank, in half of the
/// middle one or less. element-life-long: it is below its limit though 199 of 200 would be over, after twice the middle
/// one or more: much longer than ever is no good luck before somebody looked. None where fewer than
/// `livesForFinding` lives are known, or the elements are used or mixed. By what the run was opened with.
[[nodiscard]] std::vector<Finding> findingsOfLives(const RunState& run, const Standing& standing);

} // namespace loopside::run
