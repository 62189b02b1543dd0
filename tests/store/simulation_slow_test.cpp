// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/simulation_rounds.h"

#include <catch2/catch.hpp>

#include <cstdlib>

using namespace loopside::test;

TEST_CASE("the simulation of a tablet holds for 40 seeds, or LOOPSIDE_SEEDS, of 40 starts each")
{
    const char* asked = std::getenv("LOOPSIDE_SEEDS");
    const int seeds = asked == nullptr ? 40 : std::atoi(asked);
    for (int seed = 1; seed <= seeds; ++seed) {
        CHECK(simulate(static_cast<std::uint64_t>(seed), 40, Planted::Nothing).firstFault == "");
    }
}
