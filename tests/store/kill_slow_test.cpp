// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/kill_rounds.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>

TEST_CASE("every acknowledged entry is there after the program was killed, 200 times or LOOPSIDE_KILLS times")
{
    const char* asked = std::getenv("LOOPSIDE_KILLS");
    loopside::test::checkKillRounds(asked == nullptr ? 200 : std::max(std::atoi(asked), 1));
}
