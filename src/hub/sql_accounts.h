// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/page/account_store.h"
#include "hub/sql.h"

namespace loopside::hub {

/// The accounts and sessions of a site's page, in the hub's database: hubs before one database share them.
class SqlAccounts final : public page::AccountStore
{
public:
    /// `sql`, laid out, outlives it. Keeps to the rows of `site`.
    SqlAccounts(Sql& sql, const Id& site) : sql_{&sql}, site_{site} {}

    [[nodiscard]] Result<std::optional<page::Account>> named(const std::string& name) override;
    [[nodiscard]] Result<std::optional<page::Account>> of(const Id& person) override;
    [[nodiscard]] Result<std::vector<page::Account>> all() override;
    [[nodiscard]] Done put(const page::Account& account, const page::AuditLine& line) override;
    [[nodiscard]] Result<std::optional<page::Session>> session(const page::TokenHash& token) override;
    [[nodiscard]] Done put(const page::Session& session) override;
    [[nodiscard]] Done end(const page::TokenHash& token) override;
    [[nodiscard]] Result<std::vector<page::Session>> sessionsOf(const Id& person) override;
    [[nodiscard]] Done endOlder(std::int64_t begunMs, std::int64_t usedMs) override;
    [[nodiscard]] Result<std::vector<page::AuditLine>> audit(std::size_t limit) override;

    /// Puts in as they are, from a backup and within its transaction: an account, and the next line of the audit.
    [[nodiscard]] Done putAsItIs(const page::Account& account);
    [[nodiscard]] Done addAsItIs(const page::AuditLine& line);

private:
    [[nodiscard]] Result<std::vector<page::Account>> accountsWhere(std::string_view rest, const SqlValue& value);
    [[nodiscard]] Done run(std::string_view statement, const std::vector<SqlValue>& values);

    Sql* sql_;
    Id site_;
};

} // namespace loopside::hub
