// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/memory_journal.h"

#include <algorithm>
#include <ranges>

namespace loopside::ledger {

Result<Position> MemoryJournal::append(std::span<const Entry> entries)
{
    const std::size_t before = entries_.size();
    for (const Entry& entry : entries) {
        if (const Done added = add(entry); !added) {
            shrinkTo(before);
            return fail(added.error());
        }
    }
    return Position{entries_.size()};
}

Done MemoryJournal::add(const Entry& entry)
{
    std::optional<ChainTip> tip;
    if (const Entry* last = lastOf(entry.chain)) {
        tip = ChainTip{last->header.device, last->header.sequence, last->header.clock, last->hash};
    }
    if (Done follows = mayFollow(entry, tip); !follows) {
        return follows;
    }
    if (!ids_.insert(entry.header.id).second) {
        return fail(Errc::Conflict, "an entry with the id " + toText(entry.header.id) + " is already there");
    }
    chains_[entry.chain].push_back(entries_.size());
    entries_.push_back(entry);
    return {};
}

Result<std::vector<Stored>> MemoryJournal::read(Position after, std::size_t limit) const
{
    std::vector<Stored> stored;
    for (std::size_t i = after; i < entries_.size() && stored.size() < limit; ++i) {
        stored.push_back({i + 1, entries_[i]});
    }
    return stored;
}

Result<std::optional<ChainHead>> MemoryJournal::head(const Id& device) const
{
    const auto backwards = std::views::reverse(entries_);
    const auto opening = std::ranges::find_if(
        backwards, [&](const Entry& entry) { return entry.header.device == device && entry.header.sequence == 1; });
    if (opening == backwards.end()) {
        return std::nullopt;
    }
    const Result<ChainOpening> opened = chainOpeningFrom(opening->body);
    if (!opened) {
        return fail(opened.error());
    }
    const Entry& last = *lastOf(opening->chain);
    return ChainHead{device, last.chain, last.header.sequence, last.hash, last.header.clock, opened->publicKey};
}

const Entry* MemoryJournal::lastOf(const Id& chain) const
{
    const auto found = chains_.find(chain);
    return found == chains_.end() ? nullptr : &entries_[found->second.back()];
}

void MemoryJournal::shrinkTo(std::size_t count)
{
    while (entries_.size() > count) {
        const Entry& last = entries_.back();
        ids_.erase(last.header.id);
        const auto chain = chains_.find(last.chain);
        chain->second.pop_back();
        if (chain->second.empty()) {
            chains_.erase(chain);
        }
        entries_.pop_back();
    }
}

} // namespace loopside::ledger
