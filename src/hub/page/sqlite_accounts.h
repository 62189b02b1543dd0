// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/page/account_store.h"
#include "store/database.h"

namespace loopside::page {

/// Accounts in a SQLite database, which nobody else writes. Its tables are made where they are not there yet.
class SqliteAccounts final : public AccountStore
{
public:
    [[nodiscard]] static Result<SqliteAccounts> over(store::Database database);

    [[nodiscard]] Result<std::optional<Account>> named(const std::string& name) override;
    [[nodiscard]] Result<std::optional<Account>> of(const Id& person) override;
    [[nodiscard]] Result<std::vector<Account>> all() override;
    [[nodiscard]] Done put(const Account& account, const AuditLine& line) override;
    [[nodiscard]] Result<std::optional<Session>> session(const TokenHash& token) override;
    [[nodiscard]] Done put(const Session& session) override;
    [[nodiscard]] Done end(const TokenHash& token) override;
    [[nodiscard]] Done endOlder(std::int64_t begunMs, std::int64_t usedMs) override;
    [[nodiscard]] Result<std::vector<AuditLine>> audit(std::size_t limit) override;

private:
    explicit SqliteAccounts(store::Database database) : database_{std::move(database)} {}

    [[nodiscard]] Done putAccount(const Account& account);
    [[nodiscard]] Done addLine(const AuditLine& line);

    store::Database database_;
};

} // namespace loopside::page
