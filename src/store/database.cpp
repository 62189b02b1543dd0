// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/database.h"

#include "base/require.h"

#include <algorithm>
#include <filesystem>
#include <utility>
#include <vector>

namespace loopside::store {

Error errorOf(const std::string& path, int code, const std::string& detail)
{
    const Message::Argument where{"path", path};
    switch (code & 0xFF) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return {Errc::Unavailable,
                path + " is in use by another program: nothing was stored; close that program and try again",
                {"store-in-use", {where}}};
    case SQLITE_FULL:
        return {Errc::Io,
                "the disk is full: nothing was stored in " + path + "; make room and try again",
                {"store-disk-full", {where}}};
    case SQLITE_READONLY:
    case SQLITE_PERM:
        return {Errc::Io,
                path + " may only be read: nothing was stored; allow writing to it and its folder",
                {"store-not-writable", {where}}};
    case SQLITE_CANTOPEN:
        return {Errc::Io,
                path + " cannot be opened: see that it and its folder are there and may be written to",
                {"store-cannot-open", {where}}};
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
        return damageOf(path, detail);
    case SQLITE_CONSTRAINT:
        return {Errc::Conflict, path + " refuses it: " + detail};
    default:
        return {Errc::Io,
                "the disk failed: nothing was stored in " + path + " (" + detail + ")",
                {"store-disk-failed", {where, {"reason", detail}}}};
    }
}

namespace {

tl::unexpected<Error> problemOf(const std::string& path, sqlite3* connection)
{
    return fail(errorOf(path, sqlite3_extended_errcode(connection), sqlite3_errmsg(connection)));
}

/// A file as SQLite opens it, closed at the end.
class OpenFile
{
public:
    /// `name` was made by sqlite3_create_filename, and outlives it.
    OpenFile(sqlite3_vfs& disk, const char* name) : bytes_(static_cast<std::size_t>(disk.szOsFile))
    {
        code_ = disk.xOpen(&disk, name, file(), SQLITE_OPEN_READONLY | SQLITE_OPEN_MAIN_DB, nullptr);
    }
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;
    ~OpenFile()
    {
        if (file()->pMethods != nullptr) {
            file()->pMethods->xClose(file());
        }
    }

    [[nodiscard]] int code() const { return code_; }

    /// The first bytes, at most `most`, into `bytes`.
    [[nodiscard]] int read(std::string& bytes, std::size_t most)
    {
        sqlite3_int64 size = 0;
        const int code = file()->pMethods->xFileSize(file(), &size);
        bytes.resize(code == SQLITE_OK ? std::min(most, static_cast<std::size_t>(size)) : 0);
        return bytes.empty() ? code : file()->pMethods->xRead(file(), bytes.data(), static_cast<int>(bytes.size()), 0);
    }

private:
    [[nodiscard]] sqlite3_file* file() { return reinterpret_cast<sqlite3_file*>(bytes_.data()); }

    std::vector<char> bytes_; ///< As many as the disk wants for its file, zero at first.
    int code_ = SQLITE_OK;
};

} // namespace

Error damageOf(const std::string& path, const std::string& detail)
{
    return {Errc::Corrupt,
            path + " is damaged (" + detail
                + "): it is left as it is; loopside-cli restore makes it anew from what can be read and from backups, "
                  "and keeps the file",
            {"store-damaged", {{"path", path}, {"reason", detail}}}};
}

// What is bound is our own and below SQLite's limits, so that a refusal can only be a slip in this program.

void Statement::bind(int place, std::int64_t number)
{
    require(sqlite3_bind_int64(statement_.get(), place, number) == SQLITE_OK,
            "a number is bound to a place that exists");
}

void Statement::bindBytes(int place, std::span<const std::uint8_t> bytes)
{
    bindBytes(place, std::string_view(reinterpret_cast<const char*>(bytes.data()), bytes.size()));
}

void Statement::bindBytes(int place, std::string_view bytes)
{
    const char* data = bytes.empty() ? "" : bytes.data(); // a null pointer would be stored as NULL
    require(sqlite3_bind_blob64(statement_.get(), place, data, bytes.size(), SQLITE_STATIC) == SQLITE_OK,
            "bytes are bound to a place that exists");
}

void Statement::bindText(int place, std::string_view text)
{
    const char* data = text.empty() ? "" : text.data();
    require(sqlite3_bind_text64(statement_.get(), place, data, text.size(), SQLITE_STATIC, SQLITE_UTF8) == SQLITE_OK,
            "a text is bound to a place that exists");
}

void Statement::bindNothing(int place)
{
    require(sqlite3_bind_null(statement_.get(), place) == SQLITE_OK, "nothing is bound to a place that exists");
}

Result<bool> Statement::step()
{
    const int code = sqlite3_step(statement_.get());
    if (code != SQLITE_ROW && code != SQLITE_DONE) {
        return problemOf(*path_, sqlite3_db_handle(statement_.get()));
    }
    return code == SQLITE_ROW;
}

void Statement::reset()
{
    sqlite3_reset(statement_.get());
}

