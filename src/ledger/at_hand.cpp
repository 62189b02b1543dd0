// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/at_hand.h"

#include "ledger/kinds.h"
#include "ledger/read_all.h"
#include "run/put_away.h"

#include <algorithm>
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

/// Of the entries that are seen, in the order of the journal, where those of runs that are not over and of no run
/// stand.
class LastingOfOpen
{
public:
    void see(const Listed& listed)
    {
        if (listed.kind == runClosedKind) {
            over_.insert(listed.run);
            places_.erase(listed.run);
        } else if (!over_.contains(listed.run)) {
            places_[listed.run].push_back(listed.position);
        }
    }

    [[nodiscard]] std::vector<Position> inOrder() const
    {
        std::vector<Position> all;
        for (const auto& [run, places] : places_) {
            all.insert(all.end(), places.begin(), places.end());
        }
        std::ranges::sort(all);
        return all;
    }

private:
    std::set<Id> over_;
    std::map<Id, std::vector<Position>> places_; ///< By run; those of no run under none.
};

/// Gives to `take` the entries of `journal` that stand at `places`.
Done readAt(const Journal& journal, const std::vector<Position>& places, const Take& take)
{
    for (const Position place : places) {
        const auto found = journal.read(place - 1, 1);
        if (!found) {
            return fail(found.error());
        }
        if (found->empty() || found->front().position != place) {
            return fail(Errc::Corrupt, "The journal lists an entry that is not there. What is there is kept.");
        }
        if (Done taken = take(found->front()); !taken) {
            return taken;
        }
    }
    return {};
}

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
                              const std::function<void(const Listed&)>& see)
{
    RunsAtHand runs;
    std::map<Id, Position> began; // of each device its first entry
    std::map<Id, std::pair<Id, Position>> openedBy;
    const Done read = listLasting(journal, [&](const Listed& listed) {
        see(listed);
        began.try_emplace(listed.device, listed.position);
        if (listed.kind == runOpenedKind) {
            runs.opened.try_emplace(listed.run, listed.position - 1);
            openedBy.try_emplace(listed.run, listed.device, listed.position);
            runs.open.insert(listed.run);
        } else if (listed.kind == runClosedKind && runs.open.erase(listed.run) > 0) {
            runs.closed.push_back(listed.run);
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
    auto runs = runsAtHand(journal, 0, [&](const Listed& listed) { lasting.see(listed); });
    const std::vector<Position> kept = lasting.inOrder();
    const auto readKept = [&](const Take& take) { return readAt(journal, kept, take); };
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
