// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/sqlite_sql.h"

#include "embedded/hub_0001_sqlite.h"
#include "embedded/hub_0002_sqlite.h"
#include "store/durable_file.h"

#include <algorithm>
#include <array>
#include <filesystem>

namespace loopside::hub {

namespace {

constexpr int busyTimeoutMs = 5000;

/// "LpHb" in the application id of SQLite's header.
constexpr std::int64_t hubApplicationId = 0x4C704862;

Error inHubsWords(Error error, const std::string& path)
{
    if (error.code == Errc::Corrupt) {
        error.sentence = path
            + " is damaged or no file of a hub: it is left as it is; put it aside and run "
              "loopside-hub restore with the last backup";
    }
    return error;
}

Done makeSettings(store::Database& database)
{
    const auto mode = database.text("PRAGMA journal_mode = WAL");
    if (!mode) {
        return fail(mode.error());
    }
    if (*mode != "wal") {
        return fail(Errc::Io,
                    database.path() + " stands on a disk that cannot keep a write-ahead log: put it on a local disk");
    }
    return database.run("PRAGMA synchronous = FULL; PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON");
}

/// Refuses what is a database and not a hub's; marks an empty one as such.
Done claim(store::Database& database)
{
    const auto id = database.number("PRAGMA application_id");
    const auto tables = database.number("SELECT count(*) FROM sqlite_schema");
    if (!id || !tables) {
        return fail(id ? tables.error() : id.error());
    }
    if (*id == hubApplicationId) {
        return {};
    }
    if (*id != 0 || *tables != 0) {
        return fail(Errc::Corrupt, "not a hub's");
    }
    return database.run(("PRAGMA application_id = " + std::to_string(hubApplicationId)).c_str());
}

/// The same once it is open: to whoever asks the hub it is a disk that fails.
Error whileOpen(Error error, const std::string& path)
{
    const bool isDamaged = error.code == Errc::Corrupt;
    error = inHubsWords(std::move(error), path);
    error.code = isDamaged ? Errc::Io : error.code;
    return error;
}

std::vector<SqlRow::Cell> cellsOf(const store::Statement& statement)
{
    std::vector<SqlRow::Cell> cells;
    for (int column = 0; column < statement.columns(); ++column) {
        if (statement.isNothing(column)) {
            cells.emplace_back();
        } else if (statement.isNumber(column)) {
            cells.emplace_back(statement.number(column));
        } else {
            cells.emplace_back(std::string(statement.bytes(column)));
        }
    }
    return cells;
}

void bind(store::Statement& statement, int place, const SqlValue& value)
{
    if (const auto* number = std::get_if<std::int64_t>(&value)) {
        statement.bind(place, *number);
    } else {
        statement.bindBytes(place, std::get<std::string_view>(value));
    }
}

void bindAll(store::Statement& statement, std::span<const SqlValue> values)
{
    for (std::size_t i = 0; i < values.size(); ++i) {
        bind(statement, static_cast<int>(i) + 1, values[i]);
    }
}

std::string insertionOf(const SqlRows& rows)
{
    std::string statement = "INSERT INTO " + std::string(rows.table) + " (" + std::string(rows.columns) + ") VALUES (";
    for (std::size_t i = 1; i <= rows.columnCount; ++i) {
        statement += (i == 1 ? "$" : ", $") + std::to_string(i);
    }
    return statement + ")";
}

} // namespace

Result<std::unique_ptr<SqliteSql>> SqliteSql::open(const std::string& path)
{
    std::error_code fault;
    if (!std::filesystem::exists(path, fault)) {
        if (const Done made = store::replacePrivateFile(path, {}); !made) {
            return fail(made.error());
        }
    }
    auto database = store::Database::open(path, busyTimeoutMs);
    Done ready = database ? claim(*database) : fail(database.error());
    ready = ready ? makeSettings(*database) : ready;
    if (!ready) {
        return fail(inHubsWords(ready.error(), path));
    }
    std::unique_ptr<SqliteSql> sql(new SqliteSql(*std::move(database)));
    const Done laidOut = layOut(*sql);
    return laidOut ? Result<std::unique_ptr<SqliteSql>>(std::move(sql)) : fail(laidOut.error());
}

Result<store::Statement*> SqliteSql::prepared(std::string_view statement)
{
    auto known = statements_.find(statement);
    if (known == statements_.end()) {
        std::string inItsWay(statement); // SQLite takes "$2" for a name, and "?2" for the second place
        std::ranges::replace(inItsWay, '$', '?');
        auto made = database_.prepare(inItsWay);
        if (!made) {
            return fail(made.error());
        }
        known = statements_.emplace(std::string(statement), *std::move(made)).first;
    }
    return &known->second;
}

Result<std::vector<SqlRow>> SqliteSql::run(std::string_view statement, const std::vector<SqlValue>& values)
{
    const auto known = prepared(statement);
    if (!known) {
        return fail(whileOpen(known.error(), database_.path()));
    }
    const store::StatementUse use(**known);
    bindAll(**known, values);
    std::vector<SqlRow> rows;
    auto found = (*known)->step();
    for (; found && *found; found = (*known)->step()) {
        rows.emplace_back(cellsOf(**known));
    }
    return found ? Result<std::vector<SqlRow>>(std::move(rows)) : fail(whileOpen(found.error(), database_.path()));
}

Done SqliteSql::add(const SqlRows& rows)
{
    const auto known = prepared(insertionOf(rows));
    if (!known) {
        return fail(whileOpen(known.error(), database_.path()));
    }
    std::span<const SqlValue> rest = rows.values;
    for (; !rest.empty(); rest = rest.subspan(rows.columnCount)) {
        const store::StatementUse use(**known);
        bindAll(**known, rest.first(rows.columnCount));
        if (const auto done = (*known)->step(); !done) {
            return fail(whileOpen(done.error(), database_.path()));
        }
    }
    return {};
}

Result<std::vector<SqlRow>> SqliteSql::runLightly(std::string_view statement, const std::vector<SqlValue>& values)
{
    if (const Done lightly = database_.run("PRAGMA synchronous = NORMAL"); !lightly) {
        return fail(lightly.error());
    }
    auto rows = run(statement, values);
    const Done fully = database_.run("PRAGMA synchronous = FULL");
    return fully ? std::move(rows) : fail(fully.error());
}

Done SqliteSql::runAll(std::string_view script)
{
    return database_.run(std::string(script).c_str());
}

Done SqliteSql::begin(const Id& /*site*/)
{
    return database_.run("BEGIN IMMEDIATE");
}

Done SqliteSql::commit()
{
    return database_.run("COMMIT");
}

void SqliteSql::rollBack()
{
    // It fails only where SQLite has undone the transaction already, which is what is wanted.
    static_cast<void>(database_.run("ROLLBACK"));
}

std::span<const std::string_view> SqliteSql::schema() const
{
    static const std::array steps = {schema::hub_0001_sqlite(), schema::hub_0002_sqlite()};
    return steps;
}

} // namespace loopside::hub
