// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/memory_journal.h"

#include <cstdlib>
#include <string_view>

namespace loopside::test {

/// A journal that breaks one rule of the contract, the one that LOOPSIDE_PLANT names: the contract must find it. With
/// "none" it keeps to all.
class PlantedJournal final : public ledger::Journal
{
public:
    [[nodiscard]] Result<ledger::Position> append(std::span<const ledger::Entry> entries) override
    {
        if (is("loses-last") && entries.size() > 1) {
            return journal_.append(entries.first(entries.size() - 1)).transform([](ledger::Position last) {
                return last + 1;
            });
        }
        if (is("keeps-half")) {
            Result<ledger::Position> last = journal_.append({});
            for (std::size_t i = 0; i < entries.size() && last; ++i) {
                last = journal_.append(entries.subspan(i, 1));
            }
            return last;
        }
        const Result<ledger::Position> last = journal_.append(entries);
        return last || !is("refuses-nothing") ? last : journal_.append({});
    }

    [[nodiscard]] Result<std::vector<ledger::Stored>> read(ledger::Position after, std::size_t limit) const override
    {
        return journal_.read(after, limit).transform([&](std::vector<ledger::Stored> read) {
            for (ledger::Stored& stored : read) {
                if (is("alters-body")) {
                    stored.entry.body = stored.entry.body.c_str(); // up to a zero
                }
                if (is("alters-clock") && stored.entry.header.clock > 1) {
                    stored.entry.header.clock &= ~std::uint64_t{1};
                }
            }
            return read;
        });
    }

    [[nodiscard]] Result<std::optional<ledger::ChainHead>> head(const Id& device) const override
    {
        return journal_.head(device).transform([&](std::optional<ledger::ChainHead> head) {
            if (head && is("old-head")) {
                head->sequence = 1;
            }
            return head;
        });
    }

private:
    [[nodiscard]] static bool is(std::string_view plant)
    {
        const char* const named = std::getenv("LOOPSIDE_PLANT");
        return named != nullptr && plant == named;
    }

    ledger::MemoryJournal journal_;
};

} // namespace loopside::test
