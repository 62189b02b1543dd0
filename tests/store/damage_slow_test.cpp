// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/damage_rounds.h"

#include <catch2/catch.hpp>

TEST_CASE("a bit turned in any byte of a journal's file is noticed or changes nothing")
{
    loopside::test::checkDamage(1);
}
