// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Alerts through the states of IEC 62682 (as ANSI/ISA-18.2 has them: unacknowledged, acknowledged, returned to normal
// unacknowledged, shelved). Stage 2 has a limit of 42 psi; its deadband is the reading error of the ΔP, for steps of 1
// psi 2 × √2 × 1/√12 = 0.816 psi, or 2 % of the limit, 0.84 psi, whichever is more.

#include "run/alert.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

constexpr auto atLimit = AlertId::StageAtLimit;
constexpr auto nearLimit = AlertId::StageNearLimit;
constexpr auto overdue = AlertId::ReadingOverdue;
constexpr auto targetMet = AlertId::TargetTurnoversMet;

Walk filtering(Setup setup = ordinary())
{
    return Walk(std::move(setup)).filteringAt(0);
}

std::string told(const Walk& walk, AlertId id, std::optional<int> stage, std::string_view name)
{
    const Alert* alert = walk.run().alertOf(id, stage);
    REQUIRE(alert != nullptr);
    const auto found = std::find_if(alert->told.begin(), alert->told.end(),
                                    [&](const auto& argument) { return argument.first == name; });
    return found == alert->told.end() ? "" : found->second;
}

std::size_t raisedTimes(const Walk& walk, AlertId id)
{
    return static_cast<std::size_t>(
        std::count_if(walk.entries().begin(), walk.entries().end(), [&](const Walk::Entry& entry) {
            const auto* raised = std::get_if<AlertRaised>(&entry.event);
            return raised != nullptr && raised->alert == id;
        }));
}

std::string phaseOf(const Walk& walk)
{
    return std::string(nameOf(walk.run().phase));
}

Walk walkWithOil(std::string_view oil, std::string_view set)
{
    ReadingLogged reading = gauges(set);
    reading.oil = typed<units::Temperature>(oil);
    Walk walk = filtering();
    walk.sayAt(2, reading);
    return walk;
}

} // namespace

TEST_CASE("an alert is raised, acknowledged, and gone when the drop falls")
{
    Walk walk = filtering().readingAt(2, "50 43 1");
    CHECK(walk.alert(atLimit, 2) == "unacknowledged");
    CHECK(told(walk, atLimit, 2, "drop") == "42 psi");
    CHECK(told(walk, atLimit, 2, "limit") == "42 psi");
    CHECK(told(walk, atLimit, 2, "tank") == "T1");
    CHECK(told(walk, atLimit, 2, "cart") == "C1");
    walk.acknowledgeAt(3, atLimit, 2);
    CHECK(walk.alert(atLimit, 2) == "acknowledged");
    walk.readingAt(4, "50 30 1");
    CHECK(walk.alert(atLimit, 2) == "normal");
}

TEST_CASE("an alert that returns before anybody saw it stays until it is acknowledged")
{
    Walk walk = filtering().readingAt(2, "50 43 1").readingAt(4, "50 30 1");
    CHECK(walk.alert(atLimit, 2) == "returned");
    walk.acknowledgeAt(5, atLimit, 2);
    CHECK(walk.alert(atLimit, 2) == "normal");
}

TEST_CASE("a returned alert is raised anew when its ground comes back, and cannot be shelved meanwhile")
{
    Walk walk = filtering().readingAt(2, "50 43 1").readingAt(4, "50 30 1");
    const auto shelved = walk.attempt(5, Say{walk.id(), AlertShelved{atLimit, 2, "later", std::chrono::minutes(5)}});
    REQUIRE_FALSE(shelved.has_value());
    CHECK(shelved.error().say.id == "refused.no-such-alert");
    CHECK(walk.readingAt(6, "50 43 1").alert(atLimit, 2) == "unacknowledged");
    CHECK(raisedTimes(walk, atLimit) == 2);
}

TEST_CASE("a shelved alert comes back by the passing of time")
{
    Walk walk = filtering().readingAt(2, "50 43 1").shelveAt(3, atLimit, 2, 30);
    CHECK(walk.alert(atLimit, 2) == "shelved");
    // Sets at the limit in between do not bring it back.
    walk.readingAt(5, "50 43 1").tickAt(32.9);
    CHECK(walk.alert(atLimit, 2) == "shelved");
    walk.tickAt(33);
    CHECK(walk.alert(atLimit, 2) == "unacknowledged");
}

