// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

TEST_CASE("a target is told as reached only where what was read says so, not after a gap that nobody watched")
{
    AppBench bench;
    bench.playScene(QStringLiteral("valve-in-bypass"));
    const app::RunView& run = *bench.app()->run();
    REQUIRE(run.mode() == QStringLiteral("filtering"));
    REQUIRE(run.turnoversBest() < run.target());
    bench.pass(4 * 24 * 3600);
    REQUIRE(run.turnoversHigh() > run.target());
    CHECK(run.turnoversBest() < run.target());
    CHECK(run.remainingText() != bench.tablet().label("app.target-met"));
    CHECK(run.remainingText().contains(QStringLiteral("left")));
}
