// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Runs that may be one, and what they come to then. Every expected number is worked out by hand: 400 L at 20 L/min is
// one turnover in 20 min.

#include "run/link.h"

#include "run/run_code.h"
#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

constexpr double rounding = 1e-9; // sums of a few doubles
constexpr std::int64_t minuteMs = 60'000;

Setup onGreyCart()
{
    Setup setup = ordinary();
    setup.tank.name = "PH-3";
    setup.cart.name = "Grey cart";
    return setup;
}

/// The run of `walk` as another tablet wrote it, `minutes` later on.
RunState writtenElsewhere(const Walk& walk, std::uint8_t number, int minutes)
{
    RunState run = walk.run();
    run.id = Id{.bytes = {number}};
    run.opened.run = run.id;
    run.opened.device = Id{.bytes = {0xDD, number}};
    run.opened.entered.wallMs += minutes * minuteMs;
    return run;
}

/// Filtering for `minutes` from the opening on with a set every 5 min, then stopped and closed.
Walk watched(double minutes, std::optional<std::string_view> flow = {})
{
    Walk walk(onGreyCart());
    walk.filteringAt(0, flow);
    for (double minute = 2; minute < minutes; minute += 5) {
        walk.readingAt(minute, "20 14 4");
    }
    walk.stoppedAt(minutes);
    walk.closeAt(minutes + 5);
    return walk;
}

std::int64_t msAt(const RunState& run, int minute)
{
    return run.opened.entered.wallMs + minute * minuteMs;
}

void checkBand(const TurnoverBand& band, double low, double best, double high)
{
    CHECK_THAT(band.low, Catch::WithinAbs(low, rounding));
    CHECK_THAT(band.best, Catch::WithinAbs(best, rounding));
    CHECK_THAT(band.high, Catch::WithinAbs(high, rounding));
}

State stateOf(const std::vector<RunState>& runs)
{
    State state;
    for (const RunState& run : runs) {
        state.runs.insert_or_assign(run.id, run);
    }
    return state;
}

} // namespace

TEST_CASE("a single run comes to what it is credited, cuts and all")
{
    Walk walk(onGreyCart());
    walk.filteringAt(0).readingAt(2, "20 14 4").readingAt(5, "20 14 4").readingAt(40, "21 14 4");
    walk.readingAt(100, "21 14 4").stoppedAt(110).filteringAt(115, "10 L/min").readingAt(120, "20 14 4");
    const RunState& run = walk.run();
    const TurnoverBand band = walk.standingAt(130).credit.turnovers;
    REQUIRE(band.low < band.best);
    REQUIRE(band.best < band.high);
    const LinkedCredit linked = linkedCredit({&run}, msAt(run, 130));
    checkBand(linked.turnovers, band.low, band.best, band.high);
    CHECK(linked.disagreements.empty());
}

TEST_CASE("the same time written down twice counts once")
{
    const Walk walk = watched(40);
    const RunState one = walk.run();
    const RunState other = writtenElsewhere(walk, 2, 0);
    checkBand(linkedCredit({&one}, msAt(one, 60)).turnovers, 2, 2, 2);
    checkBand(linkedCredit({&one, &other}, msAt(one, 60)).turnovers, 2, 2, 2);
    checkBand(linkedCredit({&one, &other, &other}, msAt(one, 60)).turnovers, 2, 2, 2);
}

TEST_CASE("linked runs come to the union of their times, never to the sum")
{
    const Walk walk = watched(40);
    const RunState one = walk.run();
    const int later = GENERATE(10, 20, 45, 60);
    const RunState other = writtenElsewhere(walk, 2, later);
    const LinkedCredit linked = linkedCredit({&one, &other}, msAt(other, 60));
    // 0 to 40 and `later` to `later` + 40; the first says "stopped" from 40 to its close at 45.
    const double all = later <= 40 ? (40.0 + later) / 20.0 : 4.0;
    const double disputed = later < 40 ? 5.0 / 20.0 : 0.0;
    checkBand(linked.turnovers, all - disputed, all, all);
    CHECK(linked.disagreements.size() == (later < 40 ? 1 : 0));
}

