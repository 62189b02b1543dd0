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

TEST_CASE("what says stop is a caution once the pump is stopped, until a set says otherwise")
{
    AppBench bench;
    bench.playScene(QStringLiteral("torn"));
    const run::RunState& run = *bench.tablet().shown();
    const int torn = bench.tablet().standing(run).findings.front().stage.value();
    const auto stage = [&] { return run::stageLevelOf(run, bench.tablet().standing(run), torn - 1); };
    CHECK(stage().sign == "stop");
    bench.app()->alert()->stopped();
    REQUIRE(bench.tablet().standing(run).findings.front().level == run::FindingLevel::Stop);
    CHECK(stage().sign == "caution");
    CHECK(app::runLevelOf(bench.tablet(), run).sign == text("caution"));
    CHECK(app::runLevelOf(bench.tablet(), run).word == bench.tablet().label("app.level.found"));
    CHECK(bench.app()->run()->lineLevel() == text("caution"));
    CHECK(bench.app()->run()->lineHasReasons());
}

TEST_CASE("a stage that no oil goes through is not said to be below its limit, nor by the clock at it")
{
    AppBench bench;
    bench.playScene(QStringLiteral("aerated"));
    const run::RunState& run = *bench.tablet().shown();
    const auto stage = [&] { return bench.app()->run()->stages()->rows()[0]; };
    const auto level = [&] { return run::stageLevelOf(run, bench.tablet().standing(run), 0); };
    const QString noTime = bench.tablet().label("outlook.label.not-filtering");
    CHECK_FALSE(stage().contains(noTime));
    REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Bypassing, std::nullopt})));
    CHECK(stage().contains(noTime));
    bench.pass(60);
    REQUIRE(bench.tablet().say(setOf({10, 10, 10}, "32 C")));
    CHECK(level().sign == "unknown");
    CHECK(level().word == "not-filtering");
}

TEST_CASE("a limit that is passed is told apart from one that is reached")
{
    AppBench bench;
    const auto& site = bench.tablet().site();
    const auto& stages = site.carts[0].stages;
    REQUIRE(stages[0].changeLimit->toText() == "170 kPa");
    REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, stages, {}}));
    REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt})));
    bench.pass(600);
    REQUIRE(bench.tablet().say(setOf({240, 70, 40}, "32 C")));
    const run::RunState& run = *bench.tablet().shown();
    CHECK(run::stageLevelOf(run, bench.tablet().standing(run), 0).word == "limit");
    bench.pass(60);
    REQUIRE(bench.tablet().say(setOf({245, 70, 40}, "32 C")));
    CHECK(run::stageLevelOf(run, bench.tablet().standing(run), 0).word == "over");
}
