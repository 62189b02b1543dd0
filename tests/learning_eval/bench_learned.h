// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The same on open bench data (bench_runs.h): filters fed with dust. The runs of one feed stand for the runs at one
// tank, those of all feeds for the runs of a site that nobody tells apart.

#pragma once

#include "bench_runs.h"

#include <map>
#include <vector>

namespace loopside::evaluation {

/// With so many runs behind it.
struct BenchScores
{
    std::map<double, std::vector<double>> errors; ///< Of the forecast, % of the life, by share of the life.
    std::vector<double> lifeErrors;               ///< Of the middle of the band of the next life, %.
    std::vector<bool> lifeCovered;                ///< Whether the band, 90 %, holds it.
    std::vector<double> lifeWidths;               ///< High end ÷ low end.
    std::vector<double> cleanErrors;              ///< Of the middle of the band of the next clean ΔP, %.
    std::vector<bool> cleanCovered;               ///< Whether the band, 90 %, holds it.
};

/// Each run of `runs` judged with `past` others, drawn with a fixed seed: of its own group, or of all.
[[nodiscard]] BenchScores benchLearned(const std::vector<BenchRun>& runs, int past, bool isOwnGroup);

} // namespace loopside::evaluation
