// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The forecast asked of a run: what goes into it, what its times mean, when to read next because of it. How good it is
// is judged elsewhere (tests/forecast_eval).

#include "run/outlook.h"

#include "run/learning.h"
#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

using std::chrono::minutes;

namespace {

Setup typedElements(std::string_view target = "9")
{
    Setup setup = withTarget(ordinary(), target);
    setup.stages[1].type = "G3";
    return setup;
}

/// Sets of stage 2 as its elements load; stage 1 stays at 2 psi.
Walk& loading(Walk& walk, std::initializer_list<std::pair<double, int>> drops)
{
    for (const auto& [minute, drop] : drops) {
        walk.readingAt(minute, std::to_string(drop + 6) + " " + std::to_string(drop + 4) + " 4");
    }
    return walk;
}

Outlook outlookOf(const Walk& walk, double minute, int stage = 2)
{
    return walk.standingAt(minute).outlooks.at(static_cast<std::size_t>(stage - 1));
}

/// A run whose tank saw the same elements reach their limit three times, at 60, 66 and 72 min.
Walk withThreePast(std::string_view target = "9")
{
    std::vector<LoadingLearned> past;
    for (const double slower : {1.0, 1.1, 1.2}) {
        Walk old(typedElements("99"));
        old.filteringAt(0);
        for (const auto& [minute, drop] :
             {std::pair(3.0, 4), {15.0, 6}, {27.0, 9}, {39.0, 15}, {51.0, 27}, {60.0, 42}}) {
            old.readingAt(minute * slower, std::to_string(drop + 6) + " " + std::to_string(drop + 4) + " 4");
        }
        old.changeoverAt(80, 2, 2);
        past.insert(past.end(), old.run().taught.begin(), old.run().taught.end());
    }
    REQUIRE(past.size() == 3);
    return Walk(typedElements(target), past);
}

} // namespace

TEST_CASE("a stage says why nothing can be told of it")
{
    Walk walk(typedElements());
    CHECK(walk.filteringAt(0).standingAt(1).outlooks.size() == 2);
    CHECK(outlookOf(walk, 1).why.id == "forecast.no-reading");
    walk.readingAt(2, "10 8 4");
    CHECK(outlookOf(walk, 2).state == forecast::State::None);
    CHECK(outlookOf(walk, 2).why.id == "forecast.too-few-readings");

    Setup bare = ordinary();
    bare.stages[0].changeLimit.reset();
    bare.stages[1].cleanDp.reset();
    const Walk other = Walk(bare).filteringAt(0).readingAt(2, "10 8 4");
    CHECK(outlookOf(other, 2, 1).why.id == "forecast.no-limit");
    CHECK(outlookOf(other, 2, 2).why.id == "forecast.no-correction");
}

TEST_CASE("nothing is foreseen from a gauge whose needle stands, of any stage beside it")
{
    Walk walk(typedElements());
    walk.filteringAt(0);
    double minute = 2.0;
    for (const char* set : {"17 12 5", "18 12 5", "20 12 6", "23 12 7", "27 12 9"}) {
        walk.readingAt(minute, set);
        minute += 10.0;
    }
    const Standing standing = walk.standingAt(minute);
    REQUIRE(std::ranges::find(standing.findings, "gauge-stuck", &Finding::id) != standing.findings.end());
    for (const Outlook& outlook : standing.outlooks) {
        CAPTURE(outlook.stage);
        CHECK(outlook.state == forecast::State::None);
        CHECK(outlook.why.id == "forecast.drop-doubted");
        CHECK(outlook.band.empty());
    }
}

TEST_CASE("a limit that is reached is said in the digits as typed")
{
    Walk walk(typedElements());
    walk.filteringAt(0);
    loading(walk, {{2, 4}, {10, 12}, {20, 30}, {25, 41}});
    CHECK(outlookOf(walk, 25).state != forecast::State::Reached);
    walk.readingAt(26, "47 46 4"); // 42 psi
    CHECK(outlookOf(walk, 26).state == forecast::State::Reached);
    CHECK(probabilityBy(outlookOf(walk, 26), minutes(26)) == 1.0);
}

TEST_CASE("with past loadings of the same elements a range is told that holds the truth")
{
    Walk walk = withThreePast();
    walk.filteringAt(0);
    loading(walk, {{3, 4}, {15, 6}, {27, 9}, {39, 15}, {48, 23}});
    const Outlook outlook = outlookOf(walk, 48);
    CHECK(outlook.pastLoadings == 3);
    CHECK(outlook.state == forecast::State::Forecast);
    REQUIRE(outlook.limitAt.t90);
    CHECK(*outlook.limitAt.t10 > minutes(48));
    CHECK(*outlook.limitAt.t10 < *outlook.limitAt.t50);
    CHECK(*outlook.limitAt.t50 < *outlook.limitAt.t90);
    CHECK(*outlook.limitAt.t10 < minutes(61)); // as the first of them: 60 min
    CHECK(*outlook.limitAt.t90 > minutes(59));
    CHECK(*outlook.pBeforeTarget > 0.9);
    CHECK(*probabilityBy(outlook, *outlook.limitAt.t50) == Approx(0.5).margin(0.02));
}

