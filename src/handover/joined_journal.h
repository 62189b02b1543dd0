// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"
#include "sync/shelf.h"

#include <set>
#include <vector>

namespace loopside::handover {

/// A tablet's journal with what it holds of other devices behind it, for a logbook to fold: entries of others stand at
/// places beyond all of the journal's own. What is written goes into the journal, and `last` and `head` are its own.
///
/// An entry whose clock ran ahead, and of which no entry `ahead-settled` tells otherwise, is given with a clock that
/// folds it in front of all others, in their order among each other (sync/precedence.h): such a one is for folding
/// alone, its hash is that of the true one.
class JoinedJournal final : public ledger::Journal
{
public:
    /// `own` outlives it.
    explicit JoinedJournal(ledger::Journal& own) : own_{&own} {}

    /// Shows `others` from now on, with what was settled until now. On failure it shows what it did.
    [[nodiscard]] Done show(std::vector<sync::Held> others);

    /// The entries of others that take no precedence.
    [[nodiscard]] const std::vector<ledger::Entry>& unsettled() const { return unsettled_; }

    [[nodiscard]] Result<ledger::Position> append(std::span<const ledger::Entry> entries) override;
    [[nodiscard]] Result<std::vector<ledger::Stored>> read(ledger::Position after, std::size_t limit) const override;
    [[nodiscard]] Result<std::vector<ledger::Listed>> listLasting(ledger::Position after,
                                                                  std::size_t limit) const override;
    [[nodiscard]] Result<std::vector<ledger::Stored>> readLasting(ledger::Position after,
                                                                  std::size_t limit) const override;
    [[nodiscard]] Result<std::uint64_t> latestClock() const override;
    [[nodiscard]] Result<ledger::Position> last() const override { return own_->last(); }
    [[nodiscard]] Result<std::optional<ledger::ChainHead>> head(const Id& device) const override
    {
        return own_->head(device);
    }

private:
    [[nodiscard]] Result<std::set<Id>> settledAmong(const std::vector<sync::Held>& others) const;
    [[nodiscard]] std::vector<ledger::Stored> othersBehind(ledger::Position after, std::size_t limit,
                                                           bool onlyLasting) const;

    ledger::Journal* own_;
    std::vector<ledger::Entry> others_ = {}; ///< As they are folded.
    std::vector<ledger::Entry> unsettled_ = {};
};

} // namespace loopside::handover
