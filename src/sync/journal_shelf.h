// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "sync/shelf.h"

#include <functional>
#include <map>
#include <memory>

namespace loopside::sync {

/// Keeps an entry that conflicts with one of a journal where a person finds it, and returns once it would survive a
/// power cut. The same one may come again.
using AsideKeeper = std::function<Done(const ledger::Entry&)>;

/// A journal as a shelf: what a tablet hands over, and where whole chains of others are taken in.
///
/// A journal holds chains from their openings on, so nothing is put behind a gap, lost or not. It does not keep whether
/// a clock ran ahead. Others may add to the journal meanwhile, but not to the chains that are put here.
class JournalShelf final : public Shelf
{
public:
    /// Goes through all of `journal`, which outlives it. `aside` is what was kept aside before.
    [[nodiscard]] static Result<std::unique_ptr<JournalShelf>> open(ledger::Journal& journal, AsideKeeper keepAside,
                                                                    std::vector<ledger::Entry> aside = {});

    [[nodiscard]] Result<std::vector<Put>> put(std::span<const Held> entries,
                                               std::span<const ledger::Loss> losses) override;
    [[nodiscard]] Result<std::optional<Held>> at(const Id& chain, std::uint64_t sequence) const override;
    [[nodiscard]] Result<std::vector<Held>> behind(const Id& chain, std::uint64_t after,
                                                   std::size_t most) const override;
    [[nodiscard]] Result<std::vector<Tip>> tips() const override;
    [[nodiscard]] Result<std::vector<ledger::Entry>> asides(const Id& chain) const override;

    /// Takes note of what others added to the journal.
    [[nodiscard]] Done refresh();

    /// What `put` would make of the entries that it is called with, one after the other; puts nothing. The shelf
    /// outlives it and is not put to meanwhile.
    [[nodiscard]] std::function<Result<Put>(const ledger::Entry&)> trial() const;

private:
    class Trial;
    struct Chain
    {
        Id device = {};
        std::map<std::uint64_t, ledger::Position> places = {};
        ledger::ChainTip tip = {};
    };

    JournalShelf(ledger::Journal& journal, AsideKeeper keepAside) : journal_{&journal}, keepAside_{std::move(keepAside)}
    {
    }

    void note(const ledger::Stored& stored);
    [[nodiscard]] Result<std::vector<Put>> outcomesOf(std::span<const Held> entries) const;

    ledger::Journal* journal_;
    AsideKeeper keepAside_;
    ledger::Position last_ = 0;
    std::map<Id, Chain> chains_ = {};
    std::vector<ledger::Entry> asides_ = {};
};

} // namespace loopside::sync
