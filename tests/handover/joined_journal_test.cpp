// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/joined_journal.h"

#include "handover/desk.h"
#include "ledger/at_hand.h"
#include "ledger/handed.h"
#include "ledger/settled.h"
#include "run/put_away.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;
using handover::JoinedJournal;
using ledger::Reach;
using sync::Held;

namespace {

std::vector<Held> heldOf(const Desk& desk, bool isAhead = false)
{
    std::vector<Held> held;
    for (const ledger::Stored& stored : allOf(desk.journal)) {
        held.push_back({stored.entry, isAhead && stored.entry.kind != ledger::chainOpenedKind});
    }
    return held;
}

/// A tablet whose logbook folds what it holds of others with its own.
class Joined
{
public:
    explicit Joined(SteppedClock& clock, Reach reach = Reach::Whole) : joined{journal}, desk{1, clock, &joined, reach}
    {
    }

    void show(std::vector<Held> others)
    {
        REQUIRE(joined.show(std::move(others)));
        REQUIRE(desk.logbook.refold());
    }

    [[nodiscard]] const run::State& state() const { return desk.logbook.state(); }

    ledger::MemoryJournal journal;
    JoinedJournal joined;
    Desk desk;
};

} // namespace

TEST_CASE("records of others fold with the tablet's own, the later by the hybrid clock holds")
{
    SteppedClock clock;
    const auto reach = GENERATE(Reach::Whole, Reach::AtHand);
    Joined here(clock, reach);
    Desk other(2, clock);
    here.desk.putTank("PH-3", "400");
    other.putTank("PH-3", "410");
    other.putTank("PH-9", "90");
    here.desk.putTank("PH-9", "95");
    const auto own = allOf(here.journal);
    here.show(heldOf(other));
    CHECK(volumeOf(here.state(), "PH-3") == "410 L");
    CHECK(volumeOf(here.state(), "PH-9") == "95 L");
    CHECK(allOf(here.journal) == own);
    here.desk.putTank("PH-3", "420"); // what is written next folds behind all of it
    CHECK(volumeOf(here.state(), "PH-3") == "420 L");
    REQUIRE(here.desk.logbook.refold());
    CHECK(volumeOf(here.state(), "PH-3") == "420 L");
    CHECK(allOf(here.journal).size() == own.size() + 1);
    CHECK(here.joined.last().value() == own.size() + 1);
}

TEST_CASE("a clock that ran ahead takes no precedence until a person settles it")
{
    SteppedClock clock;
    const auto reach = GENERATE(Reach::Whole, Reach::AtHand);
    Joined here(clock, reach);
    SteppedClock wrong;
    wrong.stamp.wallMs += 400LL * 24 * 3'600'000;
    Desk other(2, wrong);
    other.putTank("PH-3", "999");
    other.putTank("PH-4", "44");
    other.putTank("PH-4", "45");
    here.desk.putTank("PH-3", "400");
    here.show(heldOf(other, true));
    CHECK(volumeOf(here.state(), "PH-3") == "400 L");
    CHECK(volumeOf(here.state(), "PH-4") == "45 L"); // among each other they keep their order
    REQUIRE(here.joined.unsettled().size() == 3);
    here.desk.putTank("PH-5", "55"); // it does not pull the clock of this tablet along
    CHECK(allOf(here.journal).back().entry.header.clock < here.joined.unsettled().front().header.clock);

    std::vector<Id> ids;
    for (const ledger::Entry& entry : here.joined.unsettled()) {
        ids.push_back(entry.header.id);
    }
    REQUIRE(here.desk.logbook.settle(ids, here.desk.hand));
    here.show(heldOf(other, true));
    CHECK(here.joined.unsettled().empty());
    CHECK(volumeOf(here.state(), "PH-3") == "999 L");
    CHECK(here.desk.logbook.unknownEntries() == 0);
    here.desk.putTank("PH-3", "401"); // a person who looks at it later has the last word
    CHECK(volumeOf(here.state(), "PH-3") == "401 L");
}