TEST_CASE("where one saw the cart filtering and the other did not, both stay and the low end has nothing")
{
    const Walk walk = watched(40);
    const RunState one = walk.run();
    Walk standing(onGreyCart());
    standing.filteringAt(0).readingAt(2, "20 14 4").readingAt(5, "20 14 4").bypassingAt(10).filteringAt(20);
    standing.readingAt(22, "20 14 4").readingAt(27, "20 14 4").readingAt(37, "20 14 4").stoppedAt(40).closeAt(45);
    const RunState other = writtenElsewhere(standing, 2, 0);
    const LinkedCredit linked = linkedCredit({&one, &other}, msAt(one, 60));
    checkBand(linked.turnovers, 1.5, 2, 2); // 10 to 20 min is disputed
    CHECK(linked.disagreements == std::vector<Disagreement>{{msAt(one, 10), msAt(one, 20), one.id, other.id, "mode"}});
}

TEST_CASE("where two flows are named, the low end has the lower one")
{
    const Walk rated = watched(40);
    const Walk slow = watched(40, "10 L/min");
    const RunState one = rated.run();
    const RunState other = writtenElsewhere(slow, 2, 0);
    const LinkedCredit linked = linkedCredit({&one, &other}, msAt(one, 60));
    checkBand(linked.turnovers, 1.95, 2, 2); // a flow holds until the next entry: for 2 min half of it
    CHECK(linked.disagreements == std::vector<Disagreement>{{msAt(one, 0), msAt(one, 2), one.id, other.id, "flow"}});
}

TEST_CASE("a run that nobody closed disputes nothing after its last entry")
{
    const Walk walk = watched(40);
    const RunState one = walk.run();
    Walk open(onGreyCart());
    open.filteringAt(0).readingAt(2, "20 14 4").stoppedAt(5);
    const RunState other = writtenElsewhere(open, 2, 0);
    const LinkedCredit linked = linkedCredit({&one, &other}, msAt(one, 300));
    checkBand(linked.turnovers, 2, 2, 2);
    CHECK(linked.disagreements.empty());
}

TEST_CASE("runs on one cart and tank at one time are proposed as one, the earlier first")
{
    const Walk walk = watched(40);
    const RunState one = walk.run();
    const auto proposed = [&](const RunState& other, const std::set<RunPair>& answered = {}) {
        return linkProposals(stateOf({one, other}), answered, msAt(one, 600));
    };
    const RunState other = writtenElsewhere(walk, 2, 30);
    const RunPair pair = {one.id, other.id};
    CHECK(proposed(other) == std::vector{pair});
    CHECK(proposed(writtenElsewhere(walk, 2, -30)) == std::vector<RunPair>{{other.id, one.id}});
    CHECK(proposed(other, {pair}).empty());
    CHECK(proposed(other, {{pair.second, pair.first}}).empty());
    CHECK(proposed(writtenElsewhere(walk, 2, 45)).empty()); // begun when the first was closed
    RunState elsewhere = other;
    elsewhere.setup.tank.name = "winder gearbox";
    CHECK(proposed(elsewhere).empty());
    elsewhere = other;
    elsewhere.setup.cart.name = "Blue cart";
    CHECK(proposed(elsewhere).empty());
    elsewhere = other;
    elsewhere.setup.isPractice = true;
    CHECK(proposed(elsewhere).empty());
    elsewhere = other;
    elsewhere.isPutAway = true; // nobody can tell its times
    CHECK(proposed(elsewhere).empty());
}

TEST_CASE("an open run may be one with any that began meanwhile")
{
    Walk open(onGreyCart());
    open.filteringAt(0);
    const RunState other = writtenElsewhere(watched(40), 2, 500);
    CHECK(linkProposals(stateOf({open.run(), other}), {}, msAt(other, 1)).size() == 1);
    CHECK(linkProposals(stateOf({open.run(), other}), {}, msAt(other, 0)).empty());
}

