// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/interest.h"

#include "handover/desk.h"
#include "ledger/handed.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;
using handover::interestOf;
using sync::Topic;

namespace {

std::size_t runsAsked(const std::set<Topic>& interest)
{
    return static_cast<std::size_t>(
        std::ranges::count_if(interest, [](const Topic& topic) { return topic.name.starts_with("run "); }));
}

} // namespace

TEST_CASE("records, what was learned and what is handed to it are of interest to a tablet always")
{
    const Id device = Recorder::idOf(0xD0, 1);
    CHECK(interestOf({}, device, {}) == std::set{Topic::catalogue(), Topic::learned(), Topic::handedTo(device)});
    CHECK(interestOf({}, device, {"7K3M9Q"}).contains(Topic::code("7K3M9Q")));
}

TEST_CASE("a run is of interest as long as it is open, and its tank where this tablet goes on with it")
{
    SteppedClock clock;
    Desk desk(1, clock);
    const Id run = desk.openRun("PH-3");
    const auto here = [&] { return interestOf(desk.logbook.state(), desk.hand.device, {}); };
    const auto elsewhere = [&] { return interestOf(desk.logbook.state(), Recorder::idOf(0xD0, 2), {}); };
    CHECK(here().contains(Topic::run(run)));
    CHECK(here().contains(Topic::tank("PH-3")));
    CHECK(elsewhere().contains(Topic::run(run)));
    CHECK_FALSE(elsewhere().contains(Topic::tank("PH-3")));
    desk.tell(run::CloseRun{run, run::Ending::StoppedEarly, "done"});
    CHECK_FALSE(here().contains(Topic::run(run)));
    CHECK_FALSE(here().contains(Topic::tank("PH-3")));
}

TEST_CASE("two runs that may be one are of interest when they are over too, until somebody says that they are two")
{
    SteppedClock clock;
    Desk desk(1, clock);
    const Id one = desk.openRun("PH-3");
    const Id two = desk.openRun("PH-3");
    for (const Id& run : {one, two}) {
        desk.tell(run::CloseRun{run, run::Ending::StoppedEarly, "done"});
    }
    const auto asked = [&] { return runsAsked(interestOf(desk.logbook.state(), desk.hand.device, {})); };
    CHECK(asked() == 2);
    desk.tell(run::Say{one, ledger::linkAnswer(two, true)});
    CHECK(asked() == 2);
    desk.tell(run::Say{one, ledger::linkAnswer(two, false)});
    CHECK(asked() == 0);
}
