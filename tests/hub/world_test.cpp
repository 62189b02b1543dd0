// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Tablets with bad links and a hub that keeps what it has in a database: from one seed everything goes as it goes with
// a hub in memory, to the last count.

#include "sync/world.h"

#include "hub/some_hub.h"

using namespace loopside;
using namespace loopside::test;

namespace {

void checkSeeds(hub::Sql& sql, std::uint64_t first, std::uint64_t last)
{
    Synced all;
    for (std::uint64_t seed = first; seed <= last; ++seed) {
        const Synced one = synchronise(seed, Planted::Nothing,
                                       [&](const Id& site) { return std::make_unique<hub::SqlHub>(sql, site); });
        CHECK(one.firstFault == "");
        CHECK(one == synchronise(seed));
        all.entries += one.entries;
        all.keptAside += one.keptAside;
    }
    CHECK(all.entries > 50 * (last - first));
    CHECK(all.keptAside > 0);
}

} // namespace

TEST_CASE("tablets with bad links and a hub with a file of its own end alike")
{
    HubOnDisk where;
    REQUIRE(where.sql().run("PRAGMA synchronous = OFF")); // no power is cut here
    checkSeeds(where.sql(), 1, 20);
}

TEST_CASE("tablets with bad links and a hub in PostgreSQL end alike")
{
    HubInPostgres where;
    checkSeeds(where.sql(), 16, 20);
}
