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

TEST_CASE("a record that cannot be is refused with its field")
{
    const Walk walk;
    CartPut put{ordinary().cart, ordinary().stages};
    put.stages.front().changeLimit = typed<units::Pressure>("0 psi");
    const auto refused = walk.attempt(9, PutRecord{put});
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().say.id == "refused.record");
    CHECK(refused.error().sentence.find("stages[0].change_limit") == 0);
}
