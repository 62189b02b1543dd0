// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Reading no more of a journal than a tablet needs to begin its shift: what is lasting, and of the runs that are open
// or were closed last, everything.

#pragma once

#include "ledger/fold.h"

#include <deque>
#include <functional>
#include <map>
#include <set>

namespace loopside::ledger {

/// Which runs of a journal are read whole.
struct RunsAtHand
{
    std::map<Id, Position> opened; ///< Every run of the journal, and behind which entry its entries stand.
    std::deque<Id> closed;         ///< Of those that are over the last ones, the earliest first.
    std::set<Id> open;

    [[nodiscard]] bool isWhole(const Id& run) const;
};

/// At most `closedMost` of the closed runs are at hand. Shows to `see` what all that is lasting is of, and takes a time
/// in proportion to that.
[[nodiscard]] Result<RunsAtHand> runsAtHand(
    const Journal& journal, std::size_t closedMost,
    const std::function<void(const Listed&)>& see = [](const Listed&) {});

/// What a tablet works with: everything that is lasting and the runs at hand whole, the other runs put away.
struct FoldedAtHand
{
    RunsAtHand runs;
    Folded folded;
};

/// Folds what of `journal` is at hand; `latest` is not known from that alone. Corrupt if an entry's body does not fit
/// its kind.
[[nodiscard]] Result<FoldedAtHand> foldAtHand(const Journal& journal);

/// Folds of `journal` the runs that are open and all that is of no run: in a tenth of the time, what a tablet shows
/// first. Of the runs that are over, and of what carts and stock owe to them, nothing is known; `latest` is not either.
[[nodiscard]] Result<FoldedAtHand> foldOpen(const Journal& journal);

/// Gives to `take`, in the order of `journal`, what is lasting and what is of a moment of a run that is at hand.
[[nodiscard]] Done readAtHand(const Journal& journal, const RunsAtHand& runs,
                              const std::function<Done(const Stored&)>& take);

} // namespace loopside::ledger
