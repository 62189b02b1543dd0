// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/chain.h"
#include "ledger/entry.h"

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <vector>

namespace loopside::store {

/// Entries from several places, put together to chains again. Of each only what that takes is held, so that a long
/// journal fits: whoever wants the entries themselves looks for them anew.
///
/// Of one place in a chain there may be several writings: one that was never acknowledged and written again. The one
/// that the entry behind it names is taken, else the youngest.
class Gathered
{
public:
    /// `entry` was found in source number `source`; its hash holds.
    void add(const ledger::Entry& entry, std::size_t source);

    /// An entry, which its hash and its signature tell from all others.
    struct Found
    {
        ledger::Hash hash = {};
        ledger::Hash previous = {};
        ledger::Signature signature = {};
        std::uint64_t sequence = 0;
        std::uint64_t clock = 0;
        Id device = {};
        Id chain = {};
        std::size_t source = 0; ///< The first one that has it.
    };

    struct Settled
    {
        std::vector<Found> entries; ///< In the order of folding.
        std::vector<ledger::Loss> losses;
    };

    /// The chains, as far as they can be had. Where a chain goes on from another and names a last entry there that
    /// was not found, that is a loss of at least one entry at the end of the other. Entries whose signature is not that
    /// of their chain's key are left out; where the opening is missing there is no key, and all are taken.
    [[nodiscard]] Settled settle() &&;

private:
    using Writings = std::vector<Found>;
    using Chain = std::map<std::uint64_t, Writings>;

    [[nodiscard]] std::optional<ledger::PublicKey> keyOf(const Found& opening) const;
    [[nodiscard]] std::vector<Found> chosenOf(Chain chain) const;
    [[nodiscard]] std::vector<ledger::Loss> endsMissing(const std::vector<Found>& all) const;

    std::map<Id, Chain> chains_;
    std::map<ledger::Hash, ledger::ChainOpening> openings_; ///< What the entries with these hashes say.
};

} // namespace loopside::store
