// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Time that passes judges nothing anew: a standing that is carried on is the one that would be made afresh.

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

using std::chrono::minutes;

namespace {

std::vector<std::string> headlinesOf(const Standing& standing)
{
    std::vector<std::string> ids;
    for (const Finding& finding : standing.findings) {
        ids.push_back(finding.headline.id);
    }
    return ids;
}

void checkCarriedOn(const RunState& run, RunTime from, RunTime until)
{
    Standing earlier = standingOf(run, from);
    const auto before = earlier.credit.turnovers.high;
    const Standing later = standingLater(run, until, std::move(earlier));
    const Standing afresh = standingOf(run, until);
    CHECK(later.now == until);
    CHECK(later.mode == afresh.mode);
    CHECK(later.due == afresh.due);
    CHECK(later.credit.turnovers.high > before);
    CHECK(later.credit.turnovers.low == afresh.credit.turnovers.low);
    CHECK(later.credit.turnovers.best == afresh.credit.turnovers.best);
    CHECK(later.credit.turnovers.high == afresh.credit.turnovers.high);
    CHECK(headlinesOf(later) == headlinesOf(afresh));
    REQUIRE(later.lastReading != nullptr);
    CHECK(later.lastReading >= later.moments.data());
    CHECK(later.lastReading < later.moments.data() + later.moments.size());
    CHECK(later.lastReading->at == afresh.lastReading->at);
    CHECK(later.outlooks.size() == afresh.outlooks.size());
}

} // namespace

TEST_CASE("a standing that is carried on is the one that would be made afresh")
{
    Walk walk(withTarget(ordinary(), "3"));
    walk.filteringAt(0);
    for (int i = 1; i < 8; ++i) {
        walk.readingAt(i * 7, std::to_string(10 + 3 * i) + " " + std::to_string(8 + i) + " 4");
    }
    checkCarriedOn(walk.run(), minutes(50), minutes(52));
    checkCarriedOn(walk.run(), minutes(50), minutes(64));  // the target is met between the two
    checkCarriedOn(walk.run(), minutes(50), minutes(300)); // nobody vouches for all of it
}
