// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// When to read next: common practice, no source (2, 5, 10, 15 min, every 15 min in the first hour, then 30 min or once
// a turnover; 2 and 5 min after a change; 10 min above half the limit; never under a minute).

#include "run/pace.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

constexpr double none = -1.0;

/// Minute at which the next reading is due, seen from `minute`.
double dueOf(const Walk& walk, double minute)
{
    const auto due = walk.standingAt(minute).due;
    return due ? static_cast<double>(due->count()) / 60e3 : none;
}

double secondsToNext(const Walk& walk, double minute)
{
    const auto next = walk.standingAt(minute).nextReadingIn();
    return next ? static_cast<double>(next->count()) / 1e3 : none;
}

Walk filtering(Setup setup = ordinary())
{
    return Walk(std::move(setup)).filteringAt(0);
}

/// A tank whose turnover takes longer than any interval.
Setup bigTank()
{
    Setup setup = ordinary();
    setup.tank.volume = typed<units::Volume>("4000 L");
    return setup;
}

} // namespace

TEST_CASE("readings are planned 2, 5, 10, 15, 30, 45 and 60 min after the start")
{
    CHECK(dueOf(filtering(), 0) == 2.0);
    const auto [at, due] = GENERATE(table<double, double>(
        {{2, 5}, {5, 10}, {10, 15}, {15, 30}, {30, 45}, {45, 60}, {3.5, 5}, {4.5, 10}, {20, 30}}));
    CAPTURE(at);
    CHECK(dueOf(filtering().readingAt(at, "20 14 4"), at) == due);
}

TEST_CASE("after the first hour a reading is planned every 30 min or once a turnover, whichever is shorter")
{
    CHECK(dueOf(filtering(bigTank()).readingAt(60, "20 14 4"), 60) == 90.0);
    CHECK(dueOf(filtering().readingAt(60, "20 14 4"), 60) == 80.0); // a turnover takes 20 min
    CHECK(dueOf(filtering().readingAt(100, "20 14 4"), 100) == 120.0);
}

TEST_CASE("above half a limit a reading is planned within 10 min")
{
    CHECK(dueOf(filtering(bigTank()).readingAt(60, "30 25 4"), 60) == 70.0); // 21 of 42 psi
    CHECK(dueOf(filtering(bigTank()).readingAt(60, "30 24 4"), 60) == 90.0);
    CHECK(dueOf(filtering(bigTank()).readingAt(60, "17 4 4"), 60) == 70.0); // 13 of 25 psi on stage 1
    CHECK(dueOf(filtering().readingAt(2, "30 25 4"), 2) == 5.0);            // sooner anyhow
}

TEST_CASE("after a restart, a valve move or a changeover readings are planned in 2 and 5 min")
{
    Walk walk = filtering(bigTank()).readingAt(60, "20 14 4").bypassingAt(70);
    CHECK(dueOf(walk, 70) == none);
    walk.filteringAt(75);
    CHECK(dueOf(walk, 75) == 77.0);
    CHECK(dueOf(walk.readingAt(77, "20 14 4"), 77) == 80.0);
    CHECK(dueOf(walk.readingAt(80, "20 14 4"), 80) == 110.0);
    walk.stoppedAt(81).changeoverAt(85, 2, 2);
    CHECK(dueOf(walk, 85) == none);
    CHECK(dueOf(walk.filteringAt(86), 86) == 88.0);
}

TEST_CASE("a start against its verdict is read after one minute, every other by the plan")
{
    const StartTold noGo{.verdict = "no-go", .limiting = "suction"};
    StartTold overridden = noGo;
    overridden.by = "P. Ortiz";
    overridden.why = "the line waits for oil";
    CHECK(dueOf(Walk().sayAt(0, noGo).filteringAt(3), 3) == 5.0);

    Walk walk = Walk().sayAt(0, overridden).bypassingAt(1).filteringAt(3);
    CHECK(dueOf(walk, 3) == 4.0);
    CHECK(dueOf(Walk(walk).noteAt(3.5), 3.5) == 4.0);
    CHECK(walk.readingAt(4, "20 14 4").standingAt(4).due == std::chrono::minutes(5)); // from there on by the plan
    CHECK(dueOf(walk.stoppedAt(10).filteringAt(20), 20) == 22.0);                     // a restart is not overridden
}

TEST_CASE("an override that was struck, or told while filtering, changes no plan")
{
    const StartTold overridden{.verdict = "warm", .by = "P. Ortiz", .why = "short run"};
    Walk struck = Walk().sayAt(0, overridden);
    struck.strikeAt(1, struck.last());
    CHECK(dueOf(struck.filteringAt(3), 3) == 5.0);
    CHECK(dueOf(filtering().sayAt(1, overridden), 1) == 2.0);
}

TEST_CASE("notes and questioned sets leave the plan as it was")
{
    CHECK(dueOf(filtering().readingAt(15, "20 14 4").noteAt(20), 20) == 30.0);
    CHECK(dueOf(filtering().readingAt(15, "20 14 4").readingAt(20, "120 14 4"), 20) == 30.0);
    CHECK(dueOf(filtering().readingAt(15, "20 14 4").readingAt(20, "- - -"), 20) == 30.0);
}

TEST_CASE("the next reading is never less than a minute away, and none is planned while not filtering")
{
    CHECK(secondsToNext(filtering().readingAt(2, "20 14 4"), 2) == 180.0);
    CHECK(secondsToNext(filtering().readingAt(2, "20 14 4"), 4.5) == 60.0);
    CHECK(secondsToNext(filtering().readingAt(2, "20 14 4"), 30) == 60.0);
    CHECK(secondsToNext(Walk(), 10) == none);
    CHECK(secondsToNext(filtering().readingAt(2, "20 14 4").stoppedAt(3), 3) == none);
    CHECK(secondsToNext(filtering().readingAt(2, "20 14 4").closeAt(3), 3) == none);
}
