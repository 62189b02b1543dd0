// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/sqlite_accounts.h"

#include <algorithm>

namespace loopside::page {

namespace {

constexpr const char* tables = R"(
CREATE TABLE IF NOT EXISTS accounts (
    person_id BLOB PRIMARY KEY, name TEXT NOT NULL UNIQUE, role TEXT NOT NULL,
    password_hash TEXT NOT NULL, is_out INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS sessions (
    token_hash BLOB PRIMARY KEY, person_id BLOB NOT NULL, begun_at INTEGER NOT NULL, used_at INTEGER NOT NULL) STRICT;
CREATE TABLE IF NOT EXISTS audit (
    line INTEGER PRIMARY KEY, at INTEGER NOT NULL, by_id BLOB NOT NULL, what TEXT NOT NULL, whom TEXT NOT NULL) STRICT;
CREATE TRIGGER IF NOT EXISTS audit_stays BEFORE UPDATE ON audit BEGIN SELECT RAISE(ABORT, 'the audit stays'); END;
CREATE TRIGGER IF NOT EXISTS audit_keeps BEFORE DELETE ON audit BEGIN SELECT RAISE(ABORT, 'the audit stays'); END;
)";

constexpr std::string_view accountColumns = "SELECT person_id, name, role, password_hash, is_out FROM accounts ";

Id idIn(const store::Statement& statement, int column)
{
    Id id;
    const std::string_view bytes = statement.bytes(column);
    std::copy_n(bytes.begin(), std::min(bytes.size(), id.bytes.size()), id.bytes.begin());
    return id;
}

Account accountIn(const store::Statement& statement)
{
    return {idIn(statement, 0), std::string(statement.bytes(1)), roleNamed(statement.bytes(2)).value_or(Role::Engineer),
            std::string(statement.bytes(3)), statement.number(4) != 0};
}

/// The first row that `statement` gives, as `read` reads it.
template<class Read>
auto firstOf(store::Statement& statement, Read read) -> Result<std::optional<decltype(read(statement))>>
{
    const auto isThere = statement.step();
    if (!isThere) {
        return fail(isThere.error());
    }
    return *isThere ? std::optional(read(statement)) : std::nullopt;
}

template<class Read>
auto allOf(store::Statement& statement, Read read) -> Result<std::vector<decltype(read(statement))>>
{
    std::vector<decltype(read(statement))> rows;
    for (;;) {
        const auto isThere = statement.step();
        if (!isThere) {
            return fail(isThere.error());
        }
        if (!*isThere) {
            return rows;
        }
        rows.push_back(read(statement));
    }
}

/// Runs a statement that gives no rows.
Done ran(Result<store::Statement> statement, const auto& bind)
{
    if (!statement) {
        return fail(statement.error());
    }
    bind(*statement);
    const auto stepped = statement->step();
    return stepped ? Done() : fail(stepped.error());
}

} // namespace

Result<SqliteAccounts> SqliteAccounts::over(store::Database database)
{
    const Done made = database.run(tables);
    return made ? Result<SqliteAccounts>(SqliteAccounts(std::move(database))) : fail(made.error());
}

Result<std::optional<Account>> SqliteAccounts::named(const std::string& name)
{
    auto statement = database_.prepare(std::string(accountColumns) + "WHERE name = ?1");
    if (!statement) {
        return fail(statement.error());
    }
    statement->bindText(1, name);
    return firstOf(*statement, accountIn);
}

Result<std::optional<Account>> SqliteAccounts::of(const Id& person)
{
    auto statement = database_.prepare(std::string(accountColumns) + "WHERE person_id = ?1");
    if (!statement) {
        return fail(statement.error());
    }
    statement->bindBytes(1, person.bytes);
    return firstOf(*statement, accountIn);
}

Result<std::vector<Account>> SqliteAccounts::all()
{
    auto statement = database_.prepare(std::string(accountColumns) + "ORDER BY name");
    return statement ? allOf(*statement, accountIn) : fail(statement.error());
}

Done SqliteAccounts::put(const Account& account, const AuditLine& line)
{
    const auto holder = named(account.name);
    if (!holder) {
        return fail(holder.error());
    }
    if (*holder && (*holder)->person != account.person) {
        return fail(Errc::Conflict, "there is an account \"" + account.name + "\" already");
    }
    auto transaction = store::WriteTransaction::begin(database_);
    if (!transaction) {
        return fail(transaction.error());
    }
    if (Done done = putAccount(account); !done) {
        return done;
    }
    if (Done done = addLine(line); !done) {
        return done;
    }
    Done ended = ran(database_.prepare("DELETE FROM sessions WHERE person_id = ?1"),
                     [&](store::Statement& statement) { statement.bindBytes(1, account.person.bytes); });
    return ended ? transaction->commit() : ended;
}

Done SqliteAccounts::putAccount(const Account& account)
{
    return ran(database_.prepare("INSERT OR REPLACE INTO accounts VALUES (?1, ?2, ?3, ?4, ?5)"),
               [&](store::Statement& statement) {
                   statement.bindBytes(1, account.person.bytes);
                   statement.bindText(2, account.name);
                   statement.bindText(3, nameOf(account.role));
                   statement.bindText(4, account.passwordHash);
                   statement.bind(5, account.isOut ? 1 : 0);
               });
}

Done SqliteAccounts::addLine(const AuditLine& line)
{
    return ran(database_.prepare("INSERT INTO audit (at, by_id, what, whom) VALUES (?1, ?2, ?3, ?4)"),
               [&](store::Statement& statement) {
                   statement.bind(1, line.atMs);
                   statement.bindBytes(2, line.by.bytes);
                   statement.bindText(3, line.what);
                   statement.bindText(4, line.whom);
               });
}

Result<std::optional<Session>> SqliteAccounts::session(const TokenHash& token)
{
    auto statement = database_.prepare("SELECT person_id, begun_at, used_at FROM sessions WHERE token_hash = ?1");
    if (!statement) {
        return fail(statement.error());
    }
    statement->bindBytes(1, token);
    return firstOf(*statement, [&](const store::Statement& row) {
        return Session{token, idIn(row, 0), row.number(1), row.number(2)};
    });
}

Done SqliteAccounts::put(const Session& session)
{
    return ran(database_.prepare("INSERT OR REPLACE INTO sessions VALUES (?1, ?2, ?3, ?4)"),
               [&](store::Statement& statement) {
                   statement.bindBytes(1, session.token);
                   statement.bindBytes(2, session.person.bytes);
                   statement.bind(3, session.begunMs);
                   statement.bind(4, session.usedMs);
               });
}

Done SqliteAccounts::end(const TokenHash& token)
{
    return ran(database_.prepare("DELETE FROM sessions WHERE token_hash = ?1"),
               [&](store::Statement& statement) { statement.bindBytes(1, token); });
}

Done SqliteAccounts::endOlder(std::int64_t begunMs, std::int64_t usedMs)
{
    return ran(database_.prepare("DELETE FROM sessions WHERE begun_at < ?1 OR used_at < ?2"),
               [&](store::Statement& statement) {
                   statement.bind(1, begunMs);
                   statement.bind(2, usedMs);
               });
}

Result<std::vector<AuditLine>> SqliteAccounts::audit(std::size_t limit)
{
    auto statement = database_.prepare("SELECT at, by_id, what, whom FROM audit ORDER BY line DESC LIMIT ?1");
    if (!statement) {
        return fail(statement.error());
    }
    statement->bind(1, static_cast<std::int64_t>(limit));
    return allOf(*statement, [](const store::Statement& row) {
        return AuditLine{row.number(0), idIn(row, 1), std::string(row.bytes(2)), std::string(row.bytes(3))};
    });
}

} // namespace loopside::page
