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
//         have gone through the filters; less the share of the flow that a finding says is lost; less the time
//         around a restart of the device of which only its wall clock tells.
// What somebody confirmed of such a finding (an answer "yes" to its id, of that set) is taken from best, too.

#pragma once

#include "run/judge.h"
#include "run/pace.h"

#include <array>
#include <string_view>
#include <vector>

namespace loopside::run {

/// A time that is not, or not all, credited, and why.
struct CreditCut
{
    RunTime from{0};
    RunTime to{0};
    std::string_view why; ///< One of `cutReasons`, or the id of a finding that takes turnovers.
    double low = 0.0;     ///< Turnovers that the low end leaves out.
    double best = 0.0;    ///< Turnovers that the best value leaves out.
};

inline constexpr std::string_view cutUnwatched = "unwatched";        ///< Over 45 min without an entry.
inline constexpr std::string_view cutLate = "late";                  ///< Longer than the planned interval and 5 min.
inline constexpr std::string_view cutQuestioned = "questioned";      ///< A set that a question holds back.
inline constexpr std::string_view cutAtBypass = "at-bypass-setting"; ///< ΔP at or above the setting of a bypass valve.
inline constexpr std::string_view cutRestarted = "restarted";        ///< Only a wall clock tells of it: run_clock.h.
inline constexpr std::array cutReasons = {cutUnwatched, cutLate, cutQuestioned, cutAtBypass, cutRestarted};

struct Credit
{
    TurnoverBand turnovers;
    units::Volume filtered;           ///< Best value.
    RunTime filtering{0};             ///< Time credited to the best value.
    std::vector<CreditCut> cuts = {}; ///< What the low end leaves out, in order of time; the same reason in one piece.
};

[[nodiscard]] Credit creditOf(const RunState& run, const std::vector<Moment>& moments,
                              const std::vector<std::optional<RunTime>>& due, const std::vector<Question>& questions,
                              const std::vector<JudgedSet>& judged, RunTime now);

} // namespace loopside::run
