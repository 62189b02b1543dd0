// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

TEST_CASE("a notice does not say that nothing was logged, and trouble does")
{
    AppBench bench;
    bench.tablet().setNotice(text("The clock was set."));
    CHECK(bench.app()->trouble() == text("The clock was set."));
    CHECK(bench.app()->troubleTitle().isEmpty());
    bench.tablet().setTrouble(text("The disk is full."));
    CHECK(bench.app()->troubleTitle() == text("Nothing was logged."));
}

TEST_CASE("a start shows the open run first, and the next second those that are over")
{
    AppBench bench;
    const app::Site& site = bench.tablet().site();
    const auto open = [&] {
        REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
        REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt})));
        return bench.tablet().shown()->id;
    };
    const Id over = open();
    REQUIRE(bench.tablet().submit(run::CloseRun{over, run::Ending::StoppedEarly, "shift over"}));
    const Id now = open();

    bench.restartBeforeFrame();
    REQUIRE(bench.tablet().shown() != nullptr);
    CHECK(bench.tablet().shown()->id == now);
    CHECK(bench.tablet().state().runs.size() == 1);
    const run::RunState* const shown = bench.tablet().shown();

    bench.pass(1);
    CHECK(bench.tablet().state().runs.contains(over));
    CHECK(bench.tablet().shown() == shown); // who points to it still may
}

TEST_CASE("a command of a new start knows the runs that are over")
{
    AppBench bench;
    const app::Site& site = bench.tablet().site();
    REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
    const Id over = bench.tablet().shown()->id;
    REQUIRE(bench.tablet().submit(run::CloseRun{over, run::Ending::StoppedEarly, "shift over"}));
    bench.restartBeforeFrame();
    CHECK(bench.tablet().state().runs.empty());
    REQUIRE(bench.tablet().submit(run::Say{over, run::Noted{"the hose was left there"}}));
    CHECK(bench.tablet().state().runs.contains(over));
}

TEST_CASE("no notice covers why nothing was logged")
{
    AppBench bench;
    bench.tablet().setTrouble(text("The disk is full."));
    bench.tablet().setNotice(text("The clock was set."));
    CHECK(bench.app()->trouble() == text("The disk is full."));
    bench.app()->dismissTrouble();
    bench.tablet().setNotice(text("The clock was set."));
    CHECK(bench.app()->trouble() == text("The clock was set."));
}
