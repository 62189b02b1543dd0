// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/kill_rounds.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

using namespace loopside::test;

TEST_CASE("every acknowledged entry is there after the program was killed, 25 times")
{
    checkKillRounds(25);
}

TEST_CASE("an entry acknowledged before it was on disk is found missing")
{
    const TempFolder folder;
    std::uint64_t acknowledged = 0;
    std::optional<std::string> found;
    for (std::uint64_t seed = 1; seed <= 20 && !found; ++seed) {
        found = killAndReopen(folder.file("journal.db"), seed, Acknowledges::BeforeAppending, acknowledged);
    }
    REQUIRE(found.has_value());
    CHECK_THAT(*found, Catch::Contains("was acknowledged"));
}
