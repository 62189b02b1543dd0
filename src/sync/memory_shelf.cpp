// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/memory_shelf.h"

#include <algorithm>
#include <iterator>

namespace loopside::sync {

using ledger::Entry;
using ledger::Loss;

namespace {

/// Whether `later` can stand behind `earlier` in a chain, right behind it or not.
bool mayStandBehind(const Entry& later, const Entry& earlier)
{
    const bool isNext = later.header.sequence == earlier.header.sequence + 1;
    return later.header.device == earlier.header.device && later.header.clock > earlier.header.clock
        && (!isNext || later.previous == earlier.hash);
}

bool isAside(const std::vector<Entry>& asides, const ledger::Hash& hash)
{
    return std::ranges::find(asides, hash, &Entry::hash) != asides.end();
}

/// Whether `losses` tells that everything is gone between `last` and `entry`.
bool isLost(const Entry& entry, std::uint64_t last, std::span<const Loss> losses)
{
    return std::ranges::any_of(losses, [&](const Loss& loss) {
        return loss.chain == entry.chain && loss.after <= last && loss.before == entry.header.sequence;
    });
}

} // namespace

Result<std::vector<Put>> MemoryShelf::put(std::span<const Held> entries, std::span<const Loss> losses)
{
    std::vector<Put> outcomes;
    for (const Held& held : entries) {
        outcomes.push_back(putOne(held, losses));
    }
    return outcomes;
}

Put MemoryShelf::putOne(const Held& held, std::span<const Loss> losses)
{
    const Entry& entry = held.entry;
    const auto known = chains_.find(entry.chain);
    Chain none;
    const Chain& chain = known == chains_.end() ? none : known->second;
    const auto there = chain.places.find(entry.header.sequence);
    if (there != chain.places.end() && there->second.entry.hash == entry.hash) {
        return Put::Same;
    }
    if (isAside(chain.asides, entry.hash)) {
        return Put::Conflict;
    }
    if (isGap(chain, entry, losses)) {
        return Put::Gap;
    }
    const auto next = chain.places.upper_bound(entry.header.sequence);
    const bool fitsNext = next == chain.places.end() || mayStandBehind(next->second.entry, entry);
    const auto first = chain.places.lower_bound(entry.header.sequence);
    const bool fitsLast = first == chain.places.begin() || mayStandBehind(entry, std::prev(first)->second.entry);
    const bool followsAside = isAside(chain.asides, entry.previous);
    Chain& written = chains_[entry.chain];
    if (there != chain.places.end() || followsAside || !fitsNext || !fitsLast) {
        written.asides.push_back(entry);
        return Put::Conflict;
    }
    written.places.emplace(entry.header.sequence, held);
    return Put::Created;
}

/// Behind what `entry` was made is not known here, and nobody tells that it is lost.
bool MemoryShelf::isGap(const Chain& chain, const Entry& entry, std::span<const Loss> losses) const
{
    const std::uint64_t sequence = entry.header.sequence;
    if (keeps_ == Keeps::Singly || sequence == 1) {
        return false;
    }
    const auto place = chain.places.lower_bound(sequence);
    const std::uint64_t last = place == chain.places.begin() ? 0 : std::prev(place)->first;
    if (last + 1 == sequence && std::prev(place)->second.entry.hash == entry.previous) {
        return false;
    }
    const bool fillsLoss = place != chain.places.end() && place->second.entry.previous == entry.hash;
    return !isAside(chain.asides, entry.previous) && !fillsLoss && !isLost(entry, last, losses);
}

Result<std::optional<Held>> MemoryShelf::at(const Id& chain, std::uint64_t sequence) const
{
    const auto known = chains_.find(chain);
    if (known == chains_.end()) {
        return std::nullopt;
    }
    const auto there = known->second.places.find(sequence);
    return there == known->second.places.end() ? std::nullopt : std::optional(there->second);
}

Result<std::vector<Held>> MemoryShelf::behind(const Id& chain, std::uint64_t after, std::size_t most) const
{
    std::vector<Held> found;
    const auto known = chains_.find(chain);
    if (known == chains_.end()) {
        return found;
    }
    for (auto next = known->second.places.upper_bound(after); next != known->second.places.end() && found.size() < most;
         ++next) {
        found.push_back(next->second);
    }
    return found;
}

Result<std::vector<Tip>> MemoryShelf::tips() const
{
    std::vector<Tip> tips;
    for (const auto& [id, chain] : chains_) {
        if (const auto last = tip(id)) {
            tips.push_back(*last);
        }
    }
    return tips;
}

std::optional<Tip> MemoryShelf::tip(const Id& chain) const
{
    const auto known = chains_.find(chain);
    if (known == chains_.end() || known->second.places.empty()) {
        return std::nullopt;
    }
    const Entry& last = known->second.places.rbegin()->second.entry;
    return Tip{last.header.device, chain, last.header.sequence, last.hash};
}

std::vector<Loss> MemoryShelf::gapsOf(const Id& chain) const
{
    std::vector<Loss> gaps;
    const auto known = chains_.find(chain);
    if (known == chains_.end()) {
        return gaps;
    }
    std::uint64_t last = 0;
    for (const auto& [sequence, held] : known->second.places) {
        if (sequence != last + 1) {
            gaps.push_back({chain, last, sequence});
        }
        last = sequence;
    }
    return gaps;
}

Result<std::vector<Entry>> MemoryShelf::asides(const Id& chain) const
{
    const auto known = chains_.find(chain);
    return known == chains_.end() ? std::vector<Entry>() : known->second.asides;
}

} // namespace loopside::sync
