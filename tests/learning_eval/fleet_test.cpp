// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "fleet.h"

#include "run/learning.h"
#include "run/tank_learned.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::evaluation;

TEST_CASE("a run of a place is opened with what the days before taught, and with nothing on the first")
{
    const auto days = placeOver(981'000, 3);
    REQUIRE(days.size() == 3);
    CHECK(days[0].run.past.empty());
    for (std::size_t day = 0; day < days.size(); ++day) {
        const run::RunState& run = days[day].run;
        CHECK_FALSE(run.taught.empty());
        CHECK(run.past == run::learnedFor(stateBefore(days, day, day), run.setup));
        CHECK(run.place == run::placeLearned(stateBefore(days, day, day), run.setup));
    }
}

TEST_CASE("what is known after some days is of the last of them")
{
    const auto days = placeOver(981'000, 3);
    REQUIRE(days.size() == 3);
    CHECK(stateBefore(days, 2, 0).runs.empty());
    const run::State one = stateBefore(days, 2, 1);
    REQUIRE(one.runs.size() == 1);
    CHECK(one.runs.begin()->first == days[1].run.id);
    CHECK(stateBefore(days, 2, 20).runs.size() == 2);
}
