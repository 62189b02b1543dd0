// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/standing.h"

#include <algorithm>

namespace loopside::run {

std::optional<RunTime> Standing::nextReadingIn() const
{
    return due ? std::optional(std::max(leastInterval, *due - now)) : std::nullopt;
}

Standing standingOf(const RunState& run, RunTime now)
{
    Standing standing;
    standing.now = now;
    standing.moments = timelineOf(run);
    standing.questions = questionsIn(standing.moments, run);
    const auto due = dueTimes(standing.moments, run.setup, standing.questions);
    standing.credit = creditOf(run, standing.moments, due, standing.questions, now);
    if (!standing.moments.empty()) {
        standing.mode = standing.moments.back().mode;
        standing.due = run.phase == Phase::Closed ? std::nullopt : due.back();
    }
    const auto last = std::find_if(standing.moments.rbegin(), standing.moments.rend(),
                                   [](const Moment& moment) { return moment.reading != nullptr; });
    if (last != standing.moments.rend()) {
        standing.lastReading = &*last;
        standing.stages = dropsAt(*last, standing.moments, run);
    }
    return standing;
}

} // namespace loopside::run
