// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/kill_rounds.h"

#include <catch2/catch.hpp>

TEST_CASE("every reading that the program acknowledged is in the journal after a kill, 200 times")
{
    loopside::test::checkProgramKills(200, 1000);
}
