// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "sync/placing.h"

#include <map>

namespace loopside::sync {

/// A shelf that lasts as long as the program.
class MemoryShelf final : public Shelf
{
public:
    enum class Keeps
    {
        Chains, ///< Without gaps, but for those that were told as lost: a hub.
        Singly  ///< Whatever comes, in its place: what a tablet holds of others.
    };

    explicit MemoryShelf(Keeps keeps) : keeps_{keeps} {}

    [[nodiscard]] Result<std::vector<Put>> put(std::span<const Held> entries,
                                               std::span<const ledger::Loss> losses) override;
    [[nodiscard]] Result<std::optional<Held>> at(const Id& chain, std::uint64_t sequence) const override;
    [[nodiscard]] Result<std::vector<Held>> behind(const Id& chain, std::uint64_t after,
                                                   std::size_t most) const override;
    [[nodiscard]] Result<std::vector<Tip>> tips() const override;
    [[nodiscard]] Result<std::vector<ledger::Entry>> asides(const Id& chain) const override;

    /// The last entry of `chain`.
    [[nodiscard]] std::optional<Tip> tip(const Id& chain) const;

    /// All entries of `run`, by chain and sequence. Goes through everything that is held.
    [[nodiscard]] std::vector<Held> ofRun(const Id& run) const;

    /// Where entries of `chain` are missing in front of one that is held.
    [[nodiscard]] std::vector<ledger::Loss> gapsOf(const Id& chain) const;

private:
    struct Chain
    {
        std::map<std::uint64_t, Held> places = {};
        std::vector<ledger::Entry> asides = {};
    };

    [[nodiscard]] Put putOne(const Held& held, std::span<const ledger::Loss> losses);
    [[nodiscard]] static Surroundings surroundingsOf(const Chain& chain, const ledger::Entry& entry);

    Keeps keeps_;
    std::map<Id, Chain> chains_;
};

} // namespace loopside::sync
