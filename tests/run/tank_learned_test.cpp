// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What runs teach of their tank. A scale number of ISO 4406 is a factor of two, so that n turnovers with k bring the
// code down by n·k/ln 2 numbers: 4 numbers in 4 turnovers are k = 0.693.

#include "run/tank_learned.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

TankPast cleanedOften(int runs, const char* to)
{
    TankPast past;
    for (int i = 0; i < runs; ++i) {
        past.cleanings.push_back({"22/20/17", to, 4.0});
    }
    return past;
}

double width(const filtration::Band& band)
{
    return band.high - band.low;
}

TankPast rising(std::initializer_list<const char*> to, double days)
{
    TankPast past;
    for (const char* code : to) {
        past.ingresses.push_back({.verdict = Ingress::Verdict::Dirtier,
                                  .from = "16/14/11",
                                  .to = code,
                                  .days = days,
                                  .numbers = 0,
                                  .isOfTank = true});
    }
    return past;
}

/// A run on the cart of `ordinary` whose stage 2 taught a loading that began at `clean_pa`.
RunState taughtRun(std::uint8_t number, double clean_pa)
{
    Setup setup = ordinary();
    setup.stages[1].type = "G3";
    RunState run = Walk(setup).run();
    run.id = Walk::idOfJob(number);
    run.taught = {{.stage = 2,
                   .tank = "T1",
                   .elementType = "G3",
                   .limit_pa = 290000.0,
                   .end_l = 1000.0,
                   .readingError_pa = 1000.0,
                   .curve = {{5.0, clean_pa}, {500.0, 3.0 * clean_pa}, {1000.0, 290000.0}}}};
    return run;
}

State stateOf(const std::vector<RunState>& runs)
{
    State state;
    for (const RunState& run : runs) {
        state.runs.emplace(run.id, run);
    }
    return state;
}

} // namespace

TEST_CASE("with no run behind it the mixing is what was told, a quarter either way, or the usual")
{
    const MixingLearned told = mixingLearned({}, number("0.6"));
    CHECK(told.runs == 0);
    CHECK_THAT(told.captureTimesMixing.best, Catch::WithinAbs(0.6, 0.02));
    CHECK_THAT(told.captureTimesMixing.low, Catch::WithinAbs(0.6 - 1.645 * 0.15, 0.02));
    CHECK_THAT(mixingLearned({}, std::nullopt).told, Catch::WithinAbs(0.7, 1e-12));
}

TEST_CASE("runs that clean as a mixing factor says narrow it down to there")
{
    const double none = width(mixingLearned({}, number("0.7")).captureTimesMixing);
    const MixingLearned one = mixingLearned(cleanedOften(1, "18/16/13"), number("0.7"));
    const MixingLearned many = mixingLearned(cleanedOften(20, "18/16/13"), number("0.7"));
    CHECK(one.runs == 1);
    CHECK(many.runs == 20);
    CHECK(width(one.captureTimesMixing) < none);
    CHECK(width(many.captureTimesMixing) < 0.5 * width(one.captureTimesMixing));
    CHECK_THAT(many.captureTimesMixing.best, Catch::WithinAbs(0.693, 0.08));
}

TEST_CASE("a tank that cleans slower than told is learned, the surer the more runs say so")
{
    const double one = mixingLearned(cleanedOften(1, "20/18/15"), number("0.7")).captureTimesMixing.best;
    const double many = mixingLearned(cleanedOften(20, "20/18/15"), number("0.7")).captureTimesMixing.best;
    CHECK(one < 0.7);
    CHECK(many < one);
    CHECK(many < 0.5); // 2 numbers in 4 turnovers: k = 0.35 without any floor, more with one
}

TEST_CASE("codes without numbers and runs without turnovers teach no mixing")
{
    TankPast past;
    past.cleanings = {{"*/*/*", "16/14/11", 4.0}, {"22/20/17", "18/16/13", 0.0}, {"what", "18/16/13", 4.0}};
    CHECK(mixingLearned(past, std::nullopt).runs == 0);
}

TEST_CASE("what gets in a day is told at each size, with the gaps behind it")
{
    // 16/14/11 to 19/17/14 in 10 days. The middle counts of 16 and 19 are about 450 and 3500 particles/mL at 4 µm:
    // 300 a day.
    const auto sizes = ingressLearned(rising({"19/17/14"}, 10.0));
    REQUIRE(sizes[0]);
    CHECK(sizes[0]->gaps == 1);
    CHECK(sizes[0]->isTold());
    CHECK(sizes[0]->perMlADay.low < 300.0);
    CHECK(sizes[0]->perMlADay.high > 300.0);
    CHECK_THAT(sizes[0]->perMlADay.best, Catch::WithinRel(300.0, 0.2));
    CHECK(sizes[2]->perMlADay.best < sizes[1]->perMlADay.best);
    const auto more = ingressLearned(rising({"19/17/14", "19/17/14", "19/17/14", "19/17/14"}, 10.0));
    CHECK(more[0]->perMlADay.high / more[0]->perMlADay.low < sizes[0]->perMlADay.high / sizes[0]->perMlADay.low);
}

