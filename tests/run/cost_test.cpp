// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/cost.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>

using Catch::WithinAbs;
using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

/// Two hours of filtering of 400 L with one changeover of two elements, bottles before and after.
Walk walked(const char* after)
{
    Walk walk(withTarget(ordinary(), "6", "18/16/13"));
    walk.filteringAt(0).readingAt(2, "17 13 5").sayAt(3, SampleDrawn{"B", 1});
    for (int minute = 15; minute <= 60; minute += 15) {
        walk.readingAt(minute, "17 13 5");
    }
    walk.stoppedAt(60).changeoverAt(62, 1, 2).filteringAt(65);
    for (int minute = 67; minute <= 120; minute += 10) {
        walk.readingAt(minute, "17 13 5");
    }
    walk.sayAt(124, SampleDrawn{"A", 1}).stoppedAt(125);
    walk.sayAt(1500, ResultEntered{.sample = "B", .code = "21/19/16", .water = {}, .viscosity = {}});
    walk.sayAt(1501, ResultEntered{.sample = "A", .code = after, .water = {}, .viscosity = {}});
    return walk;
}

const Prices told{"EUR", number("45.50"), number("6"), number("30")};

RunCost cost(const Walk& walk, const Prices& prices = told)
{
    const Standing standing = walk.standingAt(1600);
    return costOf(walk.run(), standing, proofOf(walk.run(), standing), prices);
}

bool assumes(const RunCost& cost, std::string_view id)
{
    return std::any_of(cost.assumed.begin(), cost.assumed.end(),
                       [&](const Message& message) { return message.id == id; });
}

} // namespace

TEST_CASE("a proven run: elements and hours spent, the oil saved, a share for each code number")
{
    const RunCost sum = cost(walked("17/14/12"));
    CHECK(sum.elements == 2);
    CHECK_THAT(sum.hours, WithinAbs(2.0, 0.001));
    CHECK_THAT(sum.filtered_l, WithinAbs(2400.0, 1.0)); // two hours of 20 L/min
    CHECK(sum.saved_l == 400.0);
    CHECK_THAT(sum.spent.value(), WithinAbs(2 * 45.50 + 2.0 * 30.0, 0.01)); // 151.00
    CHECK_THAT(sum.savedWorth.value(), WithinAbs(2400.0, 0.01));
    CHECK_THAT(sum.perCodeLeast.value(), WithinAbs(151.0 / 5.0, 0.01)); // 19 to 14
    CHECK_THAT(sum.perCodeMost.value(), WithinAbs(151.0 / 4.0, 0.01));  // 21 to 17
    CHECK(assumes(sum, "cost.assumed.fitted"));
    CHECK(assumes(sum, "cost.assumed.saved"));
    CHECK(assumes(sum, "cost.assumed.element"));
}

TEST_CASE("without a proof no oil is saved and no code number has a price")
{
    const RunCost sum = cost(walked("20/18/15"));
    CHECK(sum.saved_l == 0.0);
    CHECK_FALSE(sum.savedWorth);
    CHECK_FALSE(sum.perCodeLeast); // one number is the scatter of a test
    CHECK(assumes(sum, "cost.assumed.not-saved"));
    CHECK(assumes(sum, "cost.assumed.no-drop"));
    CHECK(sum.spent);
}

TEST_CASE("what has no price is left out and said so")
{
    const RunCost none = cost(walked("17/14/12"), Prices{"EUR"});
    CHECK_FALSE(none.spent);
    CHECK_FALSE(none.savedWorth);
    CHECK_FALSE(none.perCodeLeast);
    CHECK(none.elements == 2);
    CHECK(assumes(none, "cost.no-price.element"));
    CHECK(assumes(none, "cost.no-price.oil"));
    const RunCost some = cost(walked("17/14/12"), Prices{"EUR", number("45.50")});
    CHECK_THAT(some.spent.value(), WithinAbs(91.0, 0.01));
    CHECK(assumes(some, "cost.no-price.hour"));
}