TEST_CASE("a shelved alert comes back from within the deadband too, and a shelved target with it")
{
    Walk walk = filtering().readingAt(2, "50 43 1").shelveAt(3, atLimit, 2, 5).readingAt(5, "50 42.5 1");
    walk.tickAt(8);
    CHECK(walk.alert(atLimit, 2) == "unacknowledged");

    Walk target = filtering(withTarget(ordinary(), "0.1")).readingAt(2, "20 14 4").shelveAt(3, targetMet, {}, 5);
    CHECK(target.tickAt(8).alert(targetMet) == "unacknowledged");
    CHECK(phaseOf(target) == "close-out");
}

TEST_CASE("a shelved alert whose ground went away is normal, and stays so")
{
    Walk walk = filtering().readingAt(2, "50 43 1").shelveAt(3, atLimit, 2, 5).readingAt(5, "50 30 1");
    CHECK(walk.alert(atLimit, 2) == "normal");
    CHECK(walk.tickAt(9).alert(atLimit, 2) == "normal");
}

TEST_CASE("a drop that wanders within the deadband does not chatter")
{
    Walk walk = filtering().readingAt(2, "50 43 1");
    for (int i = 0; i < 10; ++i) {
        walk.readingAt(3 + i, i % 2 == 0 ? "50 42.2 1" : "50 43 1"); // 41.2 and 42 psi
    }
    CHECK(raisedTimes(walk, atLimit) == 1);
    CHECK(walk.alert(atLimit, 2) == "unacknowledged");
    walk.readingAt(20, "50 42.1 1"); // 41.1 psi: 0.9 psi below
    CHECK(walk.alert(atLimit, 2) == "returned");
}

TEST_CASE("a swinging needle widens the deadband by its reading error")
{
    // 40 ± 3 psi: 2 × √(2/12 + 9/3) = 3.56 psi; below 38.44 psi it would return
    CHECK(filtering().readingAt(2, "50 43 1").readingAt(4, "50 38..44 1").alert(atLimit, 2) == "unacknowledged");
    CHECK(filtering().readingAt(2, "50 43 1").readingAt(4, "50 36..42 1").alert(atLimit, 2) == "returned");
}

TEST_CASE("a questioned set alerts at once but takes no alert back")
{
    Walk walk = filtering().readingAt(2, "150 143 1");
    CHECK(walk.alert(atLimit, 2) == "unacknowledged");
    walk.readingAt(4, "150 20 1"); // G1 is beyond its dial: the set is questioned
    CHECK(walk.alert(atLimit, 2) == "unacknowledged");
    walk.answerAt(5, outOfRange, walk.last(), "yes");
    CHECK(walk.alert(atLimit, 2) == "returned");
}

TEST_CASE("a set in bypass mode or with the pump off takes no alert back")
{
    CHECK(filtering().readingAt(2, "50 43 1").bypassingAt(3).readingAt(4, "5 5 4").alert(atLimit, 2)
          == "unacknowledged");
    CHECK(filtering().readingAt(2, "50 43 1").stoppedAt(3).readingAt(4, "1 1 1").alert(atLimit, 2) == "unacknowledged");
}

TEST_CASE("a stage at its limit alerts in any mode")
{
    CHECK(Walk().bypassingAt(0).readingAt(2, "50 43 1").alert(atLimit, 2) == "unacknowledged");
    CHECK(Walk().readingAt(2, "50 43 1").alert(atLimit, 2) == "unacknowledged");
}

TEST_CASE("only new elements all through clear a stage without a set")
{
    Walk walk = filtering().readingAt(2, "50 43 1").acknowledgeAt(2.5, atLimit, 2).stoppedAt(3);
    CHECK(Walk(walk).changeoverAt(5, 2, 1).alert(atLimit, 2) == "acknowledged");
    CHECK(Walk(walk).changeoverAt(5, 1, 2).alert(atLimit, 2) == "acknowledged");
    CHECK(Walk(walk).changeoverAt(5, 2, 2).alert(atLimit, 2) == "normal");
    CHECK(Walk(walk).changeoverAt(5, 2, 1).filteringAt(6).readingAt(8, "20 14 4").alert(atLimit, 2) == "normal");
}

