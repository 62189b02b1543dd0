// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/memory_shelf.h"

#include <algorithm>
#include <iterator>

namespace loopside::sync {

using ledger::Entry;
using ledger::Loss;

namespace {

bool isAside(const std::vector<Entry>& asides, const ledger::Hash& hash)
{
    return std::ranges::find(asides, hash, &Entry::hash) != asides.end();
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
    const Surroundings around = known == chains_.end() ? Surroundings() : surroundingsOf(known->second, entry);
    const Put outcome = keeps_ == Keeps::Singly ? singlePlacingOf(entry, around) : placingOf(entry, around, losses);
    if (outcome == Put::Created) {
        chains_[entry.chain].places.emplace(entry.header.sequence, held);
    } else if (outcome == Put::Conflict && !around.isAside) {
        chains_[entry.chain].asides.push_back(entry);
    }
    return outcome;
}

Surroundings MemoryShelf::surroundingsOf(const Chain& chain, const Entry& entry)
{
    Surroundings around;
    const auto there = chain.places.lower_bound(entry.header.sequence);
    const auto next = chain.places.upper_bound(entry.header.sequence);
    if (there != chain.places.begin()) {
        around.before = placedOf(std::prev(there)->second.entry);
    }
    if (there != next) {
        around.there = placedOf(there->second.entry);
    }
    if (next != chain.places.end()) {
        around.next = placedOf(next->second.entry);
    }
    around.isAside = isAside(chain.asides, entry.hash);
    around.followsAside = isAside(chain.asides, entry.previous);
    return around;
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

std::vector<Held> MemoryShelf::ofRun(const Id& run) const
{
    std::vector<Held> found;
    for (const auto& [id, chain] : chains_) {
        for (const auto& [sequence, held] : chain.places) {
            if (held.entry.header.run == run) {
                found.push_back(held);
            }
        }
    }
    return found;
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
