// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

State after(const Walk& walk, const RecordPut& what)
{
    const auto decided = walk.attempt(9, PutRecord{what});
    REQUIRE(decided.has_value());
    REQUIRE(decided->size() == 1);
    CHECK(decided->front().run == Id{}); // it belongs to no run
    return apply(walk.state(), Header{}, decided->front().event);
}

} // namespace

TEST_CASE("a record that is put is kept in order, and changes no run")
{
    const Walk walk = Walk().filteringAt(0).readingAt(2, "20 14 4");
    TankRecord tank = ordinary().tank;
    tank.mixing = number("0.5");
    const State state = after(walk, TankPut{tank, "P-7"});
    REQUIRE(state.records.size() == 1);
    CHECK(std::get<TankPut>(state.records.front().what) == TankPut{tank, "P-7"});
    CHECK(state.runs.begin()->second.setup == walk.run().setup);
    CHECK(state.runs.begin()->second.facts.size() == walk.run().facts.size());
}

TEST_CASE("records of one file are put one after the other, or none of them")
{
    const Walk walk;
    const FluidPut fluid{"Turbine oil", ordinary().tank.fluid};
    const auto put = walk.attempt(9, PutRecords{{fluid, TankPut{ordinary().tank}}, {{"P10", 6, "counted"}}});
    REQUIRE(put.has_value());
    REQUIRE(put->size() == 3);
    CHECK(std::get<FluidPut>((*put)[0].event) == fluid);
    CHECK(std::get<StockMoved>((*put)[2].event).elements == 6);
    CHECK_FALSE(walk.attempt(9, PutRecords{{fluid, FluidPut{}}}).has_value());
}

TEST_CASE("out of service a record needs a reason and a kind that there is")
{
    const Walk walk;
    const auto refusalOf = [&](const RecordServiced& serviced) {
        const auto refused = walk.attempt(9, PutRecord{serviced});
        return refused ? std::string() : refused.error().say.id;
    };
    CHECK(refusalOf({"tank", "Winder", false, "dismantled"}).empty());
    CHECK(refusalOf({"tank", "Winder", true, ""}).empty());
    CHECK(refusalOf({"tank", "Winder", false, ""}) == "refused.record-why");
    CHECK(refusalOf({"tank", "", false, "dismantled"}) == "refused.record-name");
    CHECK(refusalOf({"person", "Ines", false, "left"}) == "refused.record-name");
}

TEST_CASE("a record that cannot be is refused with its field")
{
    const Walk walk;
    CartPut put{ordinary().cart, ordinary().stages};
    put.stages.front().changeLimit = typed<units::Pressure>("0 psi");
    const auto refused = walk.attempt(9, PutRecord{put});
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().say.id == "fault.above-zero");
    CHECK(refused.error().sentence.find("stages[0].change_limit") == 0);
}
