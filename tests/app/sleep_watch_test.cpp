// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/sleep_watch.h"

#include "app_bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

int sleepsNoted(const AppBench& bench)
{
    return bench.entries(text("tablet-slept"));
}

} // namespace

TEST_CASE("more than a minute between two looks is noted by the open run with its length, and told, once")
{
    AppBench bench;
    bench.playScene(QStringLiteral("valve-in-bypass"));
    app::SleepWatch watch(bench.tablet());
    bench.pass(60);
    watch.look();
    CHECK(sleepsNoted(bench) == 0);
    bench.pass(61);
    bench.tablet().clearTrouble();
    watch.look();
    CHECK(sleepsNoted(bench) == 1);
    CHECK(bench.lastBody(text("tablet-slept")) == text(R"({"for_ms":61000})"));
    CHECK(bench.tablet().trouble().contains(text("could remind nobody")));
    watch.look();
    CHECK(sleepsNoted(bench) == 1);
    CHECK(bench.compareWithFold().isEmpty());
}

TEST_CASE("where no run is open nothing is noted of a sleep")
{
    AppBench bench;
    app::SleepWatch watch(bench.tablet());
    bench.pass(120);
    watch.look();
    CHECK(sleepsNoted(bench) == 0);
    bench.playScene(QStringLiteral("valve-in-bypass"));
    REQUIRE(bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::StoppedEarly, "shift over"}));
    bench.pass(120);
    watch.look();
    CHECK(sleepsNoted(bench) == 0);
}

TEST_CASE("while the program is closed nothing is noted of a sleep")
{
    AppBench bench;
    bench.playScene(QStringLiteral("valve-in-bypass"));
    bench.pass(120); // nobody looks
    bench.restart();
    app::SleepWatch watch(bench.tablet());
    watch.look();
    CHECK(sleepsNoted(bench) == 0);
}
