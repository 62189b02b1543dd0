// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/clock.h"
#include "ledger/chain.h"
#include "ledger/hybrid_clock.h"
#include "ledger/keys.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace loopside::ledger {

/// What is to be recorded, before it has its place in the chain.
struct Draft
{
    std::string kind;
    std::string body;
    Id run = {};
    run::Observed observed = {};
    Id id = {}; ///< Of the entry to be; none: the sealer makes one.
};

/// Turns drafts into entries of one device's chain: gives each its id, its place, its hash and its signature.
///
/// One round: `seal` the drafts, append the entries to the journal, and only if that succeeded `accept` them. Until
/// then the sealer stands where it stood, so a failed append changes nothing and the same drafts can be sealed again.
class Sealer
{
public:
    /// Begins the new chain `chain`. Its first draft must be `chainOpened()`.
    [[nodiscard]] static Sealer startChain(const Id& device, const Id& chain, DeviceKey key,
                                           const std::optional<ParentChain>& parent = {});

    /// Goes on with a chain. Conflict if `key` is not the one that the chain was opened with.
    [[nodiscard]] static Result<Sealer> continueChain(const ChainHead& head, DeviceKey key);

    /// The draft of the entry that opens this sealer's chain.
    [[nodiscard]] Draft chainOpened() const;

    /// The entries for `drafts`, in that order, as entered at `entered` by `person`. The sealer itself does not move.
    /// The drafts' kinds are not empty and nothing is seen after it was entered.
    [[nodiscard]] std::vector<Entry> seal(std::span<const Draft> drafts, const Stamp& entered, const Id& person,
                                          IdMaker& ids) const;

    /// Moves on past `entries`, which `seal` gave last and the journal now holds.
    void accept(std::span<const Entry> entries);

    /// Takes note of a hybrid clock value made elsewhere; later entries come after it.
    void heard(std::uint64_t foreignClock) { clock_.heard(foreignClock); }

    [[nodiscard]] const Id& device() const { return opening_.device; }
    [[nodiscard]] const Id& chain() const { return chain_; }

    /// Of the last entry accepted; 0 before the first.
    [[nodiscard]] std::uint64_t sequence() const { return sequence_; }

private:
    Sealer(const ChainOpening& opening, const Id& chain, DeviceKey key);

    ChainOpening opening_;
    Id chain_;
    DeviceKey key_;
    std::uint64_t sequence_ = 0; ///< Of the last entry accepted.
    Hash last_ = {};             ///< Hash of that entry.
    HybridClock clock_;
};

} // namespace loopside::ledger
