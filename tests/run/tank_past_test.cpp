// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/tank_past.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

constexpr double day = 24.0 * 60.0; // minutes

/// A run that begins after so many days: a sample before, an hour of filtering, a sample after.
Walk walkOn(double days, const char* before, const char* after)
{
    const double start = days * day;
    Walk walk;
    walk.sayAt(start, SampleDrawn{"B", 1});
    walk.filteringAt(start + 1).readingAt(start + 3, "20 14 4").readingAt(start + 61, "20 14 4").stoppedAt(start + 61);
    walk.sayAt(start + 62, SampleDrawn{"A", 3});
    walk.sayAt(start + 63, ResultEntered{.sample = "B", .code = before, .water = {}, .viscosity = {}});
    walk.sayAt(start + 64, ResultEntered{.sample = "A", .code = after, .water = {}, .viscosity = {}});
    return walk.closeAt(start + 65);
}

State stateOf(const std::vector<Walk>& walks)
{
    State state;
    std::uint8_t number = 0;
    for (const Walk& walk : walks) {
        RunState run = walk.run();
        run.opened.entered.wallMs = run.facts.front().header.entered.wallMs;
        run.id = Walk::idOfJob(++number);
        state.runs.emplace(run.id, run);
    }
    return state;
}

TankPast past(const State& state)
{
    return pastOf(state, ordinary().tank.name);
}

} // namespace

TEST_CASE("a tank with no run has no past, and cannot tell what gets in")
{
    const TankPast none = past({});
    CHECK(none.runs == 0);
    CHECK(none.codes.empty());
    CHECK(none.ingress.verdict == Ingress::Verdict::CannotTell);
    CHECK(past(stateOf({walkOn(0, "20/18/15", "16/14/11")})).ingress.verdict == Ingress::Verdict::CannotTell);
    CHECK(pastOf(stateOf({walkOn(0, "20/18/15", "16/14/11")}), "another").runs == 0);
}

TEST_CASE("turnovers and codes of all runs stand together, the latest code first")
{
    const TankPast told = past(stateOf({walkOn(0, "20/18/15", "16/14/11"), walkOn(10, "18/16/13", "15/13/10")}));
    CHECK(told.runs == 2);
    CHECK_THAT(told.turnovers,
               Catch::WithinRel(2.0 * walkOn(0, "20/18/15", "16/14/11").run().closed->turnovers.best, 1e-12));
    REQUIRE(told.codes.size() == 4);
    CHECK(told.codes[0].code == "15/13/10");
    CHECK(told.codes[3].code == "20/18/15");
}

TEST_CASE("dirt that gets in is told by the count at the end of a run and the one before the next")
{
    // Two numbers are proven, one is what two tests of one oil may differ by: the rule of oil/cleanliness_code.h.
    const auto [before, verdict, numbers] = GENERATE(table<const char*, Ingress::Verdict, int>({
        {"18/16/13", Ingress::Verdict::Dirtier, 2},
        {"19/16/13", Ingress::Verdict::Dirtier, 3},
        {"17/15/12", Ingress::Verdict::NotProven, 1},
        {"16/14/11", Ingress::Verdict::NotProven, 0},
        {"13/11/8", Ingress::Verdict::Cleaner, 0},
        {"*/*/*", Ingress::Verdict::CannotTell, 0},
    }));
    CAPTURE(before);
    const Ingress ingress = past(stateOf({walkOn(0, "20/18/15", "16/14/11"), walkOn(10, before, "15/13/10")})).ingress;
    CHECK(ingress.verdict == verdict);
    CHECK(ingress.numbers == numbers);
    CHECK_THAT(ingress.days, Catch::WithinAbs(10.0, 0.1)); // from after the one to before the other
    CHECK(ingress.from == "16/14/11");
}

TEST_CASE("a run between without counts, or practice, leaves it open what got in")
{
    Walk silent;
    silent.filteringAt(5 * day).stoppedAt(5 * day + 60).closeAt(5 * day + 61);
    const State state = stateOf({walkOn(0, "20/18/15", "16/14/11"), silent, walkOn(10, "18/16/13", "15/13/10")});
    CHECK(past(state).ingress.verdict == Ingress::Verdict::CannotTell);
    State practice = stateOf({walkOn(0, "20/18/15", "16/14/11")});
    practice.runs.begin()->second.setup.isPractice = true;
    CHECK(past(practice).runs == 0);
}

