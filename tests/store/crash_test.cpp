// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/crash_rounds.h"

#include <catch2/catch.hpp>

using namespace loopside::test;

TEST_CASE("a power cut at any write or sync, whatever it leaves of what was not synced, costs no acknowledged entry")
{
    const CrashReport report = crashAtEvery(211, CutAt::AnyChange, 20260712, false);
    CHECK(report.firstFault == "");
    CHECK(report.cuts > 60); // else nothing was tried
    CHECK(report.torn > 0);
}

TEST_CASE("a power cut at every sync, one after the other, costs no acknowledged entry")
{
    const CrashReport report = crashAtEvery(1, CutAt::Syncs, 20260712, false);
    CHECK(report.firstFault == "");
    CHECK(report.cuts >= 6 * 11); // each of the batches syncs at least once, and each cut leaves six states
}

TEST_CASE("a disk that acknowledges syncs and does none is found out")
{
    CHECK_THAT(crashAtEvery(53, CutAt::AnyChange, 20260712, true).firstFault, Catch::Contains("were acknowledged"));
}
