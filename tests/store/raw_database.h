// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <catch2/catch.hpp>
#include <sqlite3.h>

#include <memory>
#include <string>

namespace loopside::test {

/// A database file as another program sees it: plain SQL, none of our rules. For planting faults and for being in the
/// way.
class RawDatabase
{
public:
    explicit RawDatabase(const std::string& path)
    {
        sqlite3* connection = nullptr;
        REQUIRE(sqlite3_open(path.c_str(), &connection) == SQLITE_OK);
        connection_.reset(connection);
    }

    void run(const std::string& sql)
    {
        INFO(sql);
        const int code = sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr);
        INFO(sqlite3_errmsg(connection_.get()));
        REQUIRE(code == SQLITE_OK);
    }

    /// Whether SQLite lets `sql` run.
    [[nodiscard]] bool canRun(const std::string& sql)
    {
        return sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK;
    }

    /// Runs `sql` on a journal past the triggers that keep its entries, which stand there again afterwards.
    void runPastTriggers(const std::string& sql)
    {
        const std::string stay = text("SELECT sql FROM sqlite_schema WHERE name = 'entries_stay'");
        const std::string keep = text("SELECT sql FROM sqlite_schema WHERE name = 'entries_keep'");
        run("DROP TRIGGER entries_stay; DROP TRIGGER entries_keep; " + sql + "; " + stay + "; " + keep);
    }

    [[nodiscard]] std::string text(const std::string& sql)
    {
        sqlite3_stmt* statement = nullptr;
        REQUIRE(sqlite3_prepare_v2(connection_.get(), sql.c_str(), -1, &statement, nullptr) == SQLITE_OK);
        std::string found;
        if (sqlite3_step(statement) == SQLITE_ROW && sqlite3_column_type(statement, 0) != SQLITE_NULL) {
            found = reinterpret_cast<const char*>(sqlite3_column_text(statement, 0));
        }
        sqlite3_finalize(statement);
        return found;
    }

private:
    struct Close
    {
        void operator()(sqlite3* connection) const { sqlite3_close(connection); }
    };
    std::unique_ptr<sqlite3, Close> connection_;
};

} // namespace loopside::test
