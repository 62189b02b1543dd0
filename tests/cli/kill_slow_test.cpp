// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/kill_rounds.h"
#include "store/asked_kills.h"

#include <catch2/catch.hpp>

TEST_CASE("every reading that the program acknowledged is there after a kill, 200 times or LOOPSIDE_KILLS times")
{
    const auto [rounds, firstSeed] = loopside::test::askedKills(200);
    loopside::test::checkProgramKills(rounds, 250, firstSeed);
}
