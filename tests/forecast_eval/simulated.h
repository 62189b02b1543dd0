// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The forecast on simulated runs whose oil goes round and warms, read off coarse gauges: practice/scenario.h tells how
// they are drawn. Each is judged at a quarter, a half and three quarters of its target, with other days of the same
// tank and cart as history.

#pragma once

#include "scores.h"

#include <map>
#include <vector>

namespace loopside::evaluation {

/// What was told of reaching a limit before the target, and what came.
struct SimulatedScores
{
    std::vector<Told> ours;
    std::vector<Told> line;                      ///< A straight line through the last five, sure of itself.
    std::vector<double> crps;                    ///< % of the target, where the limit was reached within three targets.
    std::map<double, std::vector<bool>> covered; ///< By share of the interval; of the same.
    int asked = 0;                               ///< Stages and moments, limit not yet reached,
    int unanswered = 0; ///< of them without a forecast: told as the share that came true in the history.
};

/// Runs `first` to `first + count − 1` of the test set, or of other seeds for trying things out; `historyDays` other
/// days.
[[nodiscard]] SimulatedScores judgeSimulated(int first, int count, int historyDays, bool isTestSet);

} // namespace loopside::evaluation