TEST_CASE("near the limit gives way to at the limit and comes back behind it")
{
    Walk walk = filtering().readingAt(2, "50 38 4");
    CHECK(walk.alert(nearLimit, 2) == "unacknowledged");
    walk.readingAt(4, "50 43 1");
    CHECK(walk.alert(nearLimit, 2) == "normal");
    CHECK(walk.alert(atLimit, 2) == "unacknowledged");
    walk.readingAt(6, "50 38 4"); // 34 psi: below 42, above 80 % of it
    CHECK(walk.alert(nearLimit, 2) == "unacknowledged");
    CHECK(walk.alert(atLimit, 2) == "returned");
    walk.readingAt(8, "50 20 4");
    CHECK(walk.alert(nearLimit, 2) == "returned");
}

TEST_CASE("a cold oil over the limit is told as cold, a loaded element as to be changed")
{
    // VG 46, VI 98: about 490 cSt at 0 °C and 46 cSt at 40 °C (ISO 3448, ASTM D341). A clean stage 2 (4 psi at 46 cSt)
    // has about 42 psi in the cold: not loaded. At 40 °C 42 psi are ten times its clean drop.
    CHECK(told(walkWithOil("0 C", "50 43 1"), atLimit, 2, "advice") == "cold");
    CHECK(told(walkWithOil("40 C", "50 43 1"), atLimit, 2, "advice") == "change");
    CHECK(told(walkWithOil("10 C", "50 43 1"), atLimit, 2, "advice") == "change"); // 1.9 times, and it may be more
}

TEST_CASE("without a known clean drop nobody is told that cold is all there is to it")
{
    StageDrop drop;
    CHECK_FALSE(isColdNotLoaded(drop));
}

TEST_CASE("an alert whose ground was amended stays as it was told then")
{
    Walk walk = filtering().readingAt(2, "50 43 1");
    walk.amendAt(3, walk.last(), "50 34 1");
    const Alert* alert = walk.run().alertOf(atLimit, 2);
    REQUIRE(alert != nullptr);
    CHECK(alert->asToldThen);
    CHECK(alert->state == AlertState::Returned);
    CHECK(told(walk, atLimit, 2, "drop") == "42 psi");
}

TEST_CASE("an amendment to the limit alerts")
{
    Walk walk = filtering().readingAt(2, "50 34 1");
    CHECK(walk.amendAt(3, walk.last(), "50 43 1").alert(atLimit, 2) == "unacknowledged");
    CHECK_FALSE(walk.run().alertOf(atLimit, 2)->asToldThen);
}

TEST_CASE("a reading is overdue two minutes past its time, while filtering only")
{
    Walk walk = filtering().readingAt(2, "20 14 4"); // next at 5 min
    CHECK(walk.tickAt(6.99).alert(overdue) == "normal");
    CHECK(walk.tickAt(7).alert(overdue) == "unacknowledged");
    CHECK(told(walk, overdue, {}, "minutes") == "5");
    CHECK(Walk(walk).readingAt(8, "20 14 4").alert(overdue) == "normal"); // who reads has acted: nothing to acknowledge
    CHECK(Walk(walk).stoppedAt(8).alert(overdue) == "normal");
    CHECK(Walk(walk).filteringAt(8).alert(overdue) == "unacknowledged"); // it was filtering all along
    CHECK(Walk(walk).readingAt(8, "- - -").alert(overdue) == "unacknowledged");
    CHECK(Walk(walk).readingAt(8, "120 14 4").alert(overdue) == "unacknowledged"); // held back by a question
    CHECK(Walk(walk).noteAt(8).alert(overdue) == "unacknowledged");
    CHECK(Walk().tickAt(500).alert(overdue) == "normal");
}

TEST_CASE("the next moment at which time alone may speak is known")
{
    const Walk walk = filtering().readingAt(2, "50 43 1").shelveAt(3, atLimit, 2, 1);
    const auto minuteOf = [](std::optional<RunTime> time) {
        return time ? static_cast<double>(time->count()) / 60e3 : -1.0;
    };
    CHECK(minuteOf(nextDeadline(walk.run(), walk.standingAt(3))) == 4.0);   // off the shelf
    CHECK(minuteOf(nextDeadline(walk.run(), walk.standingAt(4.5))) == 7.0); // due at 5 min, and 2
    CHECK(minuteOf(nextDeadline(walk.run(), walk.standingAt(8))) == -1.0);
    Walk closed = walk;
    closed.closeAt(3.5);
    CHECK(minuteOf(nextDeadline(closed.run(), closed.standingAt(3.5))) == -1.0);
}

