// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/sql.h"
#include "sync/placing.h"
#include "sync/topic.h"

#include <map>

namespace loopside::hub {

/// One round of putting entries into a database, within a transaction: remembers the ends of the chains and lists.
class Putting
{
public:
    Putting(Sql& sql, const Id& site) : sql_{&sql}, site_{site} {}

    [[nodiscard]] Result<sync::Put> put(const sync::Held& held, std::span<const ledger::Loss> losses);

private:
    struct Chain
    {
        std::optional<sync::Placed> last = {};
        bool hasAsides = false;
    };

    [[nodiscard]] Result<Chain*> chainOf(const Id& chain);
    [[nodiscard]] Result<sync::Surroundings> surroundingsOf(const ledger::Entry& entry, const Chain& chain);
    [[nodiscard]] Done lookAround(const ledger::Entry& entry, sync::Surroundings& around);
    [[nodiscard]] Result<bool> isAside(const Id& chain, const ledger::Hash& hash);
    [[nodiscard]] Done create(const sync::Held& held, const sync::Surroundings& around, Chain& chain);
    [[nodiscard]] Done keepAside(const sync::Held& held, Chain& chain);
    [[nodiscard]] Done changeGaps(const ledger::Entry& entry, const sync::Surroundings& around);
    [[nodiscard]] Done addGap(const Id& chain, std::uint64_t after, std::uint64_t before);
    [[nodiscard]] Done moveEnd(const ledger::Entry& entry, Chain& chain);
    [[nodiscard]] Done listUnderTopics(const ledger::Entry& entry);
    [[nodiscard]] Done list(const sync::Topic& topic, const sync::Ref& ref);
    [[nodiscard]] Done join(const Id& run, const sync::Topic& topic, bool lastingOnly);

    [[nodiscard]] Done run(std::string_view statement, const std::vector<SqlValue>& values);

    Sql* sql_;
    Id site_;
    std::map<Id, Chain> chains_;
    std::map<sync::Topic, std::int64_t> lastPlaces_;
};

} // namespace loopside::hub
