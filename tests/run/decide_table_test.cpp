// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What every command comes to in every state of a run. The table in data/ was read line by line against the contracts;
// a line that changes is a decision that changes.

#include "run/walk.h"
#include "support/golden.h"

#include <catch2/catch.hpp>

#include <functional>
#include <set>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

/// Minute at which a command meets its state; nothing is due in the minutes before.
constexpr double asked = 12.0;

struct Situation
{
    std::string name;
    Walk walk;
    Id entry; ///< A set of gauges of the run, or its first entry.
};

Situation situation(std::string name, Walk walk)
{
    const auto& facts = walk.run().facts;
    const auto reading = std::find_if(facts.begin(), facts.end(), [](const Fact& fact) {
        return std::holds_alternative<ReadingLogged>(fact.original);
    });
    const Id entry = reading != facts.end() ? reading->header.id : facts.empty() ? Id{} : facts.front().header.id;
    return {std::move(name), std::move(walk), entry};
}

Walk filtering(Setup setup = ordinary())
{
    return Walk(std::move(setup)).filteringAt(0).readingAt(10, "20 14 4");
}

/// Stage 2 at 43 − 1 = 42 psi, its limit.
Walk atLimit()
{
    return Walk().filteringAt(0).readingAt(10, "50 43 1");
}

Walk closeOut(const std::string& code = {}, bool counterOnSite = false)
{
    return Walk(withTarget(ordinary(), "0.5", code, counterOnSite)).filteringAt(0).readingAt(10, "20 14 4");
}

std::vector<Situation> situations()
{
    return {
        situation("open, stopped, nothing said", Walk()),
        situation("open, filtering", filtering()),
        situation("open, bypassing", filtering().bypassingAt(11)),
        situation("open, stopped again", filtering().stoppedAt(11)),
        situation("stage 2 near limit", Walk().filteringAt(0).readingAt(10, "50 38 4")),
        situation("stage 2 at limit, unacknowledged", atLimit()),
        situation("stage 2 at limit, acknowledged", atLimit().acknowledgeAt(11, AlertId::StageAtLimit, 2)),
        situation("stage 2 at limit, returned", atLimit().readingAt(11, "20 14 4")),
        situation("stage 2 at limit, shelved", atLimit().shelveAt(11, AlertId::StageAtLimit, 2, 30)),
        situation("reading overdue", Walk().filteringAt(0).readingAt(2, "20 14 4").tickAt(7)),
        situation("close-out", closeOut()),
        situation("close-out, a code awaited", closeOut("17/15/12")),
        situation("target met, a counter on site", closeOut("17/15/12", true)),
        situation("closed by the target", closeOut().stoppedAt(11)),
        situation("closed by the target, signed off", closeOut().stoppedAt(11).closeAt(11.5, Ending::TargetMet)),
        situation("closed early", filtering().closeAt(11)),
    };
}

struct Ask
{
    std::string name;
    std::function<Command(const Situation&)> command;
};

Ask say(std::string name, const Said& what)
{
    return {std::move(name), [what](const Situation& in) -> Command { return Say{in.walk.id(), what}; }};
}

Ask amend(std::string name, const Amended& what)
{
    return {std::move(name), [what](const Situation& in) -> Command {
                Amended about = what;
                about.of = in.entry;
                return Say{in.walk.id(), about};
            }};
}

Ask close(Ending ending)
{
    return {"close, " + std::string(nameOf(ending)),
            [ending](const Situation& in) -> Command { return CloseRun{in.walk.id(), ending, "why"}; }};
}

Amended amended(std::string_view set, std::string why)
{
    Amended amendment;
    amendment.gauges = gauges(set).gauges;
    amendment.why = std::move(why);
    return amendment;
}

Amended struck()
{
    Amended amendment;
    amendment.struck = true;
    amendment.why = "wrong cart";
    return amendment;
}

Ask answer()
{
    return {"answer a question", [](const Situation& in) -> Command {
                return Say{in.walk.id(), QuestionAnswered{"out-of-range", in.entry, "yes", {}}};
            }};
}

