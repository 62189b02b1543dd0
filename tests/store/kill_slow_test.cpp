// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/asked_kills.h"
#include "store/kill_rounds.h"

#include <catch2/catch.hpp>

TEST_CASE("every acknowledged entry is there after the program was killed, 200 times or LOOPSIDE_KILLS times")
{
    const auto [rounds, firstSeed] = loopside::test::askedKills(200);
    loopside::test::checkKillRounds(rounds, firstSeed);
}
