// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What became of the alerts of a run, one line for each time that one was raised, and what they asked of the person at
// the cart. Computed from the facts, never stored.

#pragma once

#include "run/alert.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace loopside::run {

/// One raising of an alert and how it went on.
struct AlertLine
{
    AlertId alert = AlertId::StageAtLimit;
    std::optional<int> stage = {};
    RunTime raised{0};
    std::optional<RunTime> acknowledged = {}; ///< First time.
    Id acknowledgedBy = {};                   ///< A person.
    std::string why = {};                     ///< Said with the acknowledgement or when it was shelved last.
    std::optional<RunTime> returned = {};     ///< When its ground went away.
    int shelvedTimes = 0;
    bool isReplaced = false; ///< It was raised again, or a worse one took its place, before it returned.
    std::vector<Message::Argument> told = {};

    [[nodiscard]] bool stands() const { return !returned && !isReplaced; }
};

/// In the order of raising.
[[nodiscard]] std::vector<AlertLine> alertLogOf(const RunState& run);

/// Figures as ANSI/ISA-18.2-2016 clause 16.4 has them (tables 5 and 6: about 6 an hour are very likely acceptable, 12
/// an hour the most that can be managed, more than 10 in 10 min are a flood).
struct AlertMetrics
{
    int raised = 0;
    std::array<int, 3> byPriority = {};          ///< In the order of `Priority`.
    int standing = 0;                            ///< Neither returned nor replaced.
    double perHour = 0.0;                        ///< Over the time the run was open, at least an hour.
    int mostInTenMinutes = 0;                    ///< In any ten minutes.
    int minutesOpen = 0;                         ///< Whole ones.
    std::optional<RunTime> longestStanding = {}; ///< Of those that stand, for how long by now.

    /// Whether there was an hour to count over; before that `raised` in `minutesOpen` is all that can be told.
    [[nodiscard]] bool isRate() const { return minutesOpen >= 60; }
    [[nodiscard]] bool isFlood() const { return mostInTenMinutes > 10; }
};

/// At `now`, or at the close of a run that is closed.
[[nodiscard]] AlertMetrics alertMetrics(const RunState& run, RunTime now);

} // namespace loopside::run
