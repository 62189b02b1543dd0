// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/page/accounts.h"
#include "hub/sql_accounts.h"
#include "hub/sqlite_sql.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sodium.h>

namespace loopside::test {

/// Ines plans, Tomasz looks, Ruth keeps the accounts; the ids are those of the demo site.
[[nodiscard]] inline Id personOf(int number)
{
    return idFromText("018f3b5e-000" + std::to_string(number) + "-7000-8000-00000000000" + std::to_string(number))
        .value();
}

/// Three accounts in a database of their own, with passwords that are quick to check.
struct SomeAccounts
{
    SomeAccounts()
    {
        constexpr std::int64_t longAgo = 1'783'000'000'000;
        const std::string password = "four plain words here";
        REQUIRE(accounts.add({}, personOf(1), "Ines", page::Role::Planner, password, longAgo).has_value());
        REQUIRE(accounts.add({}, personOf(2), "Tomasz", page::Role::Engineer, password, longAgo).has_value());
        REQUIRE(accounts.add({}, personOf(3), "Ruth", page::Role::Admin, password, longAgo).has_value());
    }

    TempFolder folder;
    std::unique_ptr<hub::SqliteSql> sql = hub::SqliteSql::open(folder.file("hub.sqlite")).value();
    hub::SqlAccounts store{*sql, personOf(9)};
    page::Accounts accounts{store, {crypto_pwhash_OPSLIMIT_MIN, crypto_pwhash_MEMLIMIT_MIN}};
};

} // namespace loopside::test