TEST_CASE("counts that stay as they were tell no ingress but a bound")
{
    const auto sizes = ingressLearned(rising({"16/14/11"}, 10.0));
    REQUIRE(sizes[0]);
    CHECK_FALSE(sizes[0]->isTold());
    CHECK(sizes[0]->perMlADay.high < 300.0);
}

TEST_CASE("samples from behind a filter and sizes that were not counted teach no ingress")
{
    TankPast behind = rising({"19/17/14"}, 10.0);
    behind.ingresses[0].isOfTank = false;
    CHECK_FALSE(ingressLearned(behind)[0]);
    const auto sizes = ingressLearned(rising({"-/17/14"}, 10.0));
    CHECK_FALSE(sizes[0]);
    CHECK(sizes[1]);
}

TEST_CASE("the clean drop of elements on a cart is learned from first readings, beside what was told")
{
    Setup setup = ordinary();
    setup.stages[1].type = "G3";
    const double told = setup.stages[1].cleanDp->value().in(units::pascal);
    const CleanLearned none = cleanLearned({}, setup, 2);
    CHECK(none.runs == 0);
    REQUIRE(none.drop_pa);
    CHECK_THAT(none.drop_pa->best, Catch::WithinRel(told, 0.01));

    std::vector<RunState> runs;
    for (std::uint8_t i = 1; i <= 12; ++i) {
        runs.push_back(taughtRun(i, 1.4 * told));
    }
    const CleanLearned many = cleanLearned(stateOf(runs), setup, 2);
    CHECK(many.runs == 12);
    CHECK_THAT(many.drop_pa->best, Catch::WithinRel(1.4 * told, 0.03));
    CHECK(many.drop_pa->high / many.drop_pa->low < none.drop_pa->high / none.drop_pa->low);
    CHECK(cleanLearned(stateOf(runs), setup, 1).runs == 0); // another stage, other dials
}

TEST_CASE("another cart, other conditions, used or withdrawn elements teach no clean drop")
{
    Setup setup = ordinary();
    setup.stages[1].type = "G3";
    RunState used = taughtRun(1, 30000.0);
    used.taught[0].isUsed = true;
    RunState withdrawn = taughtRun(2, 30000.0);
    withdrawn.taught[0].isWithdrawn = true;
    RunState other = taughtRun(3, 30000.0);
    other.setup.cart.name = "another cart";
    RunState pairOfFour = taughtRun(4, 30000.0);
    pairOfFour.setup.stages[1].elements = 4;
    CHECK(cleanLearned(stateOf({used, withdrawn, other, pairOfFour}), setup, 2).runs == 0);
}

TEST_CASE("a run is opened with what is known of its tank and its dials, and nothing where nothing is")
{
    CHECK(placeLearned({}, ordinary()) == PlaceLearned{});
    Setup setup = ordinary();
    setup.stages[1].type = "G3";
    const PlaceLearned place = placeLearned(
        stateOf({taughtRun(1, 30000.0), taughtRun(2, 31000.0), taughtRun(3, 32000.0)}), setup);
    REQUIRE(place.clean.size() == 2);
    CHECK(place.clean[0] == CleanLearned{}); // keeps the place of stage 1
    CHECK(place.cleanOf(1) == nullptr);
    REQUIRE(place.cleanOf(2) != nullptr);
    CHECK(place.cleanOf(2)->runs == 3);
    CHECK(place.cleanOf(3) == nullptr);
    CHECK_FALSE(place.mixing.has_value());
}

TEST_CASE("opening a run keeps what is known of its dials beside its set-up")
{
    Setup setup = ordinary();
    setup.stages[1].type = "G3";
    const State state = stateOf({taughtRun(1, 30000.0), taughtRun(2, 31000.0), taughtRun(3, 32000.0)});
    const auto decided = decide(state, OpenRun{Walk::idOfJob(9), setup}, Context{});
    REQUIRE(decided);
    const auto& opened = std::get<RunOpened>(decided->front().event);
    CHECK(opened.place == placeLearned(state, setup));
    CHECK(opened.place.clean.size() == 2);
}
