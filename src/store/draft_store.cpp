// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/draft_store.h"

#include "store/database.h"
#include "store/durable_file.h"

#include <filesystem>
#include <system_error>
#include <utility>

namespace loopside::store {

namespace {

constexpr int busyTimeoutMs = 2000;

/// What a draft file says it is: "Lpdr" in the application id of SQLite's header.
constexpr std::int64_t draftApplicationId = 0x4C706472;
constexpr std::int64_t layout = 1;

constexpr const char* layoutSql = "CREATE TABLE drafts (run_id BLOB NOT NULL, field TEXT NOT NULL, text TEXT NOT NULL,"
                                  " PRIMARY KEY (run_id, field)) STRICT, WITHOUT ROWID;"
                                  "PRAGMA application_id = 0x4C706472; PRAGMA user_version = 1";
constexpr std::string_view putSql = "INSERT INTO drafts (run_id, field, text) VALUES (?, ?, ?) ON CONFLICT DO UPDATE "
                                    "SET text = excluded.text WHERE text IS NOT excluded.text";
constexpr std::string_view ofSql = "SELECT field, text FROM drafts WHERE run_id = ?";
constexpr std::string_view clearSql = "DELETE FROM drafts WHERE run_id = ?";

/// The values of the numbers that say what a file is: how much is in its schema, whose it is, its layout.
struct Kind
{
    std::int64_t tables = 0;
    std::int64_t application = 0;
    std::int64_t layout = 0;
};

Result<Kind> kindOf(Database& database)
{
    Kind kind;
    for (const auto& [sql, value] :
         {std::pair{"SELECT count(*) FROM sqlite_schema", &kind.tables},
          std::pair{"PRAGMA application_id", &kind.application}, std::pair{"PRAGMA user_version", &kind.layout}}) {
        const Result<std::int64_t> found = database.number(sql);
        if (!found) {
            return fail(found.error());
        }
        *value = *found;
    }
    return kind;
}

/// Lays an empty file out, all of it or nothing; refuses what is no draft file of this layout.
Done layOut(Database& database)
{
    Result<WriteTransaction> transaction = WriteTransaction::begin(database);
    if (!transaction) {
        return fail(transaction.error());
    }
    const Result<Kind> kind = kindOf(database);
    if (!kind) {
        return fail(kind.error());
    }
    if (kind->tables == 0 && kind->application == 0) {
        return database.run(layoutSql).and_then([&] { return transaction->commit(); });
    }
    if (kind->application != draftApplicationId) {
        return fail(Errc::Corrupt, database.path() + " is no draft file");
    }
    if (kind->layout != layout) {
        return fail(Errc::Incompatible, database.path() + " has the layout " + std::to_string(kind->layout));
    }
    return {};
}

Done checkPages(Database& database)
{
    const Result<std::string> found = database.text("PRAGMA integrity_check(1)");
    if (!found) {
        return fail(found.error());
    }
    return *found == "ok" ? Done() : fail(damageOf(database.path(), *found));
}

Done makeSettings(Database& database)
{
    const Result<std::string> mode = database.text("PRAGMA journal_mode = WAL");
    if (!mode) {
        return fail(mode.error());
    }
    if (*mode != "wal") {
        return fail(Errc::Io,
                    database.path() + " stands on a disk that cannot keep a write-ahead log: put it on a local disk");
    }
    // What was typed and is no draft any more is no longer in the file either: it may be a name.
    return database.run("PRAGMA synchronous = FULL; PRAGMA secure_delete = ON; PRAGMA trusted_schema = OFF; "
                        "PRAGMA cell_size_check = ON");
}

/// Writes what is there already: one wrong byte in the header makes a file that reads well and takes nothing.
Done tryToWrite(Database& database)
{
    return database.run("PRAGMA user_version = 1");
}

/// `path`.1, or the next number that is free.
Result<std::string> freeNameBeside(const std::string& path)
{
    for (int number = 1;; ++number) {
        std::string name = path + "." + std::to_string(number);
        const Result<bool> taken = isThere(name);
        if (!taken) {
            return fail(taken.error());
        }
        if (!*taken) {
            return name;
        }
    }
}

} // namespace

struct DraftStore::Connection
{
    Database database;
    Statement put;
    Statement of;
    Statement clear;
};

DraftStore::DraftStore(std::unique_ptr<Connection> connection) : connection_{std::move(connection)} {}

DraftStore::~DraftStore() = default;

Result<std::unique_ptr<DraftStore>> DraftStore::open(const std::string& path)
{
    Result<std::unique_ptr<DraftStore>> opened = openAsItIs(path);
    if (opened || opened.error().code == Errc::Unavailable) {
        return opened;
    }
    const Result<bool> there = isThere(path);
    if (!there || !*there) {
        return opened;
    }
    const Result<std::string> aside = freeNameBeside(path);
    if (!aside) {
        return fail(aside.error());
    }
    if (const Done moved = moveDatabase(path, *aside); !moved) {
        return fail(moved.error());
    }
    Result<std::unique_ptr<DraftStore>> begun = openAsItIs(path);
    if (!begun) {
        removeDatabase(path);
        static_cast<void>(moveDatabase(*aside, path)); // if this fails too, the drafts are still under the other name
        return begun;
    }
    (*begun)->notice_ = "what was typed and not logged before could not be read (" + opened.error().sentence
        + "): the file is kept as " + *aside + "; type it again";
    return begun;
}

Result<std::unique_ptr<DraftStore>> DraftStore::openAsItIs(const std::string& path)
{
    const Result<bool> there = isThere(path);
    if (!there) {
        return fail(there.error());
    }
    if (const Done made = *there ? Done() : writePrivateFile(path, {}); !made) {
        return fail(made.error());
    }
    Result<Database> database = Database::open(path, busyTimeoutMs);
    if (!database) {
        return fail(database.error());
    }
    const Done ready = checkPages(*database)
                           .and_then([&] { return layOut(*database); })
                           .and_then([&] { return makeSettings(*database); })
                           .and_then([&] { return tryToWrite(*database); });
    if (!ready) {
        return fail(ready.error());
    }
    Result<Statement> put = database->prepare(putSql);
    Result<Statement> of = database->prepare(ofSql);
    Result<Statement> clear = database->prepare(clearSql);
    for (const auto* statement : {&put, &of, &clear}) {
        if (!*statement) {
            return fail(statement->error());
        }
    }
    return std::unique_ptr<DraftStore>(new DraftStore(std::make_unique<Connection>(
        Connection{std::move(*database), std::move(*put), std::move(*of), std::move(*clear)})));
}

Done DraftStore::put(const Id& run, std::string_view field, std::string_view text)
{
    Statement& put = connection_->put;
    const StatementUse use(put);
    put.bindBytes(1, run.bytes);
    put.bindText(2, field);
    put.bindText(3, text);
    return put.step().transform([](bool) {});
}

Result<std::map<std::string, std::string>> DraftStore::of(const Id& run) const
{
    Statement& of = connection_->of;
    const StatementUse use(of);
    of.bindBytes(1, run.bytes);
    std::map<std::string, std::string> drafts;
    Result<bool> found = of.step();
    for (; found && *found; found = of.step()) {
        drafts.emplace(of.bytes(0), of.bytes(1));
    }
    if (!found) {
        return fail(found.error());
    }
    return drafts;
}

Done DraftStore::clear(const Id& run)
{
    Statement& clear = connection_->clear;
    const StatementUse use(clear);
    clear.bindBytes(1, run.bytes);
    return clear.step().transform([](bool) {});
}

} // namespace loopside::store