Id nobodys()
{
    Id id;
    id.bytes.fill(9);
    return id;
}

std::vector<Ask> modesAndReadings()
{
    const units::Typed<units::Flow> backwards(number("-1"), *units::unitNamed<units::Flow>("L/min").value());
    return {
        say("mode stopped", ModeChanged{Mode::Stopped}),
        say("mode bypassing", ModeChanged{Mode::Bypassing}),
        say("mode filtering", ModeChanged{Mode::Filtering}),
        say("mode filtering, a flow below nothing", ModeChanged{Mode::Filtering, backwards}),
        say("set, far below the limits", gauges("20 14 4")),
        say("set, stage 2 at 80 %", gauges("50 38 4")),
        say("set, stage 2 at its limit", gauges("50 43 1")),
        say("set, beyond the dial", gauges("50 143 1")),
        say("set, nothing could be read", gauges("- - -")),
        say("set, too few gauges", gauges("50 43")),
        say("set, a swing upside down", gauges("50 43..41 1")),
    };
}

TankRecord anotherTank(std::string_view volume)
{
    TankRecord tank = ordinary().tank;
    tank.name = "T2";
    tank.volume = typed<units::Volume>(volume);
    return tank;
}

AttachmentAdded attachment(std::int64_t bytes, const Id& of = {})
{
    return {AttachmentKind::Photo, of, std::string(64, 'a'), bytes, "image/jpeg", {}};
}

