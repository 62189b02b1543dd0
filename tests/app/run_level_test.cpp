// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/run_level.h"

#include "app_bench.h"
#include "run/level.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

TEST_CASE("after stop-now a run is not well before a set was logged")
{
    AppBench bench;
    bench.playScene(QStringLiteral("no-flow"));
    CHECK(app::runLevelOf(bench.tablet(), *bench.tablet().shown()).sign == text("stop"));
    bench.app()->alert()->stopped();
    const run::RunState& run = *bench.tablet().shown();
    REQUIRE(bench.tablet().standing(run).findings.empty());
    CHECK(run::stopSinceLastSet(run, bench.tablet().standing(run)).has_value());
    CHECK(app::runLevelOf(bench.tablet(), run).sign == text("caution"));
    bench.pass(60);
    REQUIRE(bench.tablet().say(setOf({0, 0, 0}, "32 C")));
    CHECK_FALSE(run::stopSinceLastSet(run, bench.tablet().standing(run)).has_value());
}
