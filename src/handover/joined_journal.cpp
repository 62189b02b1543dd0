// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/joined_journal.h"

#include "ledger/hybrid_clock.h"
#include "ledger/kinds.h"
#include "ledger/read_all.h"
#include "ledger/settled.h"
#include "sync/precedence.h"

#include <algorithm>
#include <utility>

namespace loopside::handover {

using ledger::Entry;
using ledger::Position;
using ledger::Stored;
using sync::Held;

namespace {

/// Behind this place stand the entries of others; no journal grows to it.
constexpr Position othersBegin = Position{1} << 62U;

void addSettled(const Entry& entry, std::set<Id>& settled)
{
    if (entry.kind == ledger::aheadSettledKind) {
        if (const auto ids = ledger::settledBy(entry.body)) {
            settled.insert(ids->begin(), ids->end());
        }
    }
}

} // namespace

Done JoinedJournal::show(std::vector<Held> others)
{
    const auto settled = settledAmong(others);
    if (!settled) {
        return fail(settled.error());
    }
    std::vector<Entry> shown;
    std::vector<Entry> unsettled;
    for (Held& held : sync::byPrecedence(std::move(others), *settled)) {
        Entry& entry = held.entry;
        if (held.isAhead && !settled->contains(entry.header.id)) {
            unsettled.push_back(entry);
            entry.header.clock = unsettled.size(); // in front of every clock there is, in their order
        }
        shown.push_back(std::move(entry));
    }
    others_ = std::move(shown);
    unsettled_ = std::move(unsettled);
    return {};
}

/// Goes through the journal only where something waits to be settled, which is rare.
Result<std::set<Id>> JoinedJournal::settledAmong(const std::vector<Held>& others) const
{
    std::set<Id> settled;
    if (std::ranges::none_of(others, &Held::isAhead)) {
        return settled;
    }
    for (const Held& held : others) {
        addSettled(held.entry, settled);
    }
    const Done read = ledger::readLasting(*own_, [&](const Stored& stored) -> Done {
        addSettled(stored.entry, settled);
        return {};
    });
    return read ? Result<std::set<Id>>(std::move(settled)) : fail(read.error());
}

Result<Position> JoinedJournal::append(std::span<const Entry> entries)
{
    return own_->append(entries);
}

Result<std::vector<Stored>> JoinedJournal::read(Position after, std::size_t limit) const
{
    auto own = after < othersBegin ? own_->read(after, limit) : Result<std::vector<Stored>>();
    return own && own->empty() ? othersBehind(after, limit, false) : own;
}

Result<std::vector<Stored>> JoinedJournal::readLasting(Position after, std::size_t limit) const
{
    auto own = after < othersBegin ? own_->readLasting(after, limit) : Result<std::vector<Stored>>();
    return own && own->empty() ? othersBehind(after, limit, true) : own;
}

Result<std::vector<ledger::Listed>> JoinedJournal::listLasting(Position after, std::size_t limit) const
{
    auto listed = after < othersBegin ? own_->listLasting(after, limit) : Result<std::vector<ledger::Listed>>();
    if (listed && listed->empty()) {
        std::ranges::transform(othersBehind(after, limit, true), std::back_inserter(*listed), ledger::listedOf);
    }
    return listed;
}

std::vector<Stored> JoinedJournal::othersBehind(Position after, std::size_t limit, bool onlyLasting) const
{
    std::vector<Stored> found;
    for (std::size_t i = after > othersBegin ? after - othersBegin : 0; i < others_.size() && found.size() < limit;
         ++i) {
        if (!onlyLasting || !ledger::isKindOfMoment(others_[i].kind)) {
            found.push_back({othersBegin + i + 1, others_[i]});
        }
    }
    return found;
}

Result<std::uint64_t> JoinedJournal::latestClock() const
{
    return own_->latestClock().transform([&](std::uint64_t latest) {
        for (const Entry& entry : others_) {
            if (entry.header.clock < ledger::HybridClock::end) {
                latest = std::max(latest, entry.header.clock);
            }
        }
        return latest;
    });
}

} // namespace loopside::handover
