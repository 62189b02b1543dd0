// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/simulate.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace loopside;
using namespace loopside::units;

// The range is ours: a forecast that always says "no" or always "yes" must not look good, and each bin of a reliability
// table needs runs.
TEST_CASE("of the whole test set a sensible share reaches a limit before the target")
{
    int any = 0;
    int first = 0;
    int second = 0;
    for (int number = 0; number < practice::testScenarios; ++number) {
        CAPTURE(number);
        const auto simulated = practice::simulate(practice::testScenario(number));
        REQUIRE(simulated.has_value());
        any += simulated->reachedLimit() ? 1 : 0;
        first += simulated->reachedLimit(1) ? 1 : 0;
        second += simulated->reachedLimit(2) ? 1 : 0;
        for (const practice::Snapshot& now : simulated->truth.atReadings) {
            REQUIRE(std::isfinite(now.gauges[0].in(pascal)));
            REQUIRE(now.gauges[0] >= now.gauges[2]);
        }
    }
    WARN("reached before the target: " << any << " of " << practice::testScenarios << " runs, stage 1 " << first
                                       << ", stage 2 " << second);
    CHECK(any > practice::testScenarios / 5);
    CHECK(any < practice::testScenarios * 3 / 5);
    CHECK(first > practice::testScenarios / 10);
    CHECK(second > practice::testScenarios / 10);
}
