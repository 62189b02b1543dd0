// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The log of a run's alerts and its figures, counted by hand. Limits of rates: ANSI/ISA-18.2-2016 clause 16.4.

#include "run/alert_log.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

constexpr auto atLimit = AlertId::StageAtLimit;
constexpr auto nearLimit = AlertId::StageNearLimit;
constexpr auto falls = "50 42.1 1"; // stage 2 from 42 psi, its limit, to 41.1 psi: below the deadband

/// Filtering, with the warning near the limit out of service.
Walk withoutTheWarning()
{
    return Walk().filteringAt(0).sayAt(1, AlertServiced{nearLimit, 2, false, "spares are at hand"});
}

RunTime minutes(int count)
{
    return std::chrono::minutes(count);
}

} // namespace

TEST_CASE("the log has one line for each raising, with who acknowledged it and when it returned")
{
    Walk walk = withoutTheWarning().readingAt(2, "50 43 1").acknowledgeAt(3, atLimit, 2).readingAt(4, falls);
    walk.readingAt(6, "50 43 1").shelveAt(7, atLimit, 2, 5);
    const auto log = alertLogOf(walk.run());
    REQUIRE(log.size() == 2);
    CHECK(log[0].raised == minutes(2));
    CHECK(log[0].acknowledged == minutes(3));
    CHECK(log[0].acknowledgedBy == walk.entries().back().header.person);
    CHECK(log[0].returned == minutes(4));
    CHECK_FALSE(log[0].stands());
    CHECK(log[1].stands());
    CHECK(log[1].shelvedTimes == 1);
    CHECK(log[1].why == "elements on their way");
    CHECK_FALSE(log[1].acknowledged.has_value());
}

TEST_CASE("a worse alert that takes the place of another ends its line, not by a return")
{
    const Walk walk = Walk().filteringAt(0).readingAt(2, "50 38 4").readingAt(4, "58 46 4");
    const auto log = alertLogOf(walk.run());
    REQUIRE(log.size() == 2);
    CHECK(log[0].alert == nearLimit);
    CHECK(log[0].isReplaced);
    CHECK_FALSE(log[0].returned.has_value());
    CHECK(log[1].alert == atLimit);
    CHECK(alertMetrics(walk.run(), minutes(10)).standing == 1);
}

TEST_CASE("an alert acknowledged after its return keeps both times")
{
    const Walk walk = withoutTheWarning().readingAt(2, "50 43 1").readingAt(4, falls).acknowledgeAt(5, atLimit, 2);
    const auto log = alertLogOf(walk.run());
    REQUIRE(log.size() == 1);
    CHECK(log[0].returned == minutes(4));
    CHECK(log[0].acknowledged == minutes(5));
}

TEST_CASE("the rate counts over at least an hour, the crowd over any ten minutes")
{
    Walk walk = withoutTheWarning();
    for (int i = 0; i < 6; ++i) { // at the limit every other set: raised at 2, 4, 6, 8, 10 and 12 min
        walk.readingAt(2 + 2 * i, "50 43 1").readingAt(3 + 2 * i, falls).acknowledgeAt(3.5 + 2 * i, atLimit, 2);
    }
    const AlertMetrics early = alertMetrics(walk.run(), minutes(14));
    CHECK(early.raised == 6);
    CHECK(early.perHour == Approx(6.0));
    CHECK(early.mostInTenMinutes == 5); // 2, 4, 6, 8, 10: the one at 12 is ten minutes after the first
    CHECK(early.standing == 0);
    CHECK_FALSE(early.longestStanding.has_value());
    CHECK(early.byPriority == std::array<int, 3>{0, 6, 0});
    CHECK_FALSE(early.isFlood());
    CHECK(early.minutesOpen == 14);
    CHECK_FALSE(early.isRate());
    CHECK(alertMetrics(walk.run(), minutes(60)).isRate());
    CHECK(alertMetrics(walk.run(), minutes(180)).perHour == Approx(2.0));
}

TEST_CASE("more than ten alerts in ten minutes are a flood")
{
    Walk walk = withoutTheWarning();
    for (int i = 0; i < 11; ++i) {
        const double minute = 2.0 + 0.8 * i;
        walk.readingAt(minute, "50 43 1").readingAt(minute + 0.4, falls).acknowledgeAt(minute + 0.5, atLimit, 2);
    }
    CHECK(alertMetrics(walk.run(), minutes(20)).mostInTenMinutes == 11);
    CHECK(alertMetrics(walk.run(), minutes(20)).isFlood());
}

TEST_CASE("the figures of a closed run stay as they were at its close")
{
    const Walk walk = Walk().filteringAt(0).readingAt(2, "50 43 1").stoppedAt(60).closeAt(61);
    const AlertMetrics metrics = alertMetrics(walk.run(), minutes(600));
    CHECK(metrics.perHour == Approx(static_cast<double>(metrics.raised) / (61.0 / 60.0)));
    REQUIRE(metrics.longestStanding.has_value());
    CHECK(*metrics.longestStanding == minutes(59));
}
