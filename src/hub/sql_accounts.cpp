// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/sql_accounts.h"

#include "hub/entry_row.h"

namespace loopside::hub {

using page::Account;
using page::AuditLine;
using page::Session;

namespace {

Result<Account> accountFrom(const SqlRow& row)
{
    const auto role = page::roleNamed(row.bytes(2));
    if (!role) {
        return fail(Errc::Io, "the hub's database holds an account with a role that it never wrote");
    }
    Account account = {{}, row.bytes(1), *role, row.bytes(3), row.number(4) != 0};
    const Done taken = take(row.bytes(0), account.person.bytes);
    return taken ? Result<Account>(std::move(account)) : fail(taken.error());
}

Result<AuditLine> lineFrom(const SqlRow& row)
{
    AuditLine line = {row.number(0), {}, row.bytes(2), row.bytes(3)};
    const Done taken = take(row.bytes(1), line.by.bytes);
    return taken ? Result<AuditLine>(std::move(line)) : fail(taken.error());
}

} // namespace

Done SqlAccounts::run(std::string_view statement, const std::vector<SqlValue>& values)
{
    const auto rows = sql_->run(statement, values);
    return rows ? Done{} : fail(rows.error());
}

Result<std::vector<Account>> SqlAccounts::accountsWhere(std::string_view rest, const SqlValue& value)
{
    const std::string select = "SELECT person_id, name, role, password_hash, is_out FROM accounts WHERE site_id = $1 "
        + std::string(rest);
    const bool hasValue = rest.find("$2") != std::string_view::npos;
    return rowsAs(
        sql_->run(select,
                  hasValue ? std::vector<SqlValue>{valueOf(site_), value} : std::vector<SqlValue>{valueOf(site_)}),
        accountFrom);
}

Result<std::optional<Account>> SqlAccounts::named(const std::string& name)
{
    return firstOf(accountsWhere("AND name = $2", std::string_view(name)));
}

Result<std::optional<Account>> SqlAccounts::of(const Id& person)
{
    return firstOf(accountsWhere("AND person_id = $2", valueOf(person)));
}

Result<std::vector<Account>> SqlAccounts::all()
{
    return accountsWhere("ORDER BY name", {});
}

Done SqlAccounts::put(const Account& account, const AuditLine& line)
{
    return inTransaction(*sql_, site_, [&]() -> Done {
        const auto holder = named(account.name);
        if (!holder) {
            return fail(holder.error());
        }
        if (*holder && (*holder)->person != account.person) {
            return fail(Errc::Conflict, "there is an account \"" + account.name + "\" already");
        }
        return putAsItIs(account).and_then([&] { return addAsItIs(line); }).and_then([&] {
            return run("DELETE FROM sessions WHERE site_id = $1 AND person_id = $2",
                       {valueOf(site_), valueOf(account.person)});
        });
    });
}

Done SqlAccounts::putAsItIs(const Account& account)
{
    return run("INSERT INTO accounts (site_id, person_id, name, role, password_hash, is_out) "
               "VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT (site_id, person_id) DO UPDATE SET "
               "name = excluded.name, role = excluded.role, password_hash = excluded.password_hash, "
               "is_out = excluded.is_out",
               {valueOf(site_), valueOf(account.person), std::string_view(account.name), page::nameOf(account.role),
                std::string_view(account.passwordHash), std::int64_t{account.isOut}});
}

Done SqlAccounts::addAsItIs(const AuditLine& line)
{
    const auto last = sql_->run("SELECT max(number) FROM audit WHERE site_id = $1", {valueOf(site_)});
    if (!last) {
        return fail(last.error());
    }
    const std::int64_t number = last->front().isNothing(0) ? 1 : last->front().number(0) + 1;
    return run("INSERT INTO audit (site_id, number, done_at, by_id, what, whom) VALUES ($1, $2, $3, $4, $5, $6)",
               {valueOf(site_), number, line.atMs, valueOf(line.by), std::string_view(line.what),
                std::string_view(line.whom)});
}

Result<std::optional<Session>> SqlAccounts::session(const page::TokenHash& token)
{
    const auto rows = sql_->run("SELECT person_id, begun_at, used_at FROM sessions "
                                "WHERE site_id = $1 AND token_hash = $2",
                                {valueOf(site_), valueOf(token)});
    return firstOf(rowsAs(rows, [&](const SqlRow& row) -> Result<Session> {
        Session session = {token, {}, row.number(1), row.number(2)};
        const Done taken = take(row.bytes(0), session.person.bytes);
        return taken ? Result<Session>(session) : fail(taken.error());
    }));
}

Done SqlAccounts::put(const Session& session)
{
    return run("INSERT INTO sessions (site_id, token_hash, person_id, begun_at, used_at) VALUES ($1, $2, $3, $4, $5) "
               "ON CONFLICT (site_id, token_hash) DO UPDATE SET used_at = excluded.used_at",
               {valueOf(site_), valueOf(session.token), valueOf(session.person), session.begunMs, session.usedMs});
}

Done SqlAccounts::end(const page::TokenHash& token)
{
    return run("DELETE FROM sessions WHERE site_id = $1 AND token_hash = $2", {valueOf(site_), valueOf(token)});
}

Result<std::vector<Session>> SqlAccounts::sessionsOf(const Id& person)
{
    const auto rows = sql_->run(
        "SELECT token_hash, begun_at, used_at FROM sessions WHERE site_id = $1 AND person_id = $2 "
        "ORDER BY used_at DESC, token_hash",
        {valueOf(site_), valueOf(person)});
    return rowsAs(rows, [&](const SqlRow& row) -> Result<Session> {
        Session session = {{}, person, row.number(1), row.number(2)};
        const Done taken = take(row.bytes(0), session.token);
        return taken ? Result<Session>(session) : fail(taken.error());
    });
}

Done SqlAccounts::endOlder(std::int64_t begunMs, std::int64_t usedMs)
{
    return run("DELETE FROM sessions WHERE site_id = $1 AND (begun_at < $2 OR used_at < $3)",
               {valueOf(site_), begunMs, usedMs});
}

Result<std::vector<AuditLine>> SqlAccounts::audit(std::size_t limit)
{
    return rowsAs(sql_->run("SELECT done_at, by_id, what, whom FROM audit WHERE site_id = $1 "
                            "ORDER BY number DESC LIMIT $2",
                            {valueOf(site_), static_cast<std::int64_t>(limit)}),
                  lineFrom);
}

} // namespace loopside::hub
