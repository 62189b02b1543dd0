// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/chain.h"
#include "ledger/entry.h"

#include <cstddef>
#include <map>
#include <vector>

namespace loopside::store {

/// Entries from several places, put together to chains again.
///
/// Of one place in a chain there may be several writings: one that was never acknowledged and written again. The one
/// that the entry behind it names is taken, else the youngest.
class Gathered
{
public:
    /// `entry` was found in source number `source`; its hash holds.
    void add(ledger::Entry entry, std::size_t source);

    struct Settled
    {
        std::vector<ledger::Entry> entries; ///< In the order of folding.
        std::vector<std::size_t> sources;   ///< Of each entry, the first one that has it.
        std::vector<ledger::Loss> losses;
    };

    /// The chains, as far as they can be had. Where a chain goes on from another and names a last entry there that
    /// was not found, that is a loss of at least one entry at the end of the other. Entries whose signature is not that
    /// of their chain's key are left out; where the opening is missing there is no key, and all are taken.
    [[nodiscard]] Settled settle() &&;

private:
    struct Found
    {
        ledger::Entry entry;
        std::size_t source;
    };
    using Writings = std::vector<Found>;
    using Chain = std::map<std::uint64_t, Writings>;

    [[nodiscard]] static std::vector<Found> chosenOf(Chain chain);
    [[nodiscard]] static std::vector<ledger::Loss> endsMissing(const std::vector<Found>& all);

    std::map<Id, Chain> chains_;
};

} // namespace loopside::store
