// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The two databases of a hub, as tests want them: each with a site that nobody used before.

#pragma once

#include "hub/postgres_server.h"
#include "hub/postgres_sql.h"
#include "hub/sql_hub.h"
#include "hub/sqlite_sql.h"
#include "store/system_clock.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <array>
#include <bit>

namespace loopside::test {

inline Id freshId()
{
    store::SystemRandom random;
    return {std::bit_cast<std::array<std::uint8_t, 16>>(std::array{random.next(), random.next()})};
}

class HubOnDisk
{
public:
    HubOnDisk() { reopen(); }
    [[nodiscard]] hub::SqlHub& shelf() { return *hub_; }
    [[nodiscard]] hub::Sql& sql() { return *sql_; }
    [[nodiscard]] const Id& site() const { return site_; }
    [[nodiscard]] std::string path() const { return folder_.file("hub.sqlite"); }
    void reopen()
    {
        hub_.reset();
        sql_.reset();
        auto opened = hub::SqliteSql::open(path());
        REQUIRE(opened);
        sql_ = *std::move(opened);
        hub_ = std::make_unique<hub::SqlHub>(*sql_, site_);
    }

private:
    TempFolder folder_;
    Id site_ = freshId();
    std::unique_ptr<hub::SqliteSql> sql_;
    std::unique_ptr<hub::SqlHub> hub_;
};

class HubInPostgres
{
public:
    HubInPostgres() { reopen(); }
    [[nodiscard]] hub::SqlHub& shelf() { return *hub_; }
    [[nodiscard]] hub::Sql& sql() { return *sql_; }
    [[nodiscard]] const Id& site() const { return site_; }
    void reopen()
    {
        hub_.reset();
        sql_.reset();
        auto opened = hub::PostgresSql::open(PostgresServer::running().connection());
        INFO((opened ? "" : opened.error().sentence));
        REQUIRE(opened);
        sql_ = *std::move(opened);
        hub_ = std::make_unique<hub::SqlHub>(*sql_, site_);
    }

private:
    Id site_ = freshId();
    std::unique_ptr<hub::PostgresSql> sql_;
    std::unique_ptr<hub::SqlHub> hub_;
};

} // namespace loopside::test
