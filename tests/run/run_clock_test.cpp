// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

double enteredMinute(const Walk& walk)
{
    return static_cast<double>(walk.run().facts.back().entered.count()) / 60e3;
}

double bestOf(const Walk& walk, double minute)
{
    return walk.standingAt(minute).credit.turnovers.best;
}

std::optional<std::int64_t> jumpToldBy(const Walk& walk)
{
    for (const Decided& one : walk.decided()) {
        if (const auto* jump = std::get_if<ClockJumped>(&one.event)) {
            return jump->byMs;
        }
    }
    return std::nullopt;
}

template<class What>
std::optional<What> toldBy(const Walk& walk)
{
    for (const Decided& one : walk.decided()) {
        if (const auto* what = std::get_if<What>(&one.event)) {
            return *what;
        }
    }
    return std::nullopt;
}

} // namespace

TEST_CASE("a restart is told once, with what the wall clock says and what is sure")
{
    Walk walk = Walk().filteringAt(0).readingAt(2, "20 14 4");
    walk.restarts();    // started anew at minute 2, by the monotonic clock
    walk.wallJumps(20); // and its wall clock set ahead meanwhile
    walk.readingAt(5, "20 14 4");
    const auto told = toldBy<TabletRestarted>(walk);
    REQUIRE(told);
    CHECK(told->byMs == 23 * 60'000);
    CHECK(told->sureMs == 3 * 60'000);
    REQUIRE(walk.run().clock.unsure().size() == 1);
    CHECK(walk.run().clock.unsure()[0].from == std::chrono::minutes(2));
    CHECK(walk.run().clock.unsure()[0].to == std::chrono::minutes(22));
    walk.readingAt(6, "20 14 4");
    CHECK_FALSE(toldBy<TabletRestarted>(walk));
}

TEST_CASE("a wall clock that jumps changes no duration and is recorded")
{
    Walk walk = Walk().filteringAt(0).readingAt(2, "20 14 4");
    walk.wallJumps(-58).readingAt(12, "20 14 4");
    CHECK(jumpToldBy(walk) == -58 * 60'000);
    CHECK(enteredMinute(walk) == 12.0);
    CHECK_THAT(bestOf(walk, 12), Catch::WithinAbs(0.6, 1e-9)); // 12 of 20 min
    walk.readingAt(14, "20 14 4");
    CHECK(jumpToldBy(walk) == std::nullopt); // told once
}

TEST_CASE("a wall clock set by two minutes or less is not worth an entry")
{
    CHECK(jumpToldBy(Walk().filteringAt(0).wallJumps(2).readingAt(2, "20 14 4")) == std::nullopt);
    CHECK(jumpToldBy(Walk().filteringAt(0).wallJumps(2.1).readingAt(2, "20 14 4")) == 126'000);
}

TEST_CASE("a jump before the close is recorded too")
{
    Walk walk = Walk().filteringAt(0).wallJumps(60).closeAt(10);
    CHECK(jumpToldBy(walk) == 60 * 60'000);
    CHECK_THAT(walk.run().closed->turnovers.best, Catch::WithinAbs(0.5, 1e-9));
}

TEST_CASE("a change to winter time changes the offset and nothing else")
{
    // The wall clock counts UTC; local time going back an hour is another offset and no jump.
    const Stamp summer{1'792'890'000'000, 120, 5'000'000'000, {{1}}};
    Stamp winter = summer;
    winter.wallMs += 600'000;
    winter.monoNs += 600'000'000'000;
    winter.offsetMin = 60;
    RunClock clock(summer, {{7}});
    CHECK(clock.enter(winter, {{7}}) == std::chrono::minutes(10));
}

TEST_CASE("across a restart the wall clock counts")
{
    Walk walk = Walk().filteringAt(0).readingAt(2, "20 14 4");
    walk.restarts().readingAt(12, "20 14 4").readingAt(15, "20 14 4");
    CHECK(enteredMinute(walk) == 15.0);
    CHECK(jumpToldBy(walk) == std::nullopt);
    CHECK_THAT(bestOf(walk, 15), Catch::WithinAbs(0.75, 1e-9));
}

TEST_CASE("a tablet that restarts with its clock years behind goes on from its last entry")
{
    Walk walk = Walk().filteringAt(0).readingAt(10, "20 14 4");
    walk.restarts().wallJumps(-3 * 365 * 24 * 60.0).readingAt(12, "22 14 4");
    CHECK(enteredMinute(walk) == 12.0); // how long it was off cannot be told; two minutes it has been running
    walk.readingAt(15, "23 14 4");
    CHECK(enteredMinute(walk) == 15.0);
    const Standing standing = walk.standingAt(15);
    REQUIRE(standing.lastReading != nullptr);
    CHECK(standing.lastReading->reading->gauges.front()->low == number("23"));
}

TEST_CASE("two devices meet on the wall clock, each keeping its own monotonic time")
{
    Walk walk = Walk().filteringAt(0).readingAt(2, "20 14 4");
    walk.onDevice(2).readingAt(10, "20 14 4");
    CHECK(enteredMinute(walk) == 10.0);
    CHECK(jumpToldBy(walk) == std::nullopt);
    walk.wallJumps(-30).readingAt(15, "20 14 4");
    CHECK(enteredMinute(walk) == 15.0); // by its own monotonic clock
    walk.onDevice(1).readingAt(20, "20 14 4");
    CHECK(enteredMinute(walk) == 20.0);
    CHECK_THAT(bestOf(walk, 20), Catch::WithinAbs(1.0, 1e-9));
}

TEST_CASE("a second device whose clock is ahead shifts its own entries by as much and no others")
{
    Walk walk = Walk().filteringAt(0).readingAt(2, "20 14 4");
    walk.onDevice(2, 3.0).readingAt(10, "20 14 4");
    CHECK(enteredMinute(walk) == 13.0);
    walk.onDevice(1).readingAt(15, "20 14 4");
    CHECK(enteredMinute(walk) == 15.0);
}

TEST_CASE("time never runs back past the opening")
{
    Walk walk;
    walk.onDevice(2, -60.0).noteAt(5);
    CHECK(enteredMinute(walk) == 0.0);
}
