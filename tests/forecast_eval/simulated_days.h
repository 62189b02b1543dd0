// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What of a simulated day is judged, stage by stage: the readings of the elements it began with, as a person has them,
// and how it came.

#pragma once

#include "practice/simulate.h"

#include <optional>
#include <vector>

namespace loopside::evaluation {

/// One stage at one reading, while filtering. Pressures in Pa.
struct StageReading
{
    double seconds;         ///< Of the run,
    double filteredSeconds; ///< of it filtering with these elements.
    double raw;
    double corrected;
    double readingError;  ///< Of the raw drop, expanded.
    double standingError; ///< The same.
    double loading;
};

/// One stage on one day.
struct StageDay
{
    std::vector<StageReading> readings; ///< Until its elements were changed.
    bool isUsedTold = false;
    double limit = 0.0; ///< Raw, Pa.
    double turnoversPerSecond = 0.0;
    double targetAt = 0.0;             ///< Seconds of the run.
    std::optional<double> changedAt;   ///< When its first elements were changed.
    std::optional<double> trueLimitAt; ///< When they truly were at the limit; also beyond the target.
};

/// One stage of a day that is forecast, with other days at the same place.
struct StageCase
{
    StageDay today;
    std::vector<StageDay> others;
};

/// All stages of run `number` of the test set, or of other seeds for trying things out; none if it cannot run.
[[nodiscard]] std::vector<StageCase> stageCases(int number, int otherDays, bool isTestSet);

} // namespace loopside::evaluation
