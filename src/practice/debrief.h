// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What is told after an exercise: what was hidden, when it could first be noticed, what Loopside said and when, what
// the person did and when, which goals were reached, what to take along. It blames nobody and calls nothing safe.

#pragma once

#include "practice/exercise.h"

#include <vector>

namespace loopside::practice {

struct GoalJudged
{
    Goal goal;
    bool isReached;
};

/// Something worth telling of what was done, at its time.
struct DidThen
{
    units::Duration at;
    Message how;
    std::optional<Message> what = {}; ///< Its sentence is the {what} of `how`.
};

struct Debrief
{
    ExerciseAbout about;
    Message hidden;
    Message next;
    std::optional<units::Duration> faultAt;   ///< Nothing where no fault came.
    std::optional<units::Duration> visibleAt; ///< Nothing where nothing was to be noticed.
    std::vector<FoundThen> found;             ///< In the order in which Loopside said it.
    std::vector<DidThen> did;                 ///< In order.
    std::vector<GoalJudged> goals;
    double turnovers = 0.0; ///< Truly through the filters.

    [[nodiscard]] int reached() const;
};

[[nodiscard]] Debrief debriefOf(const Exercise& exercise);

} // namespace loopside::practice
