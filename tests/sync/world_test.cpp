// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/world.h"

#include <catch2/catch.hpp>

using namespace loopside::test;

TEST_CASE("when the links heal, hub and tablets hold what they must, and nothing is lost or doubled")
{
    Synced all;
    for (std::uint64_t seed = 1; seed <= 200; ++seed) {
        const Synced one = synchronise(seed);
        CHECK(one.firstFault == "");
        all.entries += one.entries;
        all.lost += one.lost;
        all.doubled += one.doubled;
        all.restarts += one.restarts;
        all.restores += one.restores;
        all.forks += one.forks;
        all.keptAside += one.keptAside;
        all.ahead += one.ahead;
    }
    // What is to be survived did happen.
    CHECK(all.entries > 10'000);
    CHECK(all.lost > 1000);
    CHECK(all.doubled > 500);
    CHECK(all.restarts > 1000);
    CHECK(all.restores > 500);
    CHECK(all.forks > 100);
    CHECK(all.keptAside > 50);
    CHECK(all.ahead > 500);
}

TEST_CASE("a tablet that goes on before it stores is found out")
{
    int found = 0;
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        found += synchronise(seed, Planted::HastyTablet).firstFault.empty() ? 0 : 1;
    }
    CHECK(found >= 5);
}

TEST_CASE("the check of what a hub holds can fail")
{
    CHECK(synchronise(1, Planted::ForgottenEntry).firstFault != "");
}