TEST_CASE("what somebody settled at another tablet is settled here")
{
    SteppedClock clock;
    Joined here(clock);
    SteppedClock wrong;
    wrong.stamp.wallMs += 24LL * 3'600'000;
    Desk astray(2, wrong);
    astray.putTank("PH-3", "999");
    here.desk.putTank("PH-3", "400");
    Desk third(3, clock);
    auto others = heldOf(astray, true);
    REQUIRE(third.logbook.settle({others.back().entry.header.id}, third.hand));
    for (const Held& held : heldOf(third)) {
        others.push_back(held);
    }
    here.show(others);
    CHECK(here.joined.unsettled().empty());
    CHECK(volumeOf(here.state(), "PH-3") == "999 L");
}

TEST_CASE("a run that was handed to this tablet goes on here")
{
    SteppedClock clock;
    const auto reach = GENERATE(Reach::Whole, Reach::AtHand);
    Joined here(clock, reach);
    Desk other(2, clock);
    const Id run = other.openRun("PH-3");
    other.tell(run::Say{run, run::Noted{"seen"}});
    other.tell(run::Say{run, ledger::handoverTo(here.desk.hand.device)});
    here.show(heldOf(other));
    REQUIRE(here.state().runOf(run) != nullptr);
    CHECK(here.state().runOf(run)->facts.size() == 2);
    here.desk.tell(run::Say{run, ledger::adoption()});
    CHECK(ledger::holderOf(*here.state().runOf(run)) == here.desk.hand.device);
    here.desk.tell(run::CloseRun{run, run::Ending::StoppedEarly, "done"});
    CHECK(here.state().runOf(run)->phase == run::Phase::Closed);

    SeededRandom random(7);
    const auto again = ledger::Logbook::open(here.joined, clock, random, reach);
    REQUIRE(again);
    CHECK(again->state().runOf(run)->phase == run::Phase::Closed);
    CHECK(ledger::holderOf(*again->state().runOf(run)) == here.desk.hand.device);
}

TEST_CASE("a run of another tablet that was put away is taken out whole")
{
    SteppedClock clock;
    Joined here(clock, Reach::AtHand);
    Desk other(2, clock);
    const Id old = other.openRun("PH-1");
    other.tell(run::Say{old, run::Noted{"seen"}});
    other.tell(run::CloseRun{old, run::Ending::StoppedEarly, "done"});
    for (std::size_t i = 0; i < run::closedRunsAtHand; ++i) {
        const Id run = here.desk.openRun("PH-2");
        here.desk.tell(run::CloseRun{run, run::Ending::StoppedEarly, "done"});
    }
    here.show(heldOf(other));
    REQUIRE(here.state().runOf(old) != nullptr);
    REQUIRE(here.desk.logbook.takeOut(old));
    CHECK_FALSE(here.state().runOf(old)->isPutAway);
    CHECK(here.state().runOf(old)->facts.size() == other.logbook.state().runOf(old)->facts.size());
}

TEST_CASE("what is held of others does not make a tablet read its own journal whole at a start")
{
    SteppedClock clock;
    Joined here(clock);
    const Id run = here.desk.openRun("PH-3");
    Desk other(2, clock);
    const Id theirs = other.openRun("PH-4");
    here.show(heldOf(other));
    const auto runs = ledger::runsAtHand(here.joined, run::closedRunsAtHand);
    REQUIRE(runs);
    CHECK(runs->opened.at(run) > 0);
    CHECK(runs->opened.at(theirs) == 0); // what was said of it here may stand anywhere
}

TEST_CASE("what settles must name entries")
{
    SteppedClock clock;
    Joined here(clock);
    const auto before = allOf(here.journal).size();
    CHECK(here.desk.logbook.settle({}, here.desk.hand).error().code == Errc::Malformed);
    CHECK(here.desk.logbook.settle(std::vector<Id>(ledger::settledMost + 1), here.desk.hand).error().code
          == Errc::Malformed);
    CHECK(allOf(here.journal).size() == before);
    CHECK(ledger::settledBy(ledger::settlingOf({Recorder::idOf(1, 2)})).value() == std::vector{Recorder::idOf(1, 2)});
    CHECK_FALSE(ledger::settledBy("{\"entries\":[1]}"));
    CHECK_FALSE(ledger::settledBy("nothing"));
}
