// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Turnovers by the rules of credit. Every expected number is worked out by hand from the walk beside it: 400 L at 20
// L/min is one turnover in 20 min. Readings are planned 2, 5, 10, 15, 30, 45 and 60 min after the start, then every 20
// min (once a turnover).

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

constexpr double rounding = 1e-9; // sums of a few doubles

void checkBand(const TurnoverBand& band, double low, double best, double high)
{
    CHECK_THAT(band.low, Catch::WithinAbs(low, rounding));
    CHECK_THAT(band.best, Catch::WithinAbs(best, rounding));
    CHECK_THAT(band.high, Catch::WithinAbs(high, rounding));
}

TurnoverBand bandOf(const Walk& walk, double minute)
{
    return walk.standingAt(minute).credit.turnovers;
}

/// Filtering from 0 with sets at 2, 5, 10 and 15 min.
Walk quarterHour(Setup setup = ordinary())
{
    Walk walk(std::move(setup));
    walk.filteringAt(0);
    for (const double minute : {2.0, 5.0, 10.0, 15.0}) {
        walk.readingAt(minute, "20 14 4");
    }
    return walk;
}

/// A bypass setting of 25 psi on stage 2.
Setup withBypassValve()
{
    Setup setup = ordinary();
    setup.stages[1].bypass = typed<units::Pressure>("25 psi");
    return setup;
}

bool isAsked(const Walk& walk, double minute, std::string_view question)
{
    const Standing standing = walk.standingAt(minute);
    return std::any_of(standing.questions.begin(), standing.questions.end(),
                       [&](const Question& asked) { return asked.id == question; });
}

} // namespace

TEST_CASE("a run read as planned is credited whole, at every bound")
{
    const Walk walk = quarterHour().readingAt(30, "20 14 4").readingAt(45, "20 14 4").readingAt(60, "20 14 4");
    checkBand(bandOf(walk, 60), 3.0, 3.0, 3.0); // 60 min / 20 min
}

TEST_CASE("behind the last entry only the high end goes on")
{
    checkBand(bandOf(quarterHour(), 25), 0.75, 0.75, 1.25); // 15 min, and 25 min of it all
}

TEST_CASE("nothing is credited before filtering, in bypass mode and while stopped")
{
    const Walk walk =
        Walk().readingAt(5, "1 1 1").filteringAt(10).readingAt(12, "20 14 4").bypassingAt(15).readingAt(17, "5 5 4");
    Walk on = walk;
    on.filteringAt(20).readingAt(22, "20 14 4").stoppedAt(25);
    // 10 to 15 and 20 to 25: 10 min
    checkBand(bandOf(on, 25), 0.5, 0.5, 0.5);
    checkBand(bandOf(on, 500), 0.5, 0.5, 0.5);
}

TEST_CASE("after the close nothing is credited, and the totals are those of the close")
{
    Walk walk = quarterHour().closeAt(20);
    const auto* closed = std::get_if<RunClosed>(&walk.decided().front().event);
    REQUIRE(closed != nullptr);
    checkBand(closed->turnovers, 1.0, 1.0, 1.0); // filtering up to the close at 20 min
    CHECK_THAT(closed->filtered_l, Catch::WithinAbs(400.0, 1e-6));
    walk.noteAt(60);
    checkBand(bandOf(walk, 500), 1.0, 1.0, 1.0);
}

TEST_CASE("a gap of 45 min is credited in best, a longer one only once somebody answers for it")
{
    SECTION("45 min")
    {
        const Walk walk = quarterHour().readingAt(60, "20 14 4");
        checkBand(bandOf(walk, 60), 0.75, 3.0, 3.0); // low: planned were 15 min and 5 min of grace
        CHECK_FALSE(isAsked(walk, 60, unwatchedGap));
    }
    SECTION("45 min 30 s")
    {
        const Walk walk = quarterHour().readingAt(60.5, "20 14 4");
        checkBand(bandOf(walk, 60.5), 0.75, 0.75, 3.025);
        CHECK(isAsked(walk, 60.5, unwatchedGap));
    }
}

TEST_CASE("the answer to an unwatched gap moves best, never low")
{
    Walk walk = quarterHour().readingAt(60.5, "20 14 4");
    const Id gap = walk.last();
    // The answer at 61 min is an entry itself: 30 s more are watched, at every bound.
    SECTION("yes")
    {
        checkBand(bandOf(walk.answerAt(61, unwatchedGap, gap, "yes"), 61), 0.775, 3.05, 3.05);
    }
    SECTION("no")
    {
        checkBand(bandOf(walk.answerAt(61, unwatchedGap, gap, "no"), 61), 0.775, 0.775, 3.05);
    }
    SECTION("part of it, 20 min")
    {
        checkBand(bandOf(walk.answerAt(61, unwatchedGap, gap, "part", "20"), 61), 0.775, 1.775, 3.05);
    }
    SECTION("more minutes than the gap has")
    {
        checkBand(bandOf(walk.answerAt(61, unwatchedGap, gap, "part", "100"), 61), 0.775, 3.05, 3.05);
    }
    SECTION("part of it, not said how much")
    {
        checkBand(bandOf(walk.answerAt(61, unwatchedGap, gap, "part"), 61), 0.775, 0.775, 3.05);
    }
    SECTION("the last answer counts")
    {
        walk.answerAt(61, unwatchedGap, gap, "yes").answerAt(61, unwatchedGap, gap, "no");
        checkBand(bandOf(walk, 61), 0.775, 0.775, 3.05);
    }
    SECTION("an answer that was struck does not count")
    {
        walk.answerAt(61, unwatchedGap, gap, "yes");
        checkBand(bandOf(walk.strikeAt(61, walk.last()), 61), 0.775, 0.775, 3.05);
    }
}