TEST_CASE("the target opens close-out, and the stop in close-out ends the run with its totals")
{
    Walk walk = filtering(withTarget(ordinary(), "0.5"));
    walk.readingAt(2, "20 14 4").readingAt(5, "20 14 4").readingAt(9.9, "20 14 4");
    CHECK(phaseOf(walk) == "open");
    walk.readingAt(10, "20 14 4");
    CHECK(phaseOf(walk) == "close-out");
    CHECK(walk.alert(targetMet) == "unacknowledged");
    CHECK(told(walk, targetMet, {}, "best") == "0.5");
    CHECK(told(walk, targetMet, {}, "minutes") == "0");
    walk.sayAt(11, SampleDrawn{"B2", 3}).stoppedAt(12);
    CHECK(phaseOf(walk) == "closed");
    REQUIRE(walk.run().closed.has_value());
    CHECK(walk.run().closed->ending == Ending::TargetMet);
    CHECK_THAT(walk.run().closed->turnovers.best, Catch::WithinAbs(0.6, 1e-9));
}

TEST_CASE("a target met at best says what the low end lacks")
{
    // Sets at 2 and 12 min: the ten minutes between are longer than planned (to 5 min, and 5 of grace); low is 2 min.
    const Walk walk = filtering(withTarget(ordinary(), "0.5")).readingAt(2, "20 14 4").readingAt(12, "20 14 4");
    CHECK(told(walk, targetMet, {}, "low") == "0.1");
    CHECK(told(walk, targetMet, {}, "minutes") == "8"); // 0.4 turnovers at 20 min
}

TEST_CASE("a code keeps the run open only where it can be counted")
{
    Walk counted = filtering(withTarget(ordinary(), "0.5", "17/15/12", true)).readingAt(10, "20 14 4");
    CHECK(counted.alert(targetMet) == "unacknowledged");
    CHECK(phaseOf(counted) == "open");
    CHECK(phaseOf(counted.stoppedAt(12)) == "open");
    CHECK(phaseOf(counted.closeAt(13, Ending::TargetMet)) == "closed");

    Walk awaited = filtering(withTarget(ordinary(), "0.5", "17/15/12")).readingAt(10, "20 14 4").stoppedAt(12);
    REQUIRE(awaited.run().closed.has_value());
    CHECK(awaited.run().closed->ending == Ending::TargetMetCodeAwaited);
}

TEST_CASE("a target that an amendment takes back opens the run again and may be met again")
{
    Walk walk = filtering(withTarget(ordinary(), "0.5")).readingAt(10, "20 14 4");
    const Id start = walk.entries()[1].header.id;
    CHECK(phaseOf(walk) == "close-out");
    Amended slower;
    slower.of = start;
    slower.flow = typed<units::Flow>("10 L/min");
    slower.why = "the flow was set lower";
    walk.sayAt(10.5, slower); // 5 min' worth, and half a minute
    CHECK(phaseOf(walk) == "open");
    CHECK(walk.alert(targetMet) == "returned");
    walk.readingAt(15, "20 14 4"); // 5 + 5 min
    CHECK(phaseOf(walk) == "close-out");
    CHECK(walk.alert(targetMet) == "unacknowledged");
}

TEST_CASE("an ending claims no target that was not met")
{
    const auto refusalOf = [](const Walk& walk, Ending ending) {
        const auto decided = walk.attempt(3, CloseRun{walk.id(), ending, {}});
        return decided ? "closed" : decided.error().say.id;
    };
    const Walk early = filtering(withTarget(ordinary(), "7")).readingAt(2, "20 14 4");
    CHECK(refusalOf(early, Ending::TargetMet) == "refused.target-not-met");
    CHECK(refusalOf(early, Ending::TargetMetCodeAwaited) == "refused.target-not-met");
    CHECK(refusalOf(early, Ending::StoppedEarly) == "closed");
    CHECK(refusalOf(filtering(), Ending::TargetMet) == "refused.no-target");
    CHECK(refusalOf(filtering(withTarget(ordinary(), "7", "17/15/12", true)), Ending::TargetMet) == "closed");
    CHECK(refusalOf(filtering(withTarget(ordinary(), "0.1")), Ending::TargetMet) == "closed");
}

TEST_CASE("time raises nothing in a run that is closed")
{
    Walk walk = filtering().readingAt(2, "50 43 1").shelveAt(3, atLimit, 2, 5).closeAt(4);
    CHECK(walk.tickAt(60).decided().empty());
}
