// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Turnovers are counted by hand: 400 L at 20 L/min is one in 20 min.

#include "run/kit.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

/// "before wanted, between helps, behind helps, after later".
std::string kitAt(const Walk& walk, double minute)
{
    const Standing standing = walk.standingAt(minute);
    std::string all;
    for (const KitBottle& bottle : kitOf(walk.run(), standing, samplesOf(walk.run(), standing))) {
        all += (all.empty() ? "" : ", ") + std::string(nameOf(bottle.part)) + " " + std::string(nameOf(bottle.state));
    }
    return all;
}

/// Filters from minute 0 on and is read every quarter of an hour up to `minutes`.
Walk filtered(int minutes, const char* target = "5")
{
    Walk walk(withTarget(ordinary(), target));
    walk.filteringAt(0);
    for (int minute = 2; minute <= minutes; minute += 15) {
        walk.readingAt(minute, "17 13 5");
    }
    return walk;
}

} // namespace

TEST_CASE("a run wants a bottle before and one at the end, and says when the time of the first is past")
{
    Walk walk = filtered(107);
    CHECK(kitAt(filtered(2), 10) == "before wanted, between helps, behind helps, after later");
    CHECK(kitAt(filtered(32), 32) == "before over, between helps, behind helps, after later"); // 1.6 turnovers
    CHECK(kitAt(walk, 107) == "before over, between helps, behind helps, after wanted");       // 5.35 of 5
}

TEST_CASE("what was drawn is told of the part that it is for, and the last one is wanted from the same place")
{
    Walk walk = filtered(2);
    walk.sayAt(5, SampleDrawn{"S1", 1}).sayAt(6, SampleDrawn{"S2", 2}).sayAt(7, SampleDrawn{"S3", 3});
    CHECK(kitAt(walk, 8) == "before drawn, between drawn, behind drawn, after later");
    const Standing standing = walk.standingAt(8);
    const auto kit = kitOf(walk.run(), standing, samplesOf(walk.run(), standing));
    CHECK(kit.back().port == 1);
    CHECK(kit[1].drawn == 1U);
    for (int minute = 17; minute <= 107; minute += 15) {
        walk.readingAt(minute, "17 13 5");
        if (minute == 62) {
            walk.sayAt(63, SampleDrawn{"S4", 1}); // mid-run: no bottle of the end
        }
    }
    CHECK(kitAt(walk, 107) == "before drawn, between drawn, behind drawn, after wanted");
    walk.sayAt(107, SampleDrawn{"S5", 1});
    CHECK(kitAt(walk, 108) == "before drawn, between drawn, behind drawn, after drawn");
}

TEST_CASE("of a run that ends early the last bottle is one behind which hardly anything was filtered")
{
    Walk walk = filtered(62);
    walk.sayAt(64, SampleDrawn{"E", 0}).stoppedAt(66).closeAt(67);
    CHECK(kitAt(walk, 68) == "before over, between over, behind over, after drawn");
    Walk early = filtered(32);
    early.sayAt(40, SampleDrawn{"E", 0}).readingAt(47, "17 13 5").readingAt(62, "17 13 5").stoppedAt(66).closeAt(67);
    CHECK(kitAt(early, 68) == "before over, between over, behind over, after over"); // 1.3 turnovers came behind it
}

TEST_CASE("the oil circulates since the last stop, whichever way it goes")
{
    Walk walk;
    CHECK_FALSE(circulatingSince(walk.standingAt(1)));
    walk.bypassingAt(2).filteringAt(5);
    CHECK(circulatingSince(walk.standingAt(9)) == std::chrono::minutes(2));
    walk.stoppedAt(10);
    CHECK_FALSE(circulatingSince(walk.standingAt(11)));
    walk.filteringAt(12);
    CHECK(circulatingSince(walk.standingAt(13)) == std::chrono::minutes(12));
}
