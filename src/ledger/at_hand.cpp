// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/at_hand.h"

#include "ledger/kinds.h"
#include "ledger/read_all.h"
#include "run/put_away.h"

#include <algorithm>
#include <limits>

namespace loopside::ledger {

namespace {

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

} // namespace

bool RunsAtHand::isWhole(const Id& run) const
{
    return open.contains(run) || std::ranges::find(closed, run) != closed.end();
}

Result<RunsAtHand> runsAtHand(const Journal& journal, std::size_t closedMost)
{
    RunsAtHand runs;
    std::map<Id, Position> began; // of each device its first entry
    std::map<Id, std::pair<Id, Position>> openedBy;
    const Done read = readLasting(journal, [&](const Stored& stored) {
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

Done readAtHand(const Journal& journal, const RunsAtHand& runs, const std::function<Done(const Stored&)>& take)
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
    const Done read = readLasting(journal, [&](const Stored& stored) {
        const Done before = takeMomentsBefore(stored.position);
        return before ? take(stored) : before;
    });
    return read ? takeMomentsBefore(std::numeric_limits<Position>::max()) : read;
}

} // namespace loopside::ledger
