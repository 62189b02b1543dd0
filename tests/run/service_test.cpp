// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Alerts out of service (a state of IEC 62682), the red alert that stops the pump, and what may not be silenced for
// good.

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

constexpr auto atLimit = AlertId::StageAtLimit;
constexpr auto nearLimit = AlertId::StageNearLimit;
constexpr auto overdue = AlertId::ReadingOverdue;
constexpr auto stopNow = AlertId::StopNow;

AlertServiced out(AlertId alert, std::optional<int> stage = {})
{
    return {alert, stage, false, "gauge 2 is on its way"};
}

std::string refusalOf(const Walk& walk, Said what)
{
    const auto attempt = walk.attempt(30, Say{walk.id(), std::move(what)});
    return attempt ? "" : attempt.error().say.id;
}

std::string findingTold(const Walk& walk, std::optional<int> stage)
{
    const Alert* alert = walk.run().alertOf(stopNow, stage);
    REQUIRE(alert != nullptr);
    for (const auto& [name, value] : alert->told) {
        if (name == "finding") {
            return value;
        }
    }
    return "";
}

/// Both stages cost something, then nothing passes: every gauge shows the head of the return line, 1 psi.
Walk primeLost()
{
    return Walk().filteringAt(0).readingAt(2, "20 14 6").readingAt(5, "20 14 6").readingAt(10, "1 1 1");
}

} // namespace

TEST_CASE("an alert out of service is not raised, and is raised at once when it is put back")
{
    Walk walk = Walk().filteringAt(0).sayAt(1, out(nearLimit, 2)).readingAt(2, "50 38 4");
    CHECK(walk.alert(nearLimit, 2) == "out-of-service");
    walk.sayAt(3, AlertServiced{nearLimit, 2, true, {}});
    CHECK(walk.alert(nearLimit, 2) == "unacknowledged");
}

TEST_CASE("an alert out of service neither returns nor is acknowledged, shelved or taken out again")
{
    Walk walk = Walk().filteringAt(0).sayAt(1, out(overdue)).readingAt(2, "20 14 4");
    CHECK(walk.alert(overdue) == "out-of-service");
    CHECK(walk.tickAt(60).alert(overdue) == "out-of-service");
    CHECK(refusalOf(walk, AlertAcknowledged{overdue, {}, {}}) == "refused.no-such-alert");
    CHECK(refusalOf(walk, AlertShelved{overdue, {}, "later", std::chrono::minutes(5)}) == "refused.no-such-alert");
    CHECK(refusalOf(walk, out(overdue)) == "refused.no-such-alert");
    CHECK(refusalOf(Walk().filteringAt(0), AlertServiced{overdue, {}, true, {}}) == "refused.no-such-alert");
}

TEST_CASE("a stage at its limit alerts although the warning before it is out of service, which stays out")
{
    Walk walk = Walk().filteringAt(0).sayAt(1, out(nearLimit, 2)).readingAt(2, "50 43 1");
    CHECK(walk.alert(atLimit, 2) == "unacknowledged");
    CHECK(walk.alert(nearLimit, 2) == "out-of-service");
}

TEST_CASE("what stops the pump or asks for new elements stays in service, and a reason is asked for the others")
{
    const Walk walk = Walk().filteringAt(0);
    CHECK(refusalOf(walk, out(stopNow)) == "refused.stays-in-service");
    CHECK(refusalOf(walk, out(atLimit, 2)) == "refused.stays-in-service");
    CHECK(refusalOf(walk, AlertServiced{overdue, {}, false, {}}) == "refused.service-why");
}

TEST_CASE("a finding that asks to stop the pump raises the red alert, told with its name")
{
    Walk walk = primeLost();
    CHECK(walk.alert(stopNow) == "unacknowledged");
    CHECK(findingTold(walk, {}) == "no-flow");
    walk.acknowledgeAt(11, stopNow);
    CHECK(walk.alert(stopNow) == "acknowledged");
}

TEST_CASE("the red alert returns with a good set at which nothing asks to stop")
{
    Walk walk = primeLost().readingAt(12, "20 14 6");
    CHECK(walk.alert(stopNow) == "returned");
    CHECK(walk.acknowledgeAt(13, stopNow).alert(stopNow) == "normal");
}

TEST_CASE("the red alert is raised anew, acknowledged or not, when another finding takes its place")
{
    Walk walk = primeLost().acknowledgeAt(11, stopNow);
    walk.readingAt(12, "96 96 96"); // the return is shut now: all gauges stand at the relief setting
    REQUIRE(walk.alert(stopNow) == "unacknowledged");
    CHECK(findingTold(walk, {}) == "dead-headed");
}

TEST_CASE("a set that a question about typing holds back raises no red alert")
{
    Walk walk = Walk().filteringAt(0).readingAt(2, "20 14 6").readingAt(5, "20 14 6").readingAt(10, "150 1 1");
    CHECK(walk.alert(stopNow) == "normal");
}
