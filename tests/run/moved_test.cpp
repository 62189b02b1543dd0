// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A run that was written to the wrong tank and is moved to the right one: judged anew, nothing deleted.

#include "run/moved_note.h"
#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

/// The tank of `ordinary` under another name, with other oil in it.
TankRecord another()
{
    TankRecord tank = ordinary().tank;
    tank.name = "T2";
    tank.volume = typed<units::Volume>("200 L");
    return tank;
}

} // namespace

TEST_CASE("turnovers count by the oil of the right tank, and the wrong one is kept")
{
    Walk walk = Walk().filteringAt(0).readingAt(2, "20 14 4").readingAt(12, "20 14 4");
    const double volume_l = walk.run().setup.tank.volume.value().in(units::litre);
    const double before = walk.standingAt(12).credit.turnovers.best;
    walk.sayAt(13, RunMoved{another(), "the label was read from memory"});
    CHECK(walk.run().setup.tank.name == "T2");
    REQUIRE(walk.run().movedFrom.size() == 1);
    CHECK(walk.run().movedFrom.front().name == "T1");
    const double after = walk.standingAt(12).credit.turnovers.best;
    CHECK(after == Approx(before * volume_l / 200.0));
}

TEST_CASE("loading is judged by the viscosity of the right tank's oil")
{
    Walk walk = Walk().filteringAt(0);
    ReadingLogged reading = gauges("20 14 4");
    reading.oil = typed<units::Temperature>("40 C");
    walk.sayAt(2, reading);
    const auto before = walk.standingAt(3).stages.at(0).loading;
    TankRecord thicker = ordinary().tank;
    thicker.name = "T2";
    thicker.fluid.grade = "ISO VG 68";
    walk.sayAt(4, RunMoved{thicker, "wrong label"});
    const auto after = walk.standingAt(5).stages.at(0).loading;
    REQUIRE(before.has_value());
    REQUIRE(after.has_value());
    CHECK(*after == Approx(*before * 46.0 / 68.0).epsilon(0.02)); // at 40 °C the grades are the viscosities (ISO 3448)
}

TEST_CASE("alerts that stood are marked as told then, and the cart is known to have pumped the right oil")
{
    TankRecord gear = another();
    gear.fluid.kind = "gear";
    Walk walk = Walk().filteringAt(0).readingAt(2, "50 43 1").sayAt(3, RunMoved{gear, "wrong label"});
    const Alert* alert = walk.run().alertOf(AlertId::StageAtLimit, 2);
    REQUIRE(alert != nullptr);
    CHECK(alert->asToldThen);
    CHECK(walk.cart().lastFamily == "gear");
}

TEST_CASE("a move needs a reason and a tank that can be")
{
    const Walk walk = Walk().filteringAt(0);
    const auto reasonless = walk.attempt(1, Say{walk.id(), RunMoved{another(), {}}});
    REQUIRE_FALSE(reasonless.has_value());
    CHECK(reasonless.error().say.id == "refused.amend-why");
    TankRecord empty = another();
    empty.volume = typed<units::Volume>("0 L");
    const auto impossible = walk.attempt(1, Say{walk.id(), RunMoved{empty, "wrong label"}});
    REQUIRE_FALSE(impossible.has_value());
    CHECK(impossible.error().say.id == "fault.above-zero");
}

namespace {

/// Twins of 400 L, a cart that holds 8 L.
Setup twins()
{
    Setup setup = ordinary();
    setup.tank.name = "HT-11";
    setup.tank.volume = litres("400");
    setup.cart.holdUp = litres("8");
    return setup;
}

TankRecord otherTwin()
{
    TankRecord tank = twins().tank;
    tank.name = "HT-12";
    return tank;
}

std::string valueIn(const Message& message, std::string_view name)
{
    const auto found = std::ranges::find(message.arguments, name, &Message::Argument::first);
    return found == message.arguments.end() ? std::string() : found->second;
}

} // namespace

TEST_CASE("a run that pumped and is moved leaves a note on mixed oils at both tanks")
{
    const Walk walk = Walk(twins()).filteringAt(0).readingAt(2, "20 14 4").sayAt(25, RunMoved{otherTwin(), "label"});
    const auto notes = movedNotes(walk.run());
    REQUIRE(notes.size() == 2);
    CHECK(notes[0].id == "moved.here");
    CHECK(valueIn(notes[0], "tank") == "HT-12");
    CHECK(valueIn(notes[0], "share") == "2.0"); // 8 L of 400 L (trade practice F15: 2 %)
    CHECK(notes[1].id == "moved.there");
    CHECK(valueIn(notes[1], "tank") == "HT-11");
    CHECK(valueIn(notes[1], "other") == "HT-12");
    CHECK(valueIn(notes[1], "share") == "2.0");
}

TEST_CASE("each of the two tanks has its own note, a third has none")
{
    const Walk walk = Walk(twins()).filteringAt(0).sayAt(25, RunMoved{otherTwin(), "label"});
    REQUIRE(movedNotesAt(walk.state(), "HT-11").size() == 1);
    CHECK(movedNotesAt(walk.state(), "HT-11").front().id == "moved.there");
    REQUIRE(movedNotesAt(walk.state(), "HT-12").size() == 1);
    CHECK(movedNotesAt(walk.state(), "HT-12").front().id == "moved.here");
    CHECK(movedNotesAt(walk.state(), "HT-13").empty());
}

TEST_CASE("a run that pumped nothing before it was moved mixes nothing")
{
    CHECK(movedNotes(Walk(twins()).filteringAt(0).run()).empty());
    CHECK(movedNotes(Walk(twins()).sayAt(1, RunMoved{otherTwin(), "label"}).filteringAt(2).run()).empty());
}

TEST_CASE("without the cart's hold-up the share is not made up, and a run that is moved back is told once a tank")
{
    Setup unknown = twins();
    unknown.cart.holdUp.reset();
    const auto notes = movedNotes(Walk(unknown).filteringAt(0).sayAt(2, RunMoved{otherTwin(), "label"}).run());
    REQUIRE(notes.size() == 2);
    CHECK(notes[0].id == "moved.here-unknown");
    CHECK(valueIn(notes[0], "share").empty());
    const Walk back = Walk(twins())
                          .filteringAt(0)
                          .sayAt(2, RunMoved{otherTwin(), "label"})
                          .sayAt(3, RunMoved{twins().tank, "no, it was right"});
    const auto after = movedNotes(back.run());
    REQUIRE(after.size() == 2);
    CHECK(valueIn(after[0], "tank") == "HT-11");
    CHECK(valueIn(after[1], "tank") == "HT-12");
}
