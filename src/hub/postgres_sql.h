// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/sql.h"

#include <map>
#include <memory>

struct pg_conn;

namespace loopside::hub {

/// PostgreSQL 15, by libpq. Where the connection is lost, calls are answered with Unavailable, and the next one that
/// begins something tries to connect anew.
class PostgresSql final : public Sql
{
public:
    /// Connects by `connection`, a connection string or URI of libpq, and lays the database out. Unavailable, without
    /// the string in the sentence, if nobody answers.
    [[nodiscard]] static Result<std::unique_ptr<PostgresSql>> open(const std::string& connection);

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
    struct Finish
    {
        void operator()(pg_conn* connection) const;
    };

    explicit PostgresSql(pg_conn* connection) : connection_{connection} {}

    [[nodiscard]] Done connectIfLost();
    [[nodiscard]] Done makeSettings();
    [[nodiscard]] Result<std::string> prepared(std::string_view statement, std::size_t values);

    std::unique_ptr<pg_conn, Finish> connection_;
    std::map<std::string, std::string, std::less<>> names_; ///< Of the statements that the server has prepared.
    bool isInTransaction_ = false;
};

} // namespace loopside::hub
