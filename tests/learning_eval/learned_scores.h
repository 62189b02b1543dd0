// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How near to the truth what is learned of clean elements and of lives comes, by how many runs are behind it. Judged on
// the last day of each place.

#pragma once

#include "fleet.h"
#include "scores.h"

#include <array>
#include <map>

namespace loopside::evaluation {

/// How many days a place is lived through, the judged one included, and behind how many of them what is learned stands.
inline constexpr int fleetDays = 21;
inline constexpr std::array<int, 4> pastRuns = {0, 1, 5, 20};

/// Of the clean ΔP of new elements, where a stage was fitted with such. Errors of the middle of the band, %.
struct CleanScores
{
    std::vector<double> ofShown; ///< Against what the cart's dials show of it, but for how they are read.
    std::vector<double> ofTruth; ///< Against the true one.
    std::vector<bool> covered;   ///< Whether the band holds what the dials show.
    int notShown = 0;            ///< The dials stand so far off that they show nothing: not judged.
};

/// Of new elements: whether they reach their limit, as read, before the run is over.
struct LifeScores
{
    std::vector<Told> told; ///< Of those of which a life is known.
    int unknown = 0;
};

struct LearnedScores
{
    std::map<int, CleanScores> clean; ///< By past runs.
    std::map<int, LifeScores> lives;  ///< The same.
};

/// Adds what the last of `days` shows.
void judgeLearned(const std::vector<FleetDay>& days, LearnedScores& scores);

} // namespace loopside::evaluation
