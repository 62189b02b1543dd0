// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/hub_program.h"
#include "hub/sql_hub.h"
#include "hub/sqlite_sql.h"

#include <catch2/catch.hpp>

#include <optional>
#include <vector>

namespace loopside::test {

/// Everything that a hub which has ended holds, or holds of `device` where one is told, in the order of the chains. No
/// chain may have anything aside.
inline std::vector<ledger::Entry> heldBy(const HubProgram& hub, const Id& site, const std::optional<Id>& device = {})
{
    const auto sql = hub::SqliteSql::open(hub.file());
    REQUIRE(sql);
    const hub::SqlHub store(**sql, site);
    std::vector<ledger::Entry> all;
    const auto tips = device ? store.tipsOf(*device) : store.tips();
    REQUIRE(tips);
    for (const sync::Tip& tip : *tips) {
        CHECK(store.asides(tip.chain).value().empty());
        CHECK(hub::eachOf(store, tip.chain, [&](const sync::Held& held) -> Done {
            all.push_back(held.entry);
            return {};
        }));
    }
    return all;
}

} // namespace loopside::test