TEST_CASE("who says at a table that two runs are one saw no pump: no time is credited up to then")
{
    const auto bestWith = [](std::optional<Said> said) {
        Walk walk(onGreyCart());
        walk.filteringAt(0).readingAt(2, "20 14 4");
        if (said) {
            walk.sayAt(20, *said);
        }
        return walk.standingAt(30).credit.turnovers.best;
    };
    const double read = bestWith({});
    CHECK(bestWith(Said(Kept{"link", R"({"run":"01000000-0000-0000-0000-000000000000","accepted":true})"})) == read);
    CHECK(bestWith(Said(Noted{"still there"})) > read + 0.5);
}

namespace {

/// Three hours of filtering towards six turnovers, in the middle of which another tablet took over: 4.5 of its own.
Walk towardsSix()
{
    Setup setup = withTarget(onGreyCart(), "6");
    Walk walk(setup);
    walk.filteringAt(0);
    for (double minute = 2; minute < 90; minute += 5) {
        walk.readingAt(minute, "20 14 4");
    }
    return walk;
}

Context contextOf(const RunState& run, int minute, std::map<Id, TurnoverBand> together)
{
    Stamp now = run.opened.entered;
    now.wallMs += minute * minuteMs;
    now.monoNs += static_cast<std::uint64_t>(minute) * 60'000'000'000U;
    return {.device = run.opened.device,
            .person = run.opened.person,
            .firstEntry = Id{.bytes = {0xFA}},
            .now = now,
            .together = std::move(together)};
}

bool hasRaised(const std::vector<Decided>& decided)
{
    return std::ranges::any_of(decided, [](const Decided& one) {
        const auto* raised = std::get_if<AlertRaised>(&one.event);
        return raised != nullptr && raised->alert == AlertId::TargetTurnoversMet;
    });
}

} // namespace

TEST_CASE("the target is met by what linked runs come to, and alerted as such")
{
    const Walk walk = towardsSix();
    const std::map<Id, TurnoverBand> six = {{walk.id(), {5.8, 6.1, 6.2}}};
    CHECK_FALSE(hasRaised(*decide(walk.state(), Tick{}, contextOf(walk.run(), 90, {}))));
    const auto decided = decide(walk.state(), Tick{}, contextOf(walk.run(), 90, six));
    REQUIRE(hasRaised(*decided));
    const auto& told = std::get<AlertRaised>(decided->front().event).told;
    CHECK(std::ranges::find(told, Message::Argument("best", "6.1")) != told.end());
    // less than its own is no matter
    const std::map<Id, TurnoverBand> less = {{walk.id(), {0.0, 0.1, 0.2}}};
    CHECK_FALSE(hasRaised(*decide(walk.state(), Tick{}, contextOf(walk.run(), 90, less))));
}

TEST_CASE("a run may end at its target by what linked runs come to, with its own turnovers in its totals")
{
    const Walk walk = towardsSix();
    const CloseRun close{walk.id(), Ending::TargetMet, {}};
    CHECK_FALSE(decide(walk.state(), close, contextOf(walk.run(), 90, {})));
    const auto decided = decide(walk.state(), close, contextOf(walk.run(), 90, {{walk.id(), {5.8, 6.1, 6.2}}}));
    REQUIRE(decided);
    const auto& closed = std::get<RunClosed>(decided->front().event);
    CHECK(closed.ending == Ending::TargetMet);
    CHECK_THAT(closed.turnovers.best, Catch::WithinAbs(4.5, 0.01));
}

TEST_CASE("a stop is kept and ends no run whose target only a link had met that was taken back")
{
    const Walk walk = towardsSix();
    State state = walk.state();
    Header header = walk.entries().back().header;
    const auto raised = decide(state, Tick{}, contextOf(walk.run(), 90, {{walk.id(), {5.8, 6.1, 6.2}}}));
    for (const Decided& one : *raised) {
        header.id.bytes[7] += 1;
        header.clock += 1;
        header.sequence += 1;
        state = apply(std::move(state), header, one.event);
    }
    REQUIRE(state.runOf(walk.id())->phase == Phase::CloseOut);
    const auto decided = decide(state, Say{walk.id(), ModeChanged{Mode::Stopped}}, contextOf(walk.run(), 91, {}));
    REQUIRE(decided);
    REQUIRE(decided->size() == 2);
    CHECK(std::holds_alternative<ModeChanged>(decided->front().event));
    CHECK(std::holds_alternative<AlertCleared>(decided->back().event));
}
