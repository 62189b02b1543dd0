// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"

#include <map>
#include <set>

namespace loopside::ledger {

/// A journal that lasts as long as the program: for stories, practice, the demo and tests. The same rules, no disk.
class MemoryJournal final : public Journal
{
public:
    [[nodiscard]] Result<Position> append(std::span<const Entry> entries) override;
    [[nodiscard]] Result<std::vector<Stored>> read(Position after, std::size_t limit) const override;
    [[nodiscard]] Result<std::optional<ChainHead>> head(const Id& device) const override;

private:
    [[nodiscard]] Done add(const Entry& entry);
    [[nodiscard]] const Entry* lastOf(const Id& chain) const;
    void shrinkTo(std::size_t count);

    std::vector<Entry> entries_;
    std::set<Id> ids_;
    std::map<Id, std::vector<std::size_t>> chains_; ///< Indices of each chain's entries.
};

} // namespace loopside::ledger
