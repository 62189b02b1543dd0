// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/demand.h"

#include "run/stock.h"
#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

constexpr std::int64_t msPerDay = 86'400'000;

Header on(std::int64_t day)
{
    Header header;
    header.entered.wallMs = day * msPerDay;
    return header;
}

/// A stock counted on day 0, of which a pair was changed every ten days, so many times.
State usedPairs(int changes, int counted = 40)
{
    State state;
    state.stockMoves.push_back({on(0), {"G3", counted, std::string(stockCounted)}});
    for (int i = 1; i <= changes; ++i) {
        state.stockMoves.push_back({on(10 * i), {"G3", -2, std::string(usedByChangeover)}});
    }
    state.stock["G3"] = {counted - 2 * changes, true};
    return state;
}

/// Whole lives of G3 at a tank.
void teach(State& state, const std::string& tank, int lives, double litres)
{
    RunState run = Walk().run();
    run.id = Walk::idOfJob(static_cast<std::uint8_t>(state.runs.size() + 1));
    for (int i = 1; i <= lives; ++i) {
        run.taught.push_back({.stage = 2, .number = i, .tank = tank, .elementType = "G3", .end_l = litres});
    }
    state.runs.emplace(run.id, run);
}

/// 400 L, seven turnovers: 400·(0.85·(1 − e^−4.9)/0.7 + 0.15·7) = 902 L worth of dirt.
PlannedWork sevenTurnovers()
{
    Setup setup = ordinary();
    setup.stages[1].type = "G3";
    JobRecord job{.order = "WO-1", .tank = "T1"};
    job.turnovers = number("7");
    return {job, setup.tank, setup.stages};
}

JobDemand demandFor(const State& state, const PlannedWork& work)
{
    const auto all = demandOf(state, std::span(&work, 1), 0);
    REQUIRE(all.size() == 1);
    REQUIRE(all[0].jobs.size() == 1);
    return all[0].jobs[0];
}

} // namespace

TEST_CASE("use is told with its rate, the narrower the longer it was watched")
{
    const ElementUse few = elementUseOf(usedPairs(2), "G3", 20 * msPerDay);
    CHECK(few.used == 4);
    CHECK(few.changes == 2);
    CHECK(few.days == 20.0);
    REQUIRE(few.next30Days);
    const ElementUse many = elementUseOf(usedPairs(19), "G3", 190 * msPerDay);
    REQUIRE(many.next30Days);
    CHECK(many.next30Days->best == 6); // three pairs in 30 days
    CHECK(many.next30Days->low >= 0);
    CHECK(many.next30Days->high > many.next30Days->best);
    CHECK(few.next30Days->high > many.next30Days->high);
}

TEST_CASE("nothing is foreseen of elements that were never changed, or within the first day")
{
    CHECK_FALSE(elementUseOf(usedPairs(0), "G3", 50 * msPerDay).next30Days);
    CHECK_FALSE(elementUseOf(usedPairs(2), "G10", 50 * msPerDay).next30Days);
    CHECK_FALSE(elementUseOf(usedPairs(2), "G3", msPerDay / 2).next30Days);
    CHECK_FALSE(elementUseOf({}, "G3", msPerDay).next30Days);
}

TEST_CASE("what an amendment gave back was not used, what was used elsewhere was")
{
    State state = usedPairs(2);
    state.stockMoves.push_back({on(21), {"G3", 1, std::string(correctedByAmendment)}});
    state.stockMoves.push_back({on(22), {"G3", -3, std::string(stockUsedElsewhere)}});
    state.stockMoves.push_back({on(23), {"G3", 12, std::string(stockReceived)}});
    const ElementUse use = elementUseOf(state, "G3", 30 * msPerDay);
    CHECK(use.used == 6);
    CHECK(use.changes == 2);
}

TEST_CASE("a planned job takes as many elements as its dirt fills, by the lives at its tank")
{
    State state;
    teach(state, "T1", 12, 300.0); // 902 L worth of dirt: three lives
    const JobDemand demand = demandFor(state, sevenTurnovers());
    REQUIRE(demand.elements);
    CHECK(demand.lives == 12);
    CHECK_FALSE(demand.isOtherTank);
    CHECK(demand.elements->best == 6); // of two
    CHECK(demand.elements->low <= 4);
    CHECK(demand.elements->high >= 8);
}