TEST_CASE("a target that comes first makes the limit unlikely")
{
    Walk walk = withThreePast("2");
    walk.filteringAt(0);
    loading(walk, {{3, 4}, {15, 6}, {27, 9}});
    CHECK(*outlookOf(walk, 27).pBeforeTarget < 0.1); // 40 min of 60 to 72
    CHECK(outlookOf(walk, 27).state == forecast::State::NotBeforeTarget);
}

TEST_CASE("the sets of elements that will be needed are told, and those at hand fall with each change")
{
    Walk walk = withThreePast("9"); // 180 min, a life of 60 to 72 min
    walk.filteringAt(0);
    loading(walk, {{3, 4}, {15, 6}, {27, 9}, {39, 15}, {48, 23}});
    CHECK(outlookOf(walk, 48).setsNeeded >= 1);
    CHECK_FALSE(outlookOf(walk, 48).spareSets); // nobody counted
    CHECK(outlookOf(walk, 48, 1).setsNeeded == 0);

    Setup counted = typedElements();
    counted.stages[1].spareSets = 2;
    Walk other(counted);
    other.filteringAt(0);
    loading(other, {{3, 4}, {15, 20}, {20, 42}});
    CHECK(outlookOf(other, 20).spareSets == 2);
    CHECK(outlookOf(other, 20).setsNeeded == 1); // at its limit
    other.stoppedAt(21).changeoverAt(25, 2, 2).filteringAt(30);
    CHECK(outlookOf(other, 30).spareSets == 1);
}

TEST_CASE("without a target nothing is said of it")
{
    Setup setup = ordinary();
    const Walk walk =
        Walk(setup).filteringAt(0).readingAt(2, "10 8 4").readingAt(9, "14 12 4").readingAt(15, "20 18 4");
    CHECK_FALSE(outlookOf(walk, 15).pBeforeTarget);
}

TEST_CASE("an outlook stands as of the last entry and moves with a stop")
{
    Walk walk = withThreePast();
    walk.filteringAt(0);
    loading(walk, {{3, 4}, {15, 6}, {27, 9}, {39, 15}});
    const Outlook before = outlookOf(walk, 39);
    CHECK(*outlookOf(walk, 45).limitAt.t50 == *before.limitAt.t50); // nobody said anything
    walk.stoppedAt(39).filteringAt(59);
    const RunTime moved = *outlookOf(walk, 59).limitAt.t50 - *before.limitAt.t50;
    CHECK(std::chrono::abs(moved - minutes(20)) < std::chrono::seconds(1)); // times are sums of doubles
}

TEST_CASE("new elements begin a new curve, the other stage goes on")
{
    Walk walk = withThreePast();
    walk.filteringAt(0);
    loading(walk, {{3, 4}, {15, 6}, {27, 9}, {39, 15}});
    const Outlook other = outlookOf(walk, 39, 1);
    walk.stoppedAt(40).changeoverAt(42, 2, 2).filteringAt(50);
    CHECK(outlookOf(walk, 50).why.id == "forecast.no-reading");
    CHECK(outlookOf(walk, 50, 1).state == other.state);
    loading(walk, {{52, 4}, {60, 5}, {70, 6}});
    CHECK(outlookOf(walk, 70).phase.value() < 0.8);
    CHECK(outlookOf(walk, 70).load_l < outlookOf(walk, 70, 1).load_l);
}

TEST_CASE("a set that is held back or was entered with others does not count")
{
    Walk walk = withThreePast();
    walk.filteringAt(0);
    loading(walk, {{3, 4}, {15, 6}, {27, 9}, {39, 15}});
    const auto before = outlookOf(walk, 39).limitAt.t50;
    walk.readingAt(45, "150 23 4");                                                   // above the dial's full scale
    CHECK(std::chrono::abs(*outlookOf(walk, 45).limitAt.t50 - *before) < minutes(1)); // it has lived 6 min longer
}

TEST_CASE("the next reading comes within a quarter of the time to the limit")
{
    Walk walk = withThreePast();
    walk.filteringAt(0);
    loading(walk, {{3, 4}, {15, 6}, {27, 9}, {39, 15}, {48, 23}});
    const Standing standing = walk.standingAt(48);
    const auto by = readBy(standing.outlooks, minutes(48));
    REQUIRE(by);
    const RunTime left = *standing.outlooks[1].limitAt.t10 - RunTime(minutes(48));
    CHECK(*by == RunTime(minutes(48)) + std::max(RunTime(minutes(1)), left / 4));
    CHECK(*standing.due == *by); // the schedule alone would say 58

    SECTION("a note puts it off no further")
    {
        const RunTime due = *standing.due;
        CHECK(*walk.noteAt(49).standingAt(49).due - due < std::chrono::seconds(5)); // it has lived a minute longer
    }
}

TEST_CASE("the band begins at the raw drop and keeps below the limit")
{
    Walk walk = withThreePast();
    walk.filteringAt(0);
    loading(walk, {{3, 4}, {15, 6}, {27, 9}, {39, 15}});
    const auto band = outlookOf(walk, 39).band;
    REQUIRE(band.size() > 2);
    CHECK(band.front().at == minutes(39));
    CHECK(band.front().middle.in(units::psi) == Approx(15).epsilon(0.02));
    for (const DropAhead& point : band) {
        CHECK(point.low <= point.middle);
        CHECK(point.middle <= point.high);
        CHECK(point.high.in(units::psi) <= 42.0 + 1e-9);
    }
}
