// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The twelve exercises: what is known, what is hidden, and what a good technician would do. Each is drawn from a seed,
// so that it is not the same twice: tank, dials, where the fault sits, when it comes and how large it is.
//
// All numbers are our choice, after what the simulator's faults look like on three gauges: runs of three quarters of an
// hour, faults that show on the dials by more than a division and a half.

#pragma once

#include "practice/opinion.h"
#include "practice/scenario.h"

#include <span>
#include <vector>

namespace loopside::practice {

enum class Level : std::uint8_t
{
    Easy,
    Medium,
    Hard
};

[[nodiscard]] std::string_view nameOf(Level level);

struct ExerciseAbout
{
    int number;          ///< From 1.
    std::string_view id; ///< Such as "cold-morning"; its sentences are practice.<id>.*.
    Level level;
};

inline constexpr int exerciseCount = 12;

/// From easy to hard.
[[nodiscard]] std::span<const ExerciseAbout> exerciseList();

/// What a good technician does. How each is judged stands in debrief.cpp.
enum class Goal : std::uint8_t
{
    PumpOffCheck,     ///< Read the gauges once before the pump ran.
    ReadEarly,        ///< Read a set soon after filtering began.
    KeptReading,      ///< Left no long time unread.
    NoNeedlessChange, ///< Changed no elements that had not to be changed.
    ChangedInTime,    ///< Changed all elements of the stage near its limit, not long after.
    ChangedStage,     ///< Changed all elements of the stage after what happened to it.
    ReadAfterChange,  ///< Read a set soon after each changeover.
    Said,             ///< Said what it was.
    NoFalseAlarm,     ///< Named no fault where there was none.
    Stopped,          ///< Stopped the pump before long.
    PutRight,         ///< Found the cause and put it right.
    Waited,           ///< Did not filter on above a change limit.
    TypedSwing,       ///< Typed a swinging needle as swinging.
    Sample,           ///< Took a sample while the oil circulated.
    ReachedTarget     ///< Stopped at the target in turnovers, not before.
};

[[nodiscard]] std::string_view nameOf(Goal goal);

/// An exercise, drawn.
struct ExercisePlan
{
    /// When the hidden fault comes.
    enum class Comes : std::uint8_t
    {
        Never,
        FromStart,
        AfterFiltering, ///< After `after` of filtering as told.
        WithChange      ///< When the elements of the fault's stage are changed.
    };

    ExerciseAbout about;
    Scenario scenario; ///< Its own list of faults is empty.
    std::optional<Fault> fault = {};
    Comes comes = Comes::Never;
    units::Duration after = {};
    std::vector<int> stagesToChange = {};
    int changesEach = 1;             ///< How often at most.
    std::vector<Opinion> right = {}; ///< Any of them is right.
    std::vector<Goal> goals = {};
    Message hidden = {}; ///< What was hidden, to be told afterwards.
    Message next = {};   ///< What to take along.
};

/// The exercise of that number, which is from 1 to `exerciseCount`.
[[nodiscard]] ExercisePlan drawExercise(int number, std::uint64_t seed);

} // namespace loopside::practice
