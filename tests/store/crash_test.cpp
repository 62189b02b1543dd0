// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/crash_rounds.h"

#include <catch2/catch.hpp>

using namespace loopside::test;

TEST_CASE("a power cut at any write or sync, whatever it leaves of what was not synced, costs no acknowledged entry")
{
    const CrashReport report = crashAtEverySync(211, 20260712, false);
    CHECK(report.firstFault == "");
    CHECK(report.cuts > 60); // else nothing was tried
    CHECK(report.torn > 0);
}

TEST_CASE("a disk that acknowledges syncs and does none is found out")
{
    CHECK_THAT(crashAtEverySync(53, 20260712, true).firstFault, Catch::Contains("were acknowledged"));
}
