// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/crash_rounds.h"

#include <catch2/catch.hpp>

using namespace loopside::test;

TEST_CASE("a power cut at every 97th write or sync costs no acknowledged entry")
{
    CHECK(crashAtEvery(97, CutAt::AnyChange, 1, false).firstFault == "");
}