TEST_CASE("low takes a gap up to the planned interval and 5 min, and nothing of a longer one")
{
    // At 15 min the next set was planned for 30 min: 15 min and 5 of grace.
    checkBand(bandOf(quarterHour().readingAt(35, "20 14 4"), 35), 1.75, 1.75, 1.75);
    checkBand(bandOf(quarterHour().readingAt(36, "20 14 4"), 36), 0.75, 1.8, 1.8);
}

TEST_CASE("low leaves out the time from the last good to the next good set around a bypass setting")
{
    Walk walk(withBypassValve());
    walk.filteringAt(0).readingAt(2, "20 14 4").readingAt(5, "20 14 4");
    SECTION("one set at the setting")
    {
        walk.readingAt(10, "35 29 4").readingAt(15, "20 14 4"); // 29 − 4 = 25 psi; in doubt from 5 to 15 min
        checkBand(bandOf(walk, 15), 0.25, 0.75, 0.75);
    }
    SECTION("below the setting")
    {
        walk.readingAt(10, "35 28 4").readingAt(15, "20 14 4");
        checkBand(bandOf(walk, 15), 0.75, 0.75, 0.75);
    }
    SECTION("never good again")
    {
        walk.readingAt(10, "35 29 4").readingAt(15, "36 30 4");
        checkBand(bandOf(walk, 15), 0.25, 0.75, 0.75);
    }
    SECTION("a set that does not show the stage proves nothing")
    {
        walk.readingAt(10, "35 29 4").readingAt(12, "20 - 4").readingAt(13, "- - -").readingAt(15, "20 14 4");
        checkBand(bandOf(walk, 15), 0.25, 0.75, 0.75);
    }
    SECTION("a set of which nothing could be read raises no doubt either")
    {
        walk.readingAt(10, "- - -").readingAt(15, "20 14 4");
        checkBand(bandOf(walk, 15), 0.75, 0.75, 0.75);
    }
    SECTION("two doubts")
    {
        // in doubt from 5 to 12 and from 13 to 15; left are 0 to 5 and 12 to 13: 6 min
        walk.readingAt(10, "35 29 4").readingAt(12, "20 14 4").readingAt(13, "20 14 4").readingAt(14, "35 29 4");
        walk.readingAt(15, "20 14 4");
        checkBand(bandOf(walk, 15), 0.3, 0.75, 0.75);
    }
}

TEST_CASE("low leaves out the time around a questioned set until somebody answers")
{
    Walk walk;
    walk.filteringAt(0).readingAt(2, "20 14 4").readingAt(5, "20 14 4").readingAt(10, "120 114 104");
    const Id odd = walk.last();
    walk.readingAt(15, "20 14 4");
    CHECK(isAsked(walk, 15, outOfRange)); // the dials end at 100 psi
    checkBand(bandOf(walk, 15), 0.25, 0.75, 0.75);
    walk.answerAt(16, outOfRange, odd, "yes");
    checkBand(bandOf(walk, 16), 0.8, 0.8, 0.8);
}

TEST_CASE("an amendment that mends a questioned set takes the doubt away")
{
    Walk walk;
    walk.filteringAt(0).readingAt(2, "20 14 4").readingAt(5, "20 14 4").readingAt(10, "120 14 4");
    const Id odd = walk.last();
    walk.readingAt(15, "20 14 4").amendAt(16, odd, "20 14 4");
    checkBand(bandOf(walk, 16), 0.8, 0.8, 0.8);
}

TEST_CASE("a piece is credited at the flow stated with the entry that begins it, else at the rated flow")
{
    SECTION("with the mode")
    {
        // 2 min at 10 L/min and 10 min at 20 L/min: 220 L of 400 L
        const Walk walk = Walk().filteringAt(0, "10 L/min").readingAt(2, "20 14 4").readingAt(12, "20 14 4");
        CHECK_THAT(bandOf(walk, 12).best, Catch::WithinAbs(0.55, rounding));
    }
    SECTION("with the set")
    {
        // 2 min at 20 L/min and 10 min at 10 L/min: 140 L
        ReadingLogged set = gauges("20 14 4");
        set.flow = typed<units::Flow>("10 L/min");
        const Walk walk = Walk().filteringAt(0).sayAt(2, set).readingAt(12, "20 14 4");
        CHECK_THAT(bandOf(walk, 12).best, Catch::WithinAbs(0.35, rounding));
    }
    SECTION("none at all")
    {
        const Walk walk = Walk().filteringAt(0, "0 L/min").readingAt(2, "20 14 4").readingAt(12, "20 14 4");
        CHECK_THAT(bandOf(walk, 12).best, Catch::WithinAbs(0.5, rounding));
    }
}

TEST_CASE("time is cut where a set was seen, not where it was entered")
{
    Walk walk = quarterHour();
    walk.readingSeenEarlierAt(80, 50, "20 14 4"); // seen at 30 min
    checkBand(bandOf(walk, 80), 1.5, 1.5, 4.0);
}

TEST_CASE("a struck start of filtering is not credited")
{
    Walk walk;
    walk.filteringAt(0);
    const Id start = walk.last();
    walk.readingAt(2, "20 14 4").strikeAt(3, start);
    checkBand(bandOf(walk, 3), 0.0, 0.0, 0.0);
}

TEST_CASE("nobody is asked about the time after the close")
{
    Walk walk = quarterHour().closeAt(20);
    walk.sayAt(1500, ResultEntered{"B2", "16/14/11", {}, {}, {}});
    CHECK_FALSE(isAsked(walk, 1500, unwatchedGap));
    checkBand(bandOf(walk, 1500), 1.0, 1.0, 1.0);
}