std::vector<Ask> otherFacts()
{
    return {
        say("signs seen", SignsSeen{{"foam"}}),
        say("note", Noted{"n"}),
        answer(),
        say("answer about nothing", QuestionAnswered{"out-of-range", nobodys(), "yes", {}}),
        say("answer to no question", QuestionAnswered{"who-knows", {}, "yes", {}}),
        amend("amend to the limit", amended("50 43 1", "misread")),
        amend("amend, too few gauges", amended("50 43", "misread")),
        amend("amend, no reason", amended("50 43 1", "")),
        amend("strike", struck()),
        say("changeover, all of stage 2", ElementsChanged{2, 2, {}}),
        say("changeover, half of stage 2", ElementsChanged{2, 1, {}}),
        say("changeover, stage 3", ElementsChanged{3, 2, {}}),
        say("changeover, three of two", ElementsChanged{2, 3, {}}),
        say("move to another tank", RunMoved{anotherTank("200 L"), "wrong label"}),
        say("move to another tank, no reason", RunMoved{anotherTank("200 L"), {}}),
        say("move to a tank without oil", RunMoved{anotherTank("0 L"), "wrong label"}),
        say("sample", SampleDrawn{"B2", 3}),
        say("sample, port 4", SampleDrawn{"B2", 4}),
        say("result", ResultEntered{"B2", "16/14/11", {}, {}, {}}),
        say("check answered", CheckAnswered{"permit", "yes"}),
        say("point left out", CheckAnswered{"setup-vents", "skipped", "no access"}),
        say("point left out, no reason", CheckAnswered{"setup-vents", "skipped", {}}),
        say("point answered otherwise", CheckAnswered{"setup-vents", "all"}),
        say("note on nothing", Noted{"n", nobodys()}),
        say("attachment", attachment(45'000)),
        say("attachment, too much", attachment(300'001)),
        say("attachment, of nothing", attachment(45'000, nobodys())),
        say("withdraw nothing", AttachmentWithdrawn{nobodys(), "wrong"}),
        say("withdraw, no reason", AttachmentWithdrawn{nobodys(), {}}),
        say("start told, go", StartTold{.verdict = "go"}),
        say("start told, no-go", StartTold{.verdict = "no-go", .limiting = "suction"}),
        say("start told, no-go overridden", StartTold{.verdict = "no-go", .by = "P. Ortiz", .why = "the line waits"}),
        say("start told, overridden by nobody", StartTold{.verdict = "no-go", .why = "the line waits"}),
        say("start told, go overridden", StartTold{.verdict = "go", .by = "P. Ortiz", .why = "the line waits"}),
        say("start told, no verdict", StartTold{}),
        say("waste transferred", WasteTransferred{.volume = typed<units::Volume>("160 L")}),
        say("waste transferred, nothing", WasteTransferred{.volume = typed<units::Volume>("0 L")}),
        say("kept", Kept{"tag", "{}"}),
    };
}

std::vector<Ask> alertsAndEnds()
{
    return {
        say("acknowledge, stage 2 at limit", AlertAcknowledged{AlertId::StageAtLimit, 2, {}}),
        say("acknowledge, stage 1 at limit", AlertAcknowledged{AlertId::StageAtLimit, 1, {}}),
        say("acknowledge, overdue", AlertAcknowledged{AlertId::ReadingOverdue, {}, {}}),
        say("acknowledge, target", AlertAcknowledged{AlertId::TargetTurnoversMet, {}, {}}),
        say("shelve, stage 2 at limit", AlertShelved{AlertId::StageAtLimit, 2, "soon", std::chrono::minutes(5)}),
        say("shelve, no reason", AlertShelved{AlertId::StageAtLimit, 2, {}, std::chrono::minutes(5)}),
        say("shelve, no time", AlertShelved{AlertId::StageAtLimit, 2, "soon", RunTime{0}}),
        say("take near limit of stage 2 out of service", AlertServiced{AlertId::StageNearLimit, 2, false, "no spares"}),
        say("take near limit out of service, no reason", AlertServiced{AlertId::StageNearLimit, 2, false, {}}),
        say("take at limit out of service", AlertServiced{AlertId::StageAtLimit, 2, false, "no spares"}),
        say("put near limit of stage 2 back", AlertServiced{AlertId::StageNearLimit, 2, true, {}}),
        {"eight elements came", [](const Situation&) -> Command { return MoveStock{"ten", 8, "delivery"}; }},
        {"no elements came", [](const Situation&) -> Command { return MoveStock{"ten", 0, "delivery"}; }},
        {"put a tank", [](const Situation&) -> Command { return PutRecord{TankPut{anotherTank("200 L"), "T-2"}}; }},
        {"put a tank without oil", [](const Situation&) -> Command { return PutRecord{TankPut{anotherTank("0 L")}}; }},
        {"put a tank without a name",
         [](const Situation&) -> Command {
             TankRecord tank = anotherTank("200 L");
             tank.name.clear();
             return PutRecord{TankPut{tank}};
         }},
        {"put a cart",
         [](const Situation&) -> Command { return PutRecord{CartPut{ordinary().cart, ordinary().stages}}; }},
        {"put a cart without stages",
         [](const Situation&) -> Command { return PutRecord{CartPut{ordinary().cart, {}}}; }},
        {"put a person", [](const Situation&) -> Command { return PutRecord{PersonPut{{.id = nobodys()}}}; }},
        {"put nobody", [](const Situation&) -> Command { return PutRecord{PersonPut{}}; }},
        {"put the records of a file",
         [](const Situation&) -> Command {
             return PutRecords{{FluidPut{"F", ordinary().tank.fluid}}, {MoveStock{"P10", 4, "received"}}};
         }},
        {"put a fluid", [](const Situation&) -> Command { return PutRecord{FluidPut{"F", ordinary().tank.fluid}}; }},
        {"put a job", [](const Situation&) -> Command { return PutRecord{JobPut{{.order = "WO-1", .tank = "T"}}}; }},
        {"put a job without a tank",
         [](const Situation&) -> Command { return PutRecord{JobPut{{.order = "WO-1", .tank = {}}}}; }},
        {"put a job that is due on no day",
         [](const Situation&) -> Command {
             return PutRecord{JobPut{{.order = "WO-1", .tank = "T", .due = "2026-13-01"}}};
         }},
        {"put a fluid without a name", [](const Situation&) -> Command { return PutRecord{FluidPut{}}; }},
        {"put an element type",
         [](const Situation&) -> Command { return PutRecord{ElementTypePut{{.kind = "particle", .type = "P10"}}}; }},
        {"put an element type of no kind",
         [](const Situation&) -> Command { return PutRecord{ElementTypePut{{.kind = "", .type = "P10"}}}; }},
        {"take a tank out of service",
         [](const Situation&) -> Command { return PutRecord{RecordServiced{"tank", "T", false, "dismantled"}}; }},
        {"take a tank out of service without a reason",
         [](const Situation&) -> Command { return PutRecord{RecordServiced{"tank", "T", false, ""}}; }},
        {"put a tank back into service",
         [](const Situation&) -> Command { return PutRecord{RecordServiced{"tank", "T", true, ""}}; }},
        {"open the same run", [](const Situation& in) -> Command { return OpenRun{in.walk.id(), ordinary()}; }},
        {"open another run", [](const Situation&) -> Command { return OpenRun{nobodys(), ordinary()}; }},
        {"open, no flow",
         [](const Situation&) -> Command {
             Setup setup = ordinary();
             setup.cart.flow = typed<units::Flow>("0 L/min");
             return OpenRun{nobodys(), setup};
         }},
        {"note in another run", [](const Situation&) -> Command { return Say{nobodys(), Noted{"n"}}; }},
        {"open a flush",
         [](const Situation&) -> Command {
             return OpenJob{nobodys(), FlushOpened{.cart = "C1", .left = typed<units::Volume>("1.5 L")}};
         }},
        {"open a flush under this run's id",
         [](const Situation& in) -> Command {
             return OpenJob{in.walk.id(), FlushOpened{.cart = "C1", .left = typed<units::Volume>("1.5 L")}};
         }},
        {"a batch in this run",
         [](const Situation& in) -> Command {
             return SayOfJob{in.walk.id(), FlushBatch{typed<units::Volume>("10 L")}};
         }},
        close(Ending::StoppedEarly),
        close(Ending::TargetMet),
        close(Ending::Abandoned),
        {"close another run", [](const Situation&) -> Command { return CloseRun{nobodys(), Ending::Abandoned, {}}; }},
        {"a minute passes", [](const Situation&) -> Command { return Tick{}; }},
    };
}

std::vector<Ask> asks()
{
    std::vector<Ask> all = modesAndReadings();
    for (const auto& part : {otherFacts(), alertsAndEnds()}) {
        all.insert(all.end(), part.begin(), part.end());
    }
    return all;
}

std::string outcome(const Situation& in, const Command& command)
{
    const auto decided = in.walk.attempt(asked, command);
    if (!decided) {
        return decided.error().say.id;
    }
    std::string out;
    for (const Decided& one : *decided) {
        out += (out.empty() ? "" : "; ") + printed(one.event);
    }
    return out.empty() ? "nothing" : out;
}

} // namespace

TEST_CASE("each command comes to what the table says in each state")
{
    std::vector<std::string> lines;
    for (const Situation& in : situations()) {
        for (const Ask& ask : asks()) {
            lines.push_back(in.name + " × " + ask.name + " → " + outcome(in, ask.command(in)));
        }
    }
    const std::string difference = goldenDifference(
        std::string(LOOPSIDE_SOURCE_DIR) + "/tests/run/data/decide_table.golden.txt", lines);
    INFO(difference);
    CHECK(difference.empty());
}

TEST_CASE("the table asks with every command and everything that can be said")
{
    std::set<std::size_t> commands;
    std::set<std::size_t> said;
    const Situation in = situation("any", filtering());
    for (const Ask& ask : asks()) {
        const Command command = ask.command(in);
        commands.insert(command.index());
        if (const auto* say = std::get_if<Say>(&command)) {
            said.insert(say->what.index());
        }
    }
    CHECK(commands.size() == std::variant_size_v<CommandKinds>);
    CHECK(said.size() == std::variant_size_v<SaidKinds>);
}
