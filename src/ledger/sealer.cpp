// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/sealer.h"

#include "base/require.h"

#include <utility>

namespace loopside::ledger {

Sealer::Sealer(const ChainOpening& opening, const Id& chain, DeviceKey key)
    : opening_{opening}, chain_{chain}, key_{std::move(key)}
{
}

Sealer Sealer::startChain(const Id& device, const Id& chain, DeviceKey key, const std::optional<ParentChain>& parent)
{
    const PublicKey publicKey = key.publicKey();
    return {{device, publicKey, parent}, chain, std::move(key)};
}

Result<Sealer> Sealer::continueChain(const ChainHead& head, DeviceKey key)
{
    if (key.publicKey() != head.publicKey) {
        return fail(Errc::Conflict,
                    "the key is not the one that chain " + toText(head.chain)
                        + " was opened with: put the right key file back, or start a new chain");
    }
    Sealer sealer({head.device, head.publicKey, {}}, head.chain, std::move(key));
    sealer.sequence_ = head.sequence;
    sealer.last_ = head.last;
    sealer.clock_.goOnAfter(head.clock);
    return sealer;
}

Draft Sealer::chainOpened() const
{
    return {std::string(chainOpenedKind), bodyOf(opening_), {}, {}};
}

std::vector<Entry> Sealer::seal(std::span<const Draft> drafts, const Stamp& entered, const Id& person,
                                IdMaker& ids) const
{
    std::vector<Entry> entries;
    entries.reserve(drafts.size());
    HybridClock clock = clock_;
    std::uint64_t sequence = sequence_;
    Hash previous = last_;
    for (const Draft& draft : drafts) {
        require(!draft.kind.empty() && draft.observed.agoMs >= 0,
                "a draft has a kind and is not seen after it is entered");
        Entry entry;
        const Id id = draft.id.isNone() ? ids.next(entered.wallMs) : draft.id;
        entry.header = {id,        opening_.device, ++sequence,     clock.next(entered.wallMs),
                        draft.run, entered,         draft.observed, person};
        entry.chain = chain_;
        entry.kind = draft.kind;
        entry.body = draft.body;
        entry.previous = previous;
        entry.hash = hashOf(entry);
        entry.signature = signatureOf(entry, key_);
        previous = entry.hash;
        entries.push_back(std::move(entry));
    }
    return entries;
}

void Sealer::accept(std::span<const Entry> entries)
{
    for (const Entry& entry : entries) {
        require(entry.chain == chain_ && entry.header.sequence == sequence_ + 1 && entry.previous == last_,
                "what is accepted follows what was accepted before");
        sequence_ = entry.header.sequence;
        last_ = entry.hash;
        clock_.goOnAfter(entry.header.clock);
    }
}

} // namespace loopside::ledger
