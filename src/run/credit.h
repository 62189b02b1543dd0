// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How many turnovers really went through the filters, as a band.
//
// Time is cut at every entry; only filtering counts, at the flow stated with the entry that begins the piece, else the
// rated flow. After a stop or the close nothing is credited.
//   high: all of it.
//   best: all, except a piece of more than 45 min without an entry, until somebody says that it was filtering; and
//         nothing after the last entry.
//   low:  best, less any piece longer than the planned interval and 5 min (even if somebody said that it was filtering:
//         stated, not observed), less the time from the last good to the next good reading around a set that is
//         questioned, whose ΔP stands at or above a bypass setting, or of which a finding says that the oil may not
//         have gone through the filters; less the share of the flow that a finding says is lost.
// What somebody confirmed of such a finding (an answer "yes" to its id, of that set) is taken from best, too.

#pragma once

#include "run/judge.h"
#include "run/pace.h"

namespace loopside::run {

struct Credit
{
    TurnoverBand turnovers;
    units::Volume filtered; ///< Best value.
    RunTime filtering{0};   ///< Time credited to the best value.
};

[[nodiscard]] Credit creditOf(const RunState& run, const std::vector<Moment>& moments,
                              const std::vector<std::optional<RunTime>>& due, const std::vector<Question>& questions,
                              const std::vector<JudgedSet>& judged, RunTime now);

} // namespace loopside::run
