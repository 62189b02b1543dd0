// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Why turnovers are not credited. 400 L at 20 L/min is one turnover in 20 min; readings are planned 2, 5, 10, 15, 30,
// 45 and 60 min after the start, then every 20 min. Worked out by hand.

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

Walk quarterHour(Setup setup = ordinary())
{
    Walk walk(std::move(setup));
    walk.filteringAt(0);
    for (const double minute : {2.0, 5.0, 10.0, 15.0}) {
        walk.readingAt(minute, "20 14 4");
    }
    return walk;
}

std::string cutsOf(const Walk& walk, double minute)
{
    std::string text;
    for (const CreditCut& cut : walk.standingAt(minute).credit.cuts) {
        text += (text.empty() ? "" : ", ") + std::string(cut.why) + " "
            + std::to_string(std::chrono::duration_cast<std::chrono::minutes>(cut.from).count()) + "-"
            + std::to_string(std::chrono::duration_cast<std::chrono::minutes>(cut.to).count());
    }
    return text;
}

/// In a closed run the cuts are all that parts the three bounds.
void checkSums(const Walk& walk, double minute)
{
    const Credit credit = walk.standingAt(minute).credit;
    double low = 0.0;
    double best = 0.0;
    for (const CreditCut& cut : credit.cuts) {
        low += cut.low;
        best += cut.best;
    }
    CHECK(low == Approx(credit.turnovers.high - credit.turnovers.low));
    CHECK(best == Approx(credit.turnovers.high - credit.turnovers.best).margin(1e-9));
}

} // namespace

TEST_CASE("a run read as planned leaves nothing out")
{
    CHECK(cutsOf(quarterHour().readingAt(30, "20 14 4"), 30).empty());
}

TEST_CASE("a late reading and an unwatched time are told apart")
{
    Walk walk = quarterHour().readingAt(40, "20 14 4").readingAt(90, "20 14 4").closeAt(91);
    CHECK(cutsOf(walk, 91) == "late 15-40, unwatched 40-90");
    checkSums(walk, 91);
}

TEST_CASE("a set in question is a cut until somebody answers")
{
    Walk walk = quarterHour().readingAt(20, "120 114 104"); // the dials end at 100 psi
    const Id odd = walk.last();
    walk.readingAt(25, "20 14 4");
    CHECK(cutsOf(walk, 25) == "questioned 15-25");
    walk.answerAt(26, outOfRange, odd, "yes");
    CHECK(cutsOf(walk, 26).empty());
}

TEST_CASE("ΔP at the setting of a bypass valve is a cut from the last good to the next good set")
{
    Setup setup = ordinary();
    setup.stages[1].bypass = typed<units::Pressure>("25 psi");
    Walk walk = quarterHour(setup).readingAt(25, "45 30 4").readingAt(30, "20 14 4").closeAt(31);
    CHECK(cutsOf(walk, 31) == "at-bypass-setting 15-30");
    checkSums(walk, 31);
}

TEST_CASE("around a restart the low end leaves out what only the wall clock tells")
{
    Walk walk = quarterHour();
    walk.restarts();   // at minute 15, by the monotonic clock
    walk.wallJumps(6); // and its wall clock set ahead meanwhile: nobody knows that it was not off for six minutes
    walk.readingAt(18, "20 14 4").closeAt(19);
    CHECK(cutsOf(walk, 19) == "restarted 15-21");
    const TurnoverBand turnovers = walk.standingAt(19).credit.turnovers;
    CHECK(turnovers.low == Approx(19.0 / 20.0)); // 15 min before it, 3 and 1 behind it
    CHECK(turnovers.best == Approx(25.0 / 20.0));
    checkSums(walk, 19);
}

TEST_CASE("a restart while nothing filters takes nothing from the low end")
{
    Walk walk = quarterHour().stoppedAt(16);
    walk.restarts().wallJumps(6).noteAt(18);
    REQUIRE(walk.run().clock.unsure().size() == 1);
    CHECK(cutsOf(walk, 18).empty());
}

TEST_CASE("what was found is named, and once confirmed it is cut from the best value too")
{
    Walk walk = quarterHour().readingAt(20, "4 4 4"); // both stages cost nothing, the last gauge stays
    const Id odd = walk.last();
    walk.readingAt(25, "20 14 4");
    REQUIRE(cutsOf(walk, 25) == "valve-in-bypass 15-25");
    CHECK(walk.standingAt(25).credit.cuts.front().best == 0.0);
    walk.answerAt(26, "valve-in-bypass", odd, "yes").closeAt(27);
    CHECK(walk.standingAt(27).credit.cuts.front().best == Approx(0.5)); // 10 min
    checkSums(walk, 27);
}
