// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/verify.h"

#include "base/text.h"

#include <algorithm>
#include <iterator>
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
    noteParent(stored, *opening);
    return chain;
}

void Verifier::noteParent(const Stored& stored, const ChainOpening& opening)
{
    if (!opening.parent) {
        return;
    }
    const auto parent = chains_.find(opening.parent->chain);
    const bool isLast = parent != chains_.end() && parent->second.tip.hash == opening.parent->last
        && parent->second.tip.device == opening.device;
    if (!isLast) {
        named_.push_back({faultOf(stored,
                                  "goes on from chain " + toText(opening.parent->chain)
                                      + ", and the entry that it names as the last one there is not there"),
                          opening.device, *opening.parent});
    }
}

Loss Verifier::endLossOf(const Id& chain) const
{
    const auto known = chains_.find(chain);
    const std::uint64_t last = known == chains_.end() ? 0 : known->second.tip.sequence;
    return {chain, last, last + 2};
}

std::vector<Verifier::EndMissing> Verifier::endsMissing(const EntryReader& read) const
{
    std::vector<Named> missing = named_;
    std::erase_if(missing, [&](const Named& named) {
        return std::ranges::find(losses_, endLossOf(named.parent.chain)) != losses_.end();
    });
    if (missing.empty()) {
        return {};
    }
    // Where reading fails, that was told where the entries were looked at.
    static_cast<void>(read([&](const Stored& stored) -> Done {
        const Entry& entry = stored.entry;
        std::erase_if(missing, [&](const Named& named) {
            return entry.hash == named.parent.last && entry.chain == named.parent.chain
                && entry.header.device == named.device;
        });
        return {};
    }));
    std::vector<EndMissing> ends;
    std::ranges::transform(missing, std::back_inserter(ends),
                           [&](const Named& named) { return EndMissing{named.fault, endLossOf(named.parent.chain)}; });
    return ends;
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

Fault Verifier::faultOf(const Stored& stored, const std::string& what)
{
    const Entry& entry = stored.entry;
    return {stored.position,
            "position " + std::to_string(stored.position) + " (entry " + std::to_string(entry.header.sequence)
                + " of chain " + toText(entry.chain) + ", \"" + quotable(entry.kind) + "\", entered "
                + utcText(entry.header.entered.wallMs) + ") " + what};
}

void Verifier::say(const Stored& stored, const std::string& what)
{
    faults_.push_back(faultOf(stored, what));
}

namespace {

/// Whether `verifier` was led over all of the piece.
enum class Led
{
    Through,
    Ended,
    CannotBeRead
};

/// Leads `verifier` on from `after` in `journal`; where reading fails, that is the last of `faults`.
Led lead(Verifier& verifier, std::vector<Fault>& faults, const Journal& journal, Position after, std::size_t limit,
         const GoOn& goOn)
{
    constexpr std::size_t entriesAtATime = 256;
    while (limit > 0) {
        const Result<std::vector<Stored>> read = journal.read(after, std::min(limit, entriesAtATime));
        if (!read) {
            faults = verifier.faults();
            faults.push_back(
                {after + 1, "position " + std::to_string(after + 1) + " cannot be read: " + read.error().sentence});
            return Led::CannotBeRead;
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
            faults = verifier.faults();
            return Led::Ended;
        }
    }
    faults = verifier.faults();
    return Led::Through;
}

} // namespace

std::vector<Fault> verifyAll(const Journal& journal, std::span<const Loss> losses, const GoOn& goOn)
{
    Verifier verifier;
    verifier.forgive(losses);
    std::vector<Fault> faults;
    if (lead(verifier, faults, journal, 0, std::numeric_limits<std::size_t>::max(), goOn) == Led::Through) {
        for (const Verifier::EndMissing& end :
             verifier.endsMissing([&](const auto& take) { return readAll(journal, take); })) {
            faults.push_back(end.fault);
        }
    }
    return faults;
}

std::vector<Fault> verifyPiece(Verifier verifier, const Journal& journal, Position after, std::size_t limit,
                               const GoOn& goOn)
{
    std::vector<Fault> faults;
    static_cast<void>(lead(verifier, faults, journal, after, limit, goOn));
    return faults;
}

} // namespace loopside::ledger
