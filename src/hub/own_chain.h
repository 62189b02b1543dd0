// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"
#include "sync/hub_store.h"

namespace loopside::hub {

/// What one device wrote itself, as the journal that it goes on with, on a shelf: positions are the places of its
/// chain. A device of one chain.
class OwnChain final : public ledger::Journal
{
public:
    /// `shelf` outlives it.
    OwnChain(sync::HubStore& shelf, const Id& device) : shelf_{&shelf}, device_{device} {}

    /// Conflict where something else has the place by now: then nothing counts, and what was tried is kept aside.
    [[nodiscard]] Result<ledger::Position> append(std::span<const ledger::Entry> entries) override;
    [[nodiscard]] Result<std::vector<ledger::Stored>> read(ledger::Position after, std::size_t limit) const override;
    [[nodiscard]] Result<std::optional<ledger::ChainHead>> head(const Id& device) const override;
    [[nodiscard]] Result<ledger::Position> last() const override;

private:
    [[nodiscard]] Result<std::optional<sync::Tip>> tip() const;

    sync::HubStore* shelf_;
    Id device_;
};

} // namespace loopside::hub
