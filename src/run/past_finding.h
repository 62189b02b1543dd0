// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What earlier elements say of those that are in: whether they last, and whether they began, as such elements do at
// this tank and on this cart's dials. It never takes the place of what was told of them: a history may be one of a
// fault.

#pragma once

#include "run/standing.h"

#include <vector>

namespace loopside::run {

/// element-life-short: a stage reached its limit sooner than 199 of 200 lives of that type at that tank, in half of the
/// middle one or less. element-life-long: it is below its limit though 199 of 200 would be over, after twice the middle
/// one or more: much longer than ever is no good luck before somebody looked. None where fewer than `livesForFinding`
/// lives are known, or the elements are used or mixed.
///
/// clean-dp-low, clean-dp-high: the first good sets of new elements lie, corrected, further from the middle of what
/// this cart's dials showed of such elements than twice its 90 % band and than half as much again, whatever the
/// reading's own error. It stands until they are changed. None where fewer than `setsForClean` sets of elements are
/// known.
///
/// By what the run was opened with. `standing` has its moments, questions and diagnosis.
[[nodiscard]] std::vector<Finding> findingsOfPast(const RunState& run, const Standing& standing);

} // namespace loopside::run
