// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How a run stands at one moment: everything that is judged from its facts. Computed afresh, never stored.

#pragma once

#include "run/outlook.h"

#include <optional>
#include <vector>

namespace loopside::run {

/// Points into the run it was computed from.
struct Standing
{
    RunTime now{0};
    std::vector<Moment> moments;
    std::vector<Question> questions;
    Mode mode = Mode::Stopped;
    std::optional<RunTime> due; ///< When the next reading is due; nothing while not filtering or closed. By the
                                ///< schedule (pace.h), or sooner where a limit is near (outlook.h).
    Diagnosis diagnosis;        ///< Set by set, from the gauges alone.
    Credit credit;
    std::vector<Finding> findings;       ///< All that hold at the last good set, ranked.
    std::vector<Finding> ofPast;         ///< Those of them that earlier elements tell (past_finding.h).
    const Moment* lastReading = nullptr; ///< The last set that was not struck, held back or not.
    std::vector<StageDrop> stages;       ///< Of the last set, one per stage; empty before the first.
    std::vector<Outlook> outlooks;       ///< One per stage; empty before the first entry.

    /// From now, at least a minute (contracts: next reading).
    [[nodiscard]] std::optional<RunTime> nextReadingIn() const;
};

/// Everything, forecast and all.
[[nodiscard]] Standing standingOf(const RunState& run, RunTime now);

/// Everything but the forecast, which takes longest: `outlooks` is empty, `due` is the schedule's, and no finding leans
/// on a chance.
[[nodiscard]] Standing standingByGauges(const RunState& run, RunTime now);

/// Before this no forecast asks for a reading, whatever it says.
[[nodiscard]] RunTime earliestDue(const Standing& standing);

/// As much as the alerts of `run` need: with the forecast only where it may have made the next reading overdue before
/// the schedule does. The alerts are those of `standingOf`.
[[nodiscard]] Standing standingForAlerts(const RunState& run, RunTime now);

/// That of `standingOf`, where `earlier` is one of `run` and nothing was said since. What was judged and foreseen then
/// stays as it is and takes no time; what goes with the time is computed.
[[nodiscard]] Standing standingLater(const RunState& run, RunTime now, Standing earlier);

} // namespace loopside::run
