// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/verify.h"

#include "base/text.h"

#include <algorithm>
#include <limits>
#include <utility>

namespace loopside::ledger {

void Verifier::take(const Stored& stored)
{
    const Entry& entry = stored.entry;
    checkPosition(stored);
    if (entry.format != entryFormat) {
        say(stored, "has format " + std::to_string(entry.format) + ", which this version does not know");
    }
    if (hashOf(entry) != entry.hash) {
        say(stored, "was changed: its bytes do not have the hash that it states");
    }
    Chain& chain = chainOf(stored);
    checkLink(stored, chain);
    if (signatures_ == Signatures::Checked && chain.key && !isSignedBy(entry, *chain.key)) {
        say(stored, "is not signed by the key of its chain");
    }
    chain.tip = {entry.header.device, entry.header.sequence, entry.header.clock, entry.hash};
    chain.isTipKnown = true;
}

void Verifier::beginBehind(Position position, std::span<const Entry> openings)
{
    last_ = position;
    for (const Entry& entry : openings) {
        Chain& chain = chains_[entry.chain];
        chain.tip.device = entry.header.device;
        chain.isTipKnown = false;
        if (const Result<ChainOpening> opening = chainOpeningFrom(entry.body)) {
            chain.key = opening->publicKey;
        }
    }
}

void Verifier::checkPosition(const Stored& stored)
{
    const Position expected = last_ + 1;
    last_ = stored.position;
    if (stored.position != expected) {
        say(stored, "stands where position " + std::to_string(expected) + " was due");
    }
}

/// The chain of the entry, which is noted if it is new.
Verifier::Chain& Verifier::chainOf(const Stored& stored)
{
    const Entry& entry = stored.entry;
    const auto [found, isNew] = chains_.try_emplace(entry.chain);
    Chain& chain = found->second;
    if (!isNew) {
        return chain;
    }
    chain.tip.device = entry.header.device;
    if (isForgiven(entry, 0)) {
        chain.tip = {entry.header.device, entry.header.sequence - 1, 0, entry.previous};
        return chain;
    }
    if (entry.header.sequence != 1 || entry.kind != chainOpenedKind) {
        say(stored,
            "comes without the entry that opens its chain: from here on this chain's signatures cannot be checked");
        chain.tip = {entry.header.device, entry.header.sequence - 1, 0, entry.previous};
        return chain;
    }
    const Result<ChainOpening> opening = chainOpeningFrom(entry.body);
    if (!opening || opening->device != entry.header.device) {
        say(stored, "does not open its chain in the right form: this chain's signatures cannot be checked");
        return chain;
    }
    chain.key = opening->publicKey;
    return chain;
}

bool Verifier::isForgiven(const Entry& entry, std::uint64_t after) const
{
    return std::ranges::find(losses_, Loss{entry.chain, after, entry.header.sequence}) != losses_.end();
}

void Verifier::checkLink(const Stored& stored, const Chain& chain)
{
    const ChainTip& tip = chain.tip;
    const Entry& entry = stored.entry;
    const std::uint64_t sequence = entry.header.sequence;
    const bool isGapKnown = isForgiven(entry, tip.sequence);
    if (!chain.isTipKnown) {
        if (entry.header.device != tip.device) {
            say(stored, "was made by another device than the one that opened its chain");
        }
        return;
    }
    if (isGapKnown) {
        // told of; only its clock and its device can be held against the entry before
    } else if (sequence != tip.sequence + 1) {
        say(stored,
            "follows entry " + std::to_string(tip.sequence) + ": entries of its chain are missing, doubled or moved");
    } else if (entry.previous != tip.hash) {
        say(stored, "was made to follow another entry than the one that stands before it");
    }
    if (entry.header.clock <= tip.clock) {
        say(stored, "has a hybrid clock that is not beyond that of the entry before it");
    }
    if (entry.header.device != tip.device) {
        say(stored, "was made by another device than the entry before it");
    }
}

void Verifier::say(const Stored& stored, const std::string& what)
{
    const Entry& entry = stored.entry;
    faults_.push_back({stored.position,
                       "position " + std::to_string(stored.position) + " (entry "
                           + std::to_string(entry.header.sequence) + " of chain " + toText(entry.chain) + ", \""
                           + quotable(entry.kind) + "\", entered " + utcText(entry.header.entered.wallMs) + ") "
                           + what});
}

std::vector<Fault> verifyAll(const Journal& journal, std::span<const Loss> losses, const GoOn& goOn)
{
    Verifier verifier;
    verifier.forgive(losses);
    return verifyPiece(std::move(verifier), journal, 0, std::numeric_limits<std::size_t>::max(), goOn);
}

std::vector<Fault> verifyPiece(Verifier verifier, const Journal& journal, Position after, std::size_t limit,
                               const GoOn& goOn)
{
    constexpr std::size_t entriesAtATime = 256;
    while (limit > 0) {
        const Result<std::vector<Stored>> read = journal.read(after, std::min(limit, entriesAtATime));
        if (!read) {
            std::vector<Fault> faults = verifier.faults();
            faults.push_back(
                {after + 1, "position " + std::to_string(after + 1) + " cannot be read: " + read.error().sentence});
            return faults;
        }
        if (read->empty()) {
            break;
        }
        for (const Stored& stored : *read) {
            verifier.take(stored);
        }
        after = read->back().position;
        limit -= read->size();
        if (goOn && !goOn(after)) {
            break;
        }
    }
    return verifier.faults();
}

} // namespace loopside::ledger
