// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// One cleaning that was written down twice: two tablets opened a run each for the same cart on the same tank. A person
// is asked whether they are one; then their turnovers count as the union of time, never the sum.

#pragma once

#include "run/credit.h"
#include "run/state.h"

#include <cstdint>
#include <set>
#include <string_view>
#include <utility>
#include <vector>

namespace loopside::run {

/// Two runs that may be one, the earlier first; ids of the pair in that order.
using RunPair = std::pair<Id, Id>;

/// The pairs of runs on the same cart and tank whose times overlap by the wall clocks of their tablets. An open run
/// lasts until `nowMs` (UTC, milliseconds since 1970). Not practice, nor runs that are put away (put_away.h), whose
/// times are not to be told; nor `answered`, which somebody was asked about (in either order).
[[nodiscard]] std::vector<RunPair> linkProposals(const State& state, const std::set<RunPair>& answered,
                                                 std::int64_t nowMs);

/// A time of which two linked runs say different things. Both stay as their authors wrote them.
struct Disagreement
{
    std::int64_t fromMs = 0;
    std::int64_t toMs = 0;
    Id one = {};
    Id other = {};
    std::string_view what; ///< "mode": one says that the cart was filtering, the other that it was not; "flow".

    friend bool operator==(const Disagreement&, const Disagreement&) = default;
};

struct LinkedCredit
{
    TurnoverBand turnovers;
    std::vector<Disagreement> disagreements = {}; ///< In order of time.
};

/// What linked runs, none of them put away (put_away.h), come to as one at `nowMs`: at each moment the most that one of
/// them credits (credit.h). Where one says "filtering" and the other that it was not, the low end has nothing; where
/// they name two flows, no more than the lower one. Times are those of the tablets' wall clocks. What a run leaves out
/// of a stretch of time is spread evenly over it.
[[nodiscard]] LinkedCredit linkedCredit(const std::vector<const RunState*>& runs, std::int64_t nowMs);

} // namespace loopside::run
