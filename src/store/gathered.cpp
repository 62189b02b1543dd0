// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/gathered.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <ranges>
#include <set>
#include <utility>

namespace loopside::store {

using ledger::Entry;
using ledger::PublicKey;

namespace {

/// The key of the chain that `opening` opens, if it opens one and is signed by it.
std::optional<PublicKey> keyOf(const Entry& opening)
{
    const auto opened = ledger::chainOpeningFrom(opening.body);
    const bool isOpening = opened && opening.kind == ledger::chainOpenedKind && opened->device == opening.header.device
        && isSignedBy(opening, opened->publicKey);
    return isOpening ? std::optional(opened->publicKey) : std::nullopt;
}

} // namespace

void Gathered::add(Entry entry, std::size_t source)
{
    if (entry.header.sequence == 0) {
        return;
    }
    Writings& writings = chains_[entry.chain][entry.header.sequence];
    // Whole: two with one hash may differ in their signature, and one of these is spoilt.
    const auto same = std::ranges::find_if(writings, [&](const Found& found) { return found.entry == entry; });
    if (same == writings.end()) {
        writings.push_back({std::move(entry), source});
    }
}

/// From the end to the beginning, so that each entry says which one stood before it.
std::vector<Gathered::Found> Gathered::chosenOf(Chain chain)
{
    std::optional<PublicKey> key;
    if (const auto first = chain.find(1); first != chain.end()) {
        std::erase_if(first->second, [](const Found& found) { return !keyOf(found.entry); });
        key = first->second.empty() ? std::nullopt : keyOf(first->second.front().entry);
    }
    std::vector<Found> chosen;
    for (auto& [sequence, writings] : std::views::reverse(chain)) {
        const Entry* next = chosen.empty() ? nullptr : &chosen.back().entry;
        const bool isNext = next != nullptr && next->header.sequence == sequence + 1;
        std::erase_if(writings, [&](const Found& found) {
            return (key && !isSignedBy(found.entry, *key)) || (isNext && found.entry.hash != next->previous)
                || (next != nullptr
                    && (found.entry.header.clock >= next->header.clock
                        || found.entry.header.device != next->header.device));
        });
        const auto youngest = std::ranges::max_element(writings, {},
                                                       [](const Found& found) { return found.entry.header.clock; });
        if (youngest != writings.end()) {
            chosen.push_back(std::move(*youngest));
        }
    }
    std::ranges::reverse(chosen);
    return chosen;
}

std::vector<ledger::Loss> Gathered::endsMissing(const std::vector<Found>& all)
{
    std::set<std::pair<Id, ledger::Hash>> named;
    std::map<Id, std::uint64_t> lasts;
    for (const Found& found : all) {
        std::uint64_t& last = lasts[found.entry.chain];
        last = std::max(last, found.entry.header.sequence);
        const auto opened = found.entry.kind == ledger::chainOpenedKind
            ? ledger::chainOpeningFrom(found.entry.body)
            : Result<ledger::ChainOpening>(fail(Errc::NotFound, ""));
        if (opened && opened->parent) {
            named.emplace(opened->parent->chain, opened->parent->last);
        }
    }
    std::erase_if(named, [&](const auto& parent) {
        return std::ranges::any_of(all, [&](const Found& found) {
            return found.entry.chain == parent.first && found.entry.hash == parent.second;
        });
    });
    std::vector<ledger::Loss> losses;
    for (const auto& [chain, last] : named) {
        const ledger::Loss loss{chain, lasts[chain], lasts[chain] + 2};
        if (losses.empty() || losses.back() != loss) { // two that go on from one chain tell of one end
            losses.push_back(loss);
        }
    }
    return losses;
}

Gathered::Settled Gathered::settle() &&
{
    std::vector<Found> all;
    Settled settled;
    for (auto& [id, chain] : chains_) {
        std::vector<Found> chosen = chosenOf(std::move(chain));
        std::uint64_t last = 0;
        for (const Found& found : chosen) {
            if (found.entry.header.sequence != last + 1) {
                settled.losses.push_back({id, last, found.entry.header.sequence});
            }
            last = found.entry.header.sequence;
        }
        std::ranges::move(chosen, std::back_inserter(all));
    }
    std::ranges::copy(endsMissing(all), std::back_inserter(settled.losses));
    std::ranges::sort(all, [](const Found& a, const Found& b) { return foldsBefore(a.entry.header, b.entry.header); });
    for (Found& found : all) {
        settled.entries.push_back(std::move(found.entry));
        settled.sources.push_back(found.source);
    }
    return settled;
}

} // namespace loopside::store
