// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/gathered.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <ranges>
#include <set>
#include <tuple>
#include <utility>

namespace loopside::store {

using ledger::PublicKey;

namespace {

bool isSignedBy(const Gathered::Found& found, const PublicKey& signer)
{
    ledger::Entry stated; // what is signed is the hash
    stated.hash = found.hash;
    stated.signature = found.signature;
    return ledger::isSignedBy(stated, signer);
}

} // namespace

void Gathered::add(const ledger::Entry& entry, std::size_t source)
{
    const run::Header& header = entry.header;
    if (header.sequence == 0) {
        return;
    }
    if (entry.kind == ledger::chainOpenedKind) {
        if (const auto opening = ledger::chainOpeningFrom(entry.body)) {
            openings_.emplace(entry.hash, *opening);
        }
    }
    Writings& writings = chains_[entry.chain][header.sequence];
    // Two with one hash may differ in their signature, and one of these is spoilt.
    const auto same = std::ranges::find_if(
        writings, [&](const Found& found) { return found.hash == entry.hash && found.signature == entry.signature; });
    if (same == writings.end()) {
        writings.push_back({entry.hash, entry.previous, entry.signature, header.sequence, header.clock, header.device,
                            entry.chain, source});
    }
}

/// The key of the chain that `opening` opens, if it opens one and is signed by it.
std::optional<PublicKey> Gathered::keyOf(const Found& opening) const
{
    const auto opened = openings_.find(opening.hash);
    const bool isOpening = opened != openings_.end() && opened->second.device == opening.device
        && isSignedBy(opening, opened->second.publicKey);
    return isOpening ? std::optional(opened->second.publicKey) : std::nullopt;
}

/// From the end to the beginning, so that each entry says which one stood before it.
std::vector<Gathered::Found> Gathered::chosenOf(Chain chain) const
{
    std::optional<PublicKey> key;
    if (const auto first = chain.find(1); first != chain.end()) {
        std::erase_if(first->second, [&](const Found& found) { return !keyOf(found); });
        key = first->second.empty() ? std::nullopt : keyOf(first->second.front());
    }
    std::vector<Found> chosen;
    for (auto& [sequence, writings] : std::views::reverse(chain)) {
        const Found* next = chosen.empty() ? nullptr : &chosen.back();
        const bool isNext = next != nullptr && next->sequence == sequence + 1;
        std::erase_if(writings, [&](const Found& found) {
            return (key && !isSignedBy(found, *key)) || (isNext && found.hash != next->previous)
                || (next != nullptr && (found.clock >= next->clock || found.device != next->device));
        });
        const auto youngest = std::ranges::max_element(writings, {}, &Found::clock);
        if (youngest != writings.end()) {
            chosen.push_back(*youngest);
        }
    }
    std::ranges::reverse(chosen);
    return chosen;
}

std::vector<ledger::Loss> Gathered::endsMissing(const std::vector<Found>& all) const
{
    std::set<std::pair<Id, ledger::Hash>> named;
    std::map<Id, std::uint64_t> lasts;
    for (const Found& found : all) {
        std::uint64_t& last = lasts[found.chain];
        last = std::max(last, found.sequence);
        const auto opened = openings_.find(found.hash);
        if (opened != openings_.end() && opened->second.parent) {
            named.emplace(opened->second.parent->chain, opened->second.parent->last);
        }
    }
    std::erase_if(named, [&](const auto& parent) {
        return std::ranges::any_of(
            all, [&](const Found& found) { return found.chain == parent.first && found.hash == parent.second; });
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
    Settled settled;
    std::vector<Found>& all = settled.entries;
    for (auto& [id, chain] : chains_) {
        const std::vector<Found> chosen = chosenOf(std::move(chain));
        std::uint64_t last = 0;
        for (const Found& found : chosen) {
            if (found.sequence != last + 1) {
                settled.losses.push_back({id, last, found.sequence});
            }
            last = found.sequence;
        }
        std::ranges::copy(chosen, std::back_inserter(all));
    }
    std::ranges::copy(endsMissing(all), std::back_inserter(settled.losses));
    // As run::foldsBefore has it.
    std::ranges::sort(all, {},
                      [](const Found& found) { return std::tuple(found.clock, found.device, found.sequence); });
    return settled;
}

} // namespace loopside::store
