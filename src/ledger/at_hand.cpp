// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/at_hand.h"

#include "ledger/kinds.h"
#include "ledger/read_all.h"
#include "run/put_away.h"

#include <algorithm>
#include <iterator>
#include <limits>
#include <vector>

namespace loopside::ledger {

namespace {

using Take = std::function<Done(const Stored&)>;

constexpr std::string_view runOpenedKind = "run-opened";
constexpr std::string_view runClosedKind = "run-closed";

/// Behind which entry all entries of the runs at hand stand.
Position beginOf(const RunsAtHand& runs)
{
    Position begin = std::numeric_limits<Position>::max();
    for (const auto& [run, opened] : runs.opened) {
        begin = runs.isWhole(run) ? std::min(begin, opened) : begin;
    }
    return begin;
}

/// Of the entries that are seen, in the order of the journal, those of runs that are not over and of no run.
class LastingOfOpen
{
public:
    void see(const Stored& stored)
    {
        const Id& run = stored.entry.header.run;
        if (stored.entry.kind == runClosedKind) {
            over_.insert(run);
            entries_.erase(run);
        } else if (!over_.contains(run)) {
            entries_[run].push_back(stored);
        }
    }

    [[nodiscard]] std::vector<Stored> inOrder() &&
    {
        std::vector<Stored> all;
        for (auto& [run, entries] : entries_) {
            all.insert(all.end(), std::make_move_iterator(entries.begin()), std::make_move_iterator(entries.end()));
        }
        std::ranges::sort(all, {}, &Stored::position);
        return all;
    }

private:
    std::set<Id> over_;
    std::map<Id, std::vector<Stored>> entries_; ///< By run; those of no run under none.
};

/// Gives to `take`, in the order of `journal`, what `readLasting` gives and what is of a moment of a run at hand.
Done readWithMoments(const Journal& journal, const RunsAtHand& runs,
                     const std::function<Done(const Take&)>& readLasting, const Take& take)
{
    std::deque<Stored> moments;
    const Done gathered = readBehind(journal, beginOf(runs), [&](const Stored& stored) {
        if (isKindOfMoment(stored.entry.kind) && runs.isWhole(stored.entry.header.run)) {
            moments.push_back(stored);
        }
        return Done{};
    });
    if (!gathered) {
        return gathered;
    }
    const auto takeMomentsBefore = [&](Position end) {
        Done taken;
        while (taken && !moments.empty() && moments.front().position < end) {
            taken = take(moments.front());
            moments.pop_front();
        }
        return taken;
    };
    const Done read = readLasting([&](const Stored& stored) {
        const Done before = takeMomentsBefore(stored.position);
        return before ? take(stored) : before;
    });
    return read ? takeMomentsBefore(std::numeric_limits<Position>::max()) : read;
}

} // namespace

bool RunsAtHand::isWhole(const Id& run) const
{
    return open.contains(run) || std::ranges::find(closed, run) != closed.end();
}

Result<RunsAtHand> runsAtHand(const Journal& journal, std::size_t closedMost,
                              const std::function<void(const Stored&)>& see)
{
    RunsAtHand runs;
    std::map<Id, Position> began; // of each device its first entry
    std::map<Id, std::pair<Id, Position>> openedBy;
    const Done read = readLasting(journal, [&](const Stored& stored) {
        see(stored);
        const run::Header& header = stored.entry.header;
        began.try_emplace(header.device, stored.position);
        if (stored.entry.kind == runOpenedKind) {
            runs.opened.try_emplace(header.run, stored.position - 1);
            openedBy.try_emplace(header.run, header.device, stored.position);
            runs.open.insert(header.run);
        } else if (stored.entry.kind == runClosedKind && runs.open.erase(header.run) > 0) {
            runs.closed.push_back(header.run);
        }
        return Done{};
    });
    if (!read) {
        return fail(read.error());
    }
    for (const auto& [run, opening] : openedBy) { // what another device said of a run may stand before its opening
        const auto& [device, position] = opening;
        const bool mayBeBefore = std::ranges::any_of(
            began, [&](const auto& other) { return other.first != device && other.second < position; });
        if (mayBeBefore) {
            runs.opened[run] = 0;
        }
    }
    while (runs.closed.size() > closedMost) {
        runs.closed.pop_front();
    }
    return runs;
}

Result<FoldedAtHand> foldAtHand(const Journal& journal)
{
    auto runs = runsAtHand(journal, run::closedRunsAtHand);
    auto folded = runs ? fold([&](const auto& take) { return readAtHand(journal, *runs, take); }) : fail(runs.error());
    if (!folded) {
        return fail(folded.error());
    }
    for (auto& [id, run] : folded->state.runs) {
        if (!runs->isWhole(id)) {
            run::putAway(run);
        }
    }
    return FoldedAtHand{*std::move(runs), *std::move(folded)};
}

Result<FoldedAtHand> foldOpen(const Journal& journal)
{
    LastingOfOpen lasting;
    auto runs = runsAtHand(journal, 0, [&](const Stored& stored) { lasting.see(stored); });
    const std::vector<Stored> kept = std::move(lasting).inOrder();
    const auto readKept = [&](const Take& take) {
        for (const Stored& stored : kept) {
            if (Done taken = take(stored); !taken) {
                return taken;
            }
        }
        return Done{};
    };
    auto folded = runs ? fold([&](const Take& take) { return readWithMoments(journal, *runs, readKept, take); })
                       : fail(runs.error());
    return folded ? Result<FoldedAtHand>(FoldedAtHand{*std::move(runs), *std::move(folded)}) : fail(folded.error());
}

Done readAtHand(const Journal& journal, const RunsAtHand& runs, const std::function<Done(const Stored&)>& take)
{
    return readWithMoments(
        journal, runs, [&](const Take& takeLasting) { return readLasting(journal, takeLasting); }, take);
}

} // namespace loopside::ledger