bool Statement::isNothing(int column) const
{
    return sqlite3_column_type(statement_.get(), column) == SQLITE_NULL;
}

std::int64_t Statement::number(int column) const
{
    return sqlite3_column_int64(statement_.get(), column);
}

std::string_view Statement::bytes(int column) const
{
    const auto* data = static_cast<const char*>(sqlite3_column_blob(statement_.get(), column));
    const int size = sqlite3_column_bytes(statement_.get(), column);
    return data == nullptr ? std::string_view() : std::string_view(data, static_cast<std::size_t>(size));
}

Database::Database(const std::string& path, sqlite3* connection)
    : path_{std::make_unique<const std::string>(path)}, connection_{connection}
{
}

Result<Database> Database::open(const std::string& path, int busyTimeoutMs)
{
    sqlite3* connection = nullptr;
    const int code = sqlite3_open_v2(path.c_str(), &connection, SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE, nullptr);
    Database database(path, connection);
    if (code != SQLITE_OK) {
        return fail(errorOf(path, code, sqlite3_errstr(code)));
    }
    if (database.isReadOnly()) {
        return fail(errorOf(path, SQLITE_READONLY, {}));
    }
    sqlite3_busy_timeout(connection, busyTimeoutMs);
    sqlite3_db_config(connection, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    return database;
}

Result<Database> Database::openForItself(const std::string& path)
{
    sqlite3* connection = nullptr;
    const int code = sqlite3_open_v2("", &connection, SQLITE_OPEN_READWRITE | SQLITE_OPEN_EXRESCODE, nullptr);
    Database database(path, connection);
    return code == SQLITE_OK ? Result<Database>(std::move(database)) : fail(errorOf(path, code, sqlite3_errstr(code)));
}

Result<std::string> beginningOf(const std::string& path, std::size_t bytes)
{
    sqlite3_vfs* disk = sqlite3_vfs_find(nullptr);
    require(disk != nullptr, "SQLite has a door to files");
    const std::string whole = std::filesystem::absolute(path).string();
    const std::unique_ptr<const char, void (*)(const char*)> name(
        sqlite3_create_filename(whole.c_str(), "", "", 0, nullptr),
        [](const char* made) { sqlite3_free_filename(const_cast<char*>(made)); });
    OpenFile file(*disk, name.get());
    std::string beginning;
    const int code = file.code() == SQLITE_OK ? file.read(beginning, bytes) : file.code();
    return code == SQLITE_OK ? Result<std::string>(std::move(beginning))
                             : fail(errorOf(path, code, sqlite3_errstr(code)));
}

Done Database::run(const char* sql)
{
    if (sqlite3_exec(connection_.get(), sql, nullptr, nullptr, nullptr) != SQLITE_OK) {
        return problemOf(path(), connection_.get());
    }
    return {};
}

Result<std::int64_t> Database::number(std::string_view sql)
{
    Result<Statement> statement = prepare(sql);
    if (!statement) {
        return fail(statement.error());
    }
    return statement->step().transform([&](bool) { return statement->number(0); });
}

Result<std::string> Database::text(std::string_view sql)
{
    Result<Statement> statement = prepare(sql);
    if (!statement) {
        return fail(statement.error());
    }
    return statement->step().transform([&](bool) { return std::string(statement->bytes(0)); });
}

Result<Statement> Database::prepare(std::string_view sql)
{
    sqlite3_stmt* statement = nullptr;
    const int code = sqlite3_prepare_v3(connection_.get(), sql.data(), static_cast<int>(sql.size()),
                                        SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
    if (code != SQLITE_OK) {
        return problemOf(path(), connection_.get());
    }
    return Statement(path_.get(), statement);
}

Done Database::copyInto(Database& copy)
{
    sqlite3_backup* backup = sqlite3_backup_init(copy.connection_.get(), "main", connection_.get(), "main");
    if (backup == nullptr) {
        return problemOf(copy.path(), copy.connection_.get());
    }
    const int copied = sqlite3_backup_step(backup, -1);
    const int finished = sqlite3_backup_finish(backup);
    if (copied == SQLITE_DONE && finished == SQLITE_OK) {
        return {};
    }
    const int code = finished != SQLITE_OK ? finished : copied;
    return fail(errorOf(copy.path(), code, sqlite3_errstr(code)));
}

Result<WriteTransaction> WriteTransaction::begin(Database& database)
{
    if (const Done begun = database.run("BEGIN IMMEDIATE"); !begun) {
        return fail(begun.error());
    }
    return WriteTransaction(database);
}

WriteTransaction::WriteTransaction(WriteTransaction&& other) noexcept
    : database_{std::exchange(other.database_, nullptr)}
{
}

WriteTransaction::~WriteTransaction()
{
    if (database_ != nullptr) {
        // It fails only where SQLite has undone the transaction already, which is what is wanted.
        static_cast<void>(database_->run("ROLLBACK"));
    }
}

Done WriteTransaction::commit()
{
    const Done committed = database_->run("COMMIT");
    if (committed) {
        database_ = nullptr;
    }
    return committed;
}

} // namespace loopside::store