TEST_CASE("elements that were used before, or whose loading was taken back, tell no life")
{
    State state = stateOf({walkOn(0, "20/18/15", "16/14/11")});
    RunState& run = state.runs.begin()->second;
    const std::string tank = ordinary().tank.name;
    run.taught = {{.tank = tank, .elementType = "P3", .end_l = 820.0},
                  {.stage = 2, .tank = tank, .elementType = "P10", .end_l = 300.0, .isCutShort = true},
                  {.number = 2, .tank = tank, .elementType = "P3", .end_l = 90.0, .isUsed = true},
                  {.number = 3, .tank = tank, .elementType = "P3", .end_l = 70.0, .isWithdrawn = true},
                  {.number = 4, .tank = "another", .elementType = "P3", .end_l = 70.0}};
    const auto lives = past(state).lives;
    REQUIRE(lives.size() == 2);
    CHECK(lives[0].type == "P3");
    CHECK(lives[0].litres == 820.0);
    CHECK_FALSE(lives[0].isCutShort);
    CHECK(lives[1].isCutShort);
}

TEST_CASE("water, cleanings and what got in stand together over all runs")
{
    const auto atTank = [](double days, const char* before, const char* after, int port) {
        const double start = days * day;
        Walk walk;
        walk.sayAt(start, SampleDrawn{"B", 1});
        walk.filteringAt(start + 1).readingAt(start + 3, "20 14 4").readingAt(start + 31, "20 14 4");
        walk.readingAt(start + 61, "20 14 4").sayAt(start + 61, SampleDrawn{"A", port});
        walk.stoppedAt(start + 62);
        walk.sayAt(start + 63, ResultEntered{.sample = "B", .code = before, .water = "120 ppm", .viscosity = {}});
        walk.sayAt(start + 64, ResultEntered{.sample = "A", .code = after, .water = {}, .viscosity = {}});
        return walk.closeAt(start + 65);
    };
    const TankPast told = past(stateOf({atTank(0, "20/18/15", "16/14/11", 1), atTank(10, "18/16/13", "15/13/10", 1),
                                        atTank(30, "17/15/12", "15/13/10", 3)}));
    REQUIRE(told.waters.size() == 3);
    CHECK(told.waters[0].water == "120 ppm");
    CHECK(told.waters[0].drawn.wallMs > told.waters[1].drawn.wallMs);
    REQUIRE(told.cleanings.size() == 2); // the third one's last sample is from behind the filters
    CHECK(told.cleanings[0].from == "20/18/15");
    CHECK(told.cleanings[0].to == "16/14/11");
    CHECK_THAT(told.cleanings[0].turnovers, Catch::WithinAbs(3.0, 0.1)); // an hour at 20 min each
    REQUIRE(told.ingresses.size() == 2);
    CHECK(told.ingresses[0].to == "18/16/13");
    CHECK(told.ingresses[0].isOfTank);
    CHECK(told.ingress.to == told.ingresses[1].to);
}

TEST_CASE("the shape of a loading is told by its ΔP half-way to the limit, of whole ones alone")
{
    Walk walk = walkOn(0, "20/18/15", "16/14/11");
    RunState run = walk.run();
    const LoadingLearned whole{.stage = 2,
                               .tank = ordinary().tank.name,
                               .elementType = "G3",
                               .limit_pa = 40'000.0,
                               .end_l = 1000.0,
                               .curve = {{100.0, 10'000.0}, {400.0, 12'000.0}, {600.0, 16'000.0}, {1000.0, 40'000.0}}};
    LoadingLearned cut = whole;
    cut.number = 2;
    cut.isCutShort = true;
    LoadingLearned late = whole;
    late.number = 3;
    late.curve = {{600.0, 16'000.0}, {1000.0, 40'000.0}}; // begins behind its middle
    run.taught = {whole, cut, late};
    State state;
    state.runs.emplace(run.id, run);
    const TankPast told = past(state);
    REQUIRE(told.lives.size() == 3);
    REQUIRE(told.lives[0].halfWay);
    CHECK_THAT(*told.lives[0].halfWay, Catch::WithinRel(14'000.0 / 40'000.0, 1e-12));
    CHECK_FALSE(told.lives[1].halfWay.has_value());
    CHECK_FALSE(told.lives[2].halfWay.has_value());
}
