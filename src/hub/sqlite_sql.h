// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/sql.h"
#include "store/database.h"

#include <map>
#include <memory>

namespace loopside::hub {

/// The hub's own file, by SQLite: write-ahead log, every commit synced.
class SqliteSql final : public Sql
{
public:
    /// Opens the file `path` and lays it out; makes it, open to its owner alone, if it is not there. Corrupt for a file
    /// that is not a hub's, Incompatible for one of a newer version: neither is changed.
    [[nodiscard]] static Result<std::unique_ptr<SqliteSql>> open(const std::string& path);

    [[nodiscard]] Result<std::vector<SqlRow>> run(std::string_view statement,
                                                  const std::vector<SqlValue>& values) override;
    [[nodiscard]] Done add(const SqlRows& rows) override;
    [[nodiscard]] Result<std::vector<SqlRow>> runLightly(std::string_view statement,
                                                         const std::vector<SqlValue>& values) override;
    [[nodiscard]] Done runAll(std::string_view script) override;
    [[nodiscard]] Done begin(const Id& site) override;
    [[nodiscard]] Done commit() override;
    void rollBack() override;
    [[nodiscard]] std::span<const std::string_view> schema() const override;

private:
    explicit SqliteSql(store::Database database) : database_{std::move(database)} {}

    [[nodiscard]] Result<store::Statement*> prepared(std::string_view statement);

    store::Database database_;
    std::map<std::string, store::Statement, std::less<>> statements_; ///< Goes before the database.
};

} // namespace loopside::hub
