// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/simulation_rounds.h"

#include <catch2/catch.hpp>

using namespace loopside::test;

TEST_CASE(
    "whatever a technician does and disk, clock and power do to a tablet, nothing acknowledged is lost or altered")
{
    const std::uint64_t seed = GENERATE(1U, 2U, 3U);
    const Simulated done = simulate(seed, 12, Planted::Nothing);
    CHECK(done.firstFault == "");
    CHECK(done.starts == 12);
    CHECK(done.kills + done.powerCuts > 0);
    CHECK(done.clockFaults > 0);
    CHECK(done.acknowledged > 50);
}

TEST_CASE("what is planted in the simulation is found, and told with its seed")
{
    CHECK_THAT(simulate(1, 12, Planted::ForgottenAct).firstFault, Catch::Contains("seed 1, start 3"));
    CHECK_THAT(simulate(2, 40, Planted::LyingDisk).firstFault, Catch::Contains("seed 2"));
}
