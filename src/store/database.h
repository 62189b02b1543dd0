// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"

#include <sqlite3.h>

#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace loopside::store {

class Database;

/// A prepared statement. What is bound must stay where it is until the statement was reset. Places count from 1,
/// columns from 0.
class Statement
{
public:
    void bind(int place, std::int64_t number);
    void bindBytes(int place, std::span<const std::uint8_t> bytes);
    void bindBytes(int place, std::string_view bytes);
    void bindText(int place, std::string_view text);
    void bindNothing(int place);

    /// Goes on to the next row; false when there is none left.
    [[nodiscard]] Result<bool> step();

    /// Makes it ready to be bound and run again, and lets go of what it holds in the database.
    void reset();

    /// How many columns its rows have.
    [[nodiscard]] int columns() const { return sqlite3_column_count(statement_.get()); }

    [[nodiscard]] bool isNothing(int column) const;
    [[nodiscard]] bool isNumber(int column) const
    {
        return sqlite3_column_type(statement_.get(), column) == SQLITE_INTEGER;
    }
    [[nodiscard]] std::int64_t number(int column) const;

    /// The bytes of a text or a blob; valid until the next step or reset.
    [[nodiscard]] std::string_view bytes(int column) const;

private:
    friend class Database;
    struct Finalize
    {
        void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
    };

    Statement(const std::string* path, sqlite3_stmt* statement) : path_{path}, statement_{statement} {}

    const std::string* path_; ///< Of the database, for what it says when it fails.
    std::unique_ptr<sqlite3_stmt, Finalize> statement_;
};

/// Resets a statement at the end of a scope.
class StatementUse
{
public:
    explicit StatementUse(Statement& statement) : statement_{statement} {}
    StatementUse(const StatementUse&) = delete;
    StatementUse& operator=(const StatementUse&) = delete;
    ~StatementUse() { statement_.reset(); }

private:
    Statement& statement_;
};

/// One connection to a database file. The one place where SQLite's codes become errors.
class Database
{
public:
    /// Opens the file `path`, which must be there, to read and write. Waits up to `busyTimeoutMs` for other programs.
    [[nodiscard]] static Result<Database> open(const std::string& path, int busyTimeoutMs);

    /// An empty database that nobody else sees and that is gone when it is closed. What it says when it fails, it says
    /// of `path`.
    [[nodiscard]] static Result<Database> openForItself(const std::string& path);

    /// Runs the statements of `sql`, which ends in a zero byte, and drops what they return.
    [[nodiscard]] Done run(const char* sql);

    /// The one value that `sql` returns.
    [[nodiscard]] Result<std::int64_t> number(std::string_view sql);
    [[nodiscard]] Result<std::string> text(std::string_view sql);

    [[nodiscard]] Result<Statement> prepare(std::string_view sql);

    /// Runs `read` on the database as it is at one moment, whatever others write meanwhile.
    template<class Read>
    [[nodiscard]] auto still(Read read) -> decltype(read())
    {
        if (const Done begun = run("BEGIN"); !begun) {
            return fail(begun.error());
        }
        auto found = read();
        const Done ended = run("COMMIT");
        return !found || ended ? found : fail(ended.error());
    }

    /// Whether SQLite refused what it was asked last as nothing that this database can do, and in which words.
    [[nodiscard]] std::optional<std::string> whyImpossible() const
    {
        const bool isSo = sqlite3_extended_errcode(connection_.get()) == SQLITE_ERROR;
        return isSo ? std::optional<std::string>(sqlite3_errmsg(connection_.get())) : std::nullopt;
    }

    /// Whether it cannot be written. What the file itself says of that is known once something was read.
    [[nodiscard]] bool isReadOnly() const { return sqlite3_db_readonly(connection_.get(), "main") != 0; }

    /// Whether the write-ahead log stays as it is when this connection, the last one, is closed; else it is brought
    /// into the file and removed.
    void leaveLog(bool leave)
    {
        sqlite3_db_config(connection_.get(), SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, leave, nullptr);
    }

    /// Makes `copy` hold what this database holds at this moment.
    [[nodiscard]] Done copyInto(Database& copy);

    /// The row that was inserted last.
    [[nodiscard]] std::int64_t lastRow() const { return sqlite3_last_insert_rowid(connection_.get()); }

    [[nodiscard]] const std::string& path() const { return *path_; }

private:
    struct Close
    {
        void operator()(sqlite3* connection) const { sqlite3_close_v2(connection); }
    };

    Database(const std::string& path, sqlite3* connection);

    std::unique_ptr<const std::string> path_; ///< On the heap, so that statements can point to it.
    std::unique_ptr<sqlite3, Close> connection_;
};

/// A transaction that writes; what was not committed at the end of the scope is undone.
class WriteTransaction
{
public:
    [[nodiscard]] static Result<WriteTransaction> begin(Database& database);

    WriteTransaction(WriteTransaction&& other) noexcept;
    WriteTransaction& operator=(WriteTransaction&&) = delete;
    ~WriteTransaction();

    [[nodiscard]] Done commit();

private:
    explicit WriteTransaction(Database& database) : database_{&database} {}

    Database* database_; ///< None once it is over.
};

/// The first `bytes` of the file `path`, fewer where it is shorter. Read through SQLite's own door to files: whoever
/// opens and closes a file past it takes away the locks that this program's connections have on it (on POSIX closing
/// any descriptor of a file does), and the next program that closes the database would remove the log under them.
[[nodiscard]] Result<std::string> beginningOf(const std::string& path, std::size_t bytes);

/// What to tell of the code `code` of SQLite, of which it says `detail`, about the database file `path`.
[[nodiscard]] Error errorOf(const std::string& path, int code, const std::string& detail);

/// What to tell of damage to the database file `path`, of which SQLite or we say `detail`.
[[nodiscard]] Error damageOf(const std::string& path, const std::string& detail);

} // namespace loopside::store
