// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The forecast on simulated runs whose oil goes round and warms, read off coarse gauges: practice/scenario.h tells how
// they are drawn. Each is judged at a quarter, a half and three quarters of its target, with other days of the same
// tank and cart as history.

#pragma once

#include "scores.h"
#include "simulated_days.h"

#include <map>
#include <vector>

namespace loopside::evaluation {

/// What was told of reaching a limit before the target, and what came.
struct SimulatedScores
{
    std::vector<Told> ours;
    std::vector<Told> oursTruly;                 ///< The same, where only the true drop counts, not the one read.
    std::vector<Told> line;                      ///< A straight line through the last five, sure of itself.
    std::map<double, std::vector<Told>> atParts; ///< Ours, by share of the target.
    std::vector<double> crps;                    ///< % of the target, where the limit was reached within three targets.
    std::map<double, std::vector<bool>> covered; ///< By share of the interval; of the same.
    int asked = 0;                               ///< Stages and moments, limit not yet reached,
    int unanswered = 0;                          ///< of them without a forecast: told as `unansweredPart`.
};

/// What is told where the forecast says nothing, mostly because the drop falls: as came true on runs for trying out.
inline constexpr double unansweredPart = 0.04;

/// Judges one stage at its three moments.
void judge(const StageCase& one, SimulatedScores& scores);

/// Runs `first` to `first + count − 1`, as `stageCases` numbers them.
[[nodiscard]] SimulatedScores judgeSimulated(int first, int count, int otherDays, bool isTestSet);

} // namespace loopside::evaluation