TEST_CASE("without lives at the tank those of the type elsewhere tell it, and with fewer it is wider")
{
    State elsewhere;
    teach(elsewhere, "T2", 1, 300.0);
    const JobDemand one = demandFor(elsewhere, sevenTurnovers());
    CHECK(one.isOtherTank);
    REQUIRE(one.elements);
    State here = elsewhere;
    teach(here, "T1", 12, 300.0);
    const JobDemand many = demandFor(here, sevenTurnovers());
    CHECK_FALSE(many.isOtherTank);
    CHECK(one.elements->high - one.elements->low > many.elements->high - many.elements->low);
}

TEST_CASE("what cannot be told of a job says why")
{
    CHECK(demandFor({}, sevenTurnovers()).why == "no-life");
    State state;
    teach(state, "T1", 3, 300.0);
    PlannedWork work = sevenTurnovers();
    work.job.turnovers.reset();
    CHECK(demandFor(state, work).why == "no-turnovers");
    work.tank.reset();
    CHECK(demandFor(state, work).why == "no-tank");
    work.stages.clear();
    CHECK(demandOf(state, std::span(&work, 1), 0).empty());
}

TEST_CASE("a stock is held against what is needed only where somebody counted it")
{
    State state = usedPairs(19, 44); // 6 left; three pairs in 30 days are likely
    const auto shelf = [](const State& of) { return demandOf(of, {}, 190 * msPerDay).at(0); };
    CHECK(shelf(state).mayBeShort());
    CHECK_FALSE(shelf(state).isShort());
    state.stock["G3"].elements = 60;
    CHECK_FALSE(shelf(state).mayBeShort());
    state.stock["G3"].elements = -1;
    CHECK(shelf(state).isShort());
    state.stock["G3"].isCounted = false;
    CHECK_FALSE(shelf(state).isShort());
    CHECK_FALSE(shelf(state).mayBeShort());
}

TEST_CASE("a cart's use is the sum of its closed runs, with elements, flushes and transfers")
{
    Walk walk;
    walk.filteringAt(0).readingAt(2, "20 14 4").stoppedAt(20).changeoverAt(22, 2, 2).filteringAt(25).stoppedAt(40);
    walk.closeAt(41);
    const CartUse use = cartUseOf(walk.state(), "C1");
    CHECK(use.runs == 1);
    CHECK(use.elements == 2);
    CHECK(use.turnovers == walk.run().closed->turnovers.best);
    CHECK(use.filtered_l > 0.0);
    CHECK(use.flushes == 0);
    REQUIRE(use.last);
    CHECK(cartUseOf(walk.state(), "another").runs == 0);
    walk.openJobAt(50, 3, FlushOpened{.cart = "C1", .toFluid = "ISO VG 46 hydraulic", .left = litres("2")});
    CHECK(cartUseOf(walk.state(), "C1").flushes == 1);
    CHECK(cartUseOf(walk.state(), "C1").last->wallMs > use.last->wallMs);
}

TEST_CASE("a job is taken up by a run that is open or reached its target, not by one that was given up")
{
    JobRecord job{.order = "WO-7", .tank = "T1"};
    Setup setup = ordinary();
    setup.job = "WO-7";
    Walk walk(setup);
    CHECK(isTakenUp(walk.state(), job));
    CHECK_FALSE(isTakenUp(Walk().state(), job));
    CHECK(stepOf(walk.state(), job) == JobStep::Running);
    CHECK_FALSE(isTakenUp(walk.closeAt(5, Ending::StoppedEarly).state(), job));
    CHECK(stepOf(walk.state(), job) == JobStep::Planned);
    State met = walk.state();
    met.runs.begin()->second.closed->ending = Ending::TargetMetCodeAwaited;
    CHECK(stepOf(met, job) == JobStep::Done);
    CHECK(isTakenUp(met, job));
    met.runs.begin()->second.setup.isPractice = true;
    CHECK_FALSE(isTakenUp(met, job));
}
