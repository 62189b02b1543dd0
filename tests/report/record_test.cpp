// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a record says of an awkward run: everything that is not as it should be has its mark.

#include "report/record.h"

#include "ledger/handed.h"
#include "ledger/tank_look.h"
#include "report/short_run.h"
#include "report/told_story.h"
#include "run/notes.h"
#include "run/run_code.h"

#include <algorithm>

using Catch::Contains;
using namespace loopside;
using namespace loopside::report;
using namespace loopside::test;

namespace {

const RunRecord& awkward()
{
    static const RunRecord record = fileOfStory(awkwardRun).record;
    return record;
}

/// The line of the row that begins with `first`.
std::string rowOf(const Table& table, const std::string& first)
{
    const auto row = std::ranges::find_if(table.rows, [&](const Row& one) { return one.cells.front() == first; });
    return row == table.rows.end() ? "no row " + first : lineOf(*row);
}

/// A run with one set, to which somebody noted something, and attached a picture that stays and one that does not.
RunRecord noted()
{
    ShortRun run;
    run::ReadingLogged set;
    set.gauges.resize(bareSetup().cart.gauges.size());
    const Id of = run.say(set);
    run.say(run::Noted{"the needle is bent", of});
    const auto attach = [&](char sign, const std::string& caption) {
        return run.say(
            run::AttachmentAdded{run::AttachmentKind::Photo, of, std::string(64, sign), 45'000, "image/png", caption});
    };
    attach('a', "the dial");
    run.say(run::AttachmentWithdrawn{attach('b', "a person"), "a face is on it"});
    return recordOf(run.evidence(), {}).value();
}

} // namespace

TEST_CASE("notes and pictures of a set stand beside it, by the names of their files, and what was withdrawn says so")
{
    const RunRecord record = noted();
    REQUIRE(record.table("readings").rows.size() == 1);
    const std::string set = lineOf(record.table("readings").rows.front());
    CHECK_THAT(set, Contains("Note: the needle is bent"));
    CHECK_THAT(set, Contains("Picture, 45 kB: the dial · file aaaaaaaaaaaaaaaa"));
    CHECK_THAT(set, Contains("Picture, withdrawn: a face is on it") && !Contains("bbbb") && !Contains("a person"));
    const std::string events = linesOf(record.table("events"));
    CHECK_THAT(events, Contains("the needle is bent | about what was seen at 0:00:00"));
    CHECK_THAT(events, Contains("Picture, 45 kB: the dial | about what was seen at 0:00:00 · file aaaaaaaaaaaaaaaa"));
    CHECK_THAT(events, Contains("Picture, withdrawn: a face is on it"));
}

TEST_CASE("a record has all of its parts, in the same order for every run")
{
    CHECK(std::ranges::equal(awkward().tables, tableIds, {}, &Table::id));
    CHECK(std::ranges::equal(fileOfStory(lateResults).record.tables, tableIds, {}, &Table::id));
}

TEST_CASE("a record tells how well its tank was known, and each look at it")
{
    const auto recordWith = [](const std::vector<run::TankLook>& looks) {
        run::Setup setup = bareSetup();
        setup.tank.name = "HT-11";
        ShortRun run(setup);
        for (run::TankLook look : looks) {
            look.expected = setup.tank.name;
            run.say(ledger::asKept(look));
        }
        return recordOf(run.evidence(), {}).value();
    };
    CHECK_THAT(rowOf(recordWith({}).table("run"), "Right tank"), Contains("Not confirmed at the tank."));
    const run::TankLook scanned{run::LookBy::Reader, "BM-HY-012", {}, true};
    const run::TankLook oil{run::LookBy::Oil, "ISO VG 46 hydraulic", {}, true};
    const RunRecord twice = recordWith({scanned, oil});
    CHECK_THAT(rowOf(twice.table("run"), "Right tank"), Contains("two looks at different signs"));
    CHECK_THAT(linesOf(twice.table("events")), Contains("Tag read: BM-HY-012. It fits HT-11."));
    CHECK(twice.notices.size() == recordWith({}).notices.size());
    const RunRecord against = recordWith({{run::LookBy::Oil, "ISO VG 68", {}, false, {}, "the plate is old"}});
    CHECK_THAT(rowOf(against.table("run"), "Right tank"), Contains("For the supervisor"));
    CHECK_THAT(linesOf(against.table("events")), Contains("does not fit") && Contains("the plate is old"));
    CHECK_THAT(against.notices.back(), Contains("A supervisor has to look at it"));
}

TEST_CASE("story F15: the look at the twin is told, and two looks at the right tank confirm it")
{
    const RunRecord record = fileOfStory("tests/stories/f15a_twin_tanks.json").record;
    CHECK_THAT(rowOf(record.table("run"), "Right tank"), Contains("two looks at different signs"));
    CHECK_THAT(linesOf(record.table("events")), Contains("Tag read: HT-12. That is HT-12, not HT-11."));
}

TEST_CASE("story F15: a run that was moved tells both tanks what was mixed, and is confirmed at none")
{
    const RunRecord record = fileOfStory("tests/stories/f15b_twin_tanks_found_later.json").record;
    CHECK_THAT(rowOf(record.table("run"), "Right tank"), Contains("Not confirmed"));
    std::string notices;
    for (const std::string& notice : record.notices) {
        notices += notice + "\n";
    }
    CHECK_THAT(notices, Contains("HT-12: Grey cart brought what it held, up to 8 L, into 400 L: up to 2.0 %"));
    CHECK_THAT(notices, Contains("HT-11: nothing was pumped here. Grey cart holds oil of HT-12"));
}

TEST_CASE("story F24: the record says how many readings were entered together, later than they were read")
{
    const RunRecord record = fileOfStory("tests/stories/f24_five_o_clock_pencil.json").record;
    CHECK_THAT(rowOf(record.table("run"), "Entered later"), Contains("7 of 9 readings were entered together"));
    const RunRecord steady = fileOfStory("tests/stories/f01_steady_saturday.json").record;
    CHECK_THAT(linesOf(steady.table("run")), !Contains("entered together"));
}

TEST_CASE("each row of a record has a cell for each column")
{
    for (const Table& table : awkward().tables) {
        CAPTURE(table.id);
        CHECK(
            std::ranges::all_of(table.rows, [&](const Row& row) { return row.cells.size() == table.columns.size(); }));
    }
}

TEST_CASE("an amended set counts with its new values and shows who changed it, why, and what was logged first")
{
    const std::string set = rowOf(awkward().table("readings"), "0:30:00");
    CHECK_THAT(set, Contains("31 psi | 24 psi | 9 psi"));
    CHECK_THAT(set, Contains("AMENDED") && Contains("\"crossed\" on the sheet"));
    CHECK_THAT(set, Contains("First logged: G1 24 psi · G2 31 psi · G3 9 psi"));
}

TEST_CASE("a set that was read earlier than it was entered says so")
{
    CHECK_THAT(rowOf(awkward().table("readings"), "3:05:00"), Contains("entered 3:12:00"));
    CHECK_THAT(rowOf(awkward().table("readings"), "3:20:00"), !Contains("entered"));
}

TEST_CASE("what somebody answered about an hour that nobody watched is marked as stated")
{
    CHECK_THAT(rowOf(awkward().table("events"), "2:11:00"), Contains("stated, not observed"));
    CHECK_THAT(linesOf(awkward().table("result")), Contains("nothing was entered for over 45 min"));
}

TEST_CASE("an alert shows who acknowledged it and why")
{
    CHECK_THAT(rowOf(awkward().table("alerts"), "2:30:00"), Contains("2:31:00") && Contains("changing now"));
}

TEST_CASE("a changeover stands with its stage")
{
    CHECK_THAT(rowOf(awkward().table("stages"), "2"), Contains("2:40:00"));
    CHECK_THAT(rowOf(awkward().table("stages"), "1"), !Contains("2:40:00"));
}

TEST_CASE("a result that comes days later shows when it was entered")
{
    CHECK_THAT(rowOf(awkward().table("samples"), "A2"),
               Contains("18/16/13") && Contains("90 ppm") && Contains("result entered 53:01:00"));
}

TEST_CASE("the verdict has the count and the target in it and is no better than the count")
{
    // 18/16/13 is one number above 17/15/12 in each size: within the scatter of a test.
    CHECK(awkward().verdict
          == "Not proven: bottle A2 has 18/16/13, target 17/15/12; within the scatter of a test (± 1 number).");
    CHECK_THAT(fileOfStory(lateResults).record.verdict, Contains("Not met") && Contains("20/18/14"));
}

TEST_CASE("no record calls oil clean or safe")
{
    for (const char* story : {awkwardRun, lateResults}) {
        const RunRecord record = fileOfStory(story).record;
        CHECK_THAT(record.verdict, !Contains(" clean") && !Contains(" safe"));
        CHECK_THAT(linesOf(record.table("result")), !Contains(" clean") && !Contains(" safe"));
    }
}

TEST_CASE("a record tells the kind of oil by the word of its language")
{
    CHECK_THAT(linesOf(awkward().table("run")), Contains("ISO VG 46 hydraulic"));
    CHECK_THAT(linesOf(fileOfStory(awkwardRun, "de").record.table("run")), Contains("ISO VG 46 Hydraulik"));
}

TEST_CASE("a record is the same each time, in each language")
{
    const std::string language = GENERATE("en", "es", "de");
    CAPTURE(language);
    const RunRecord record = fileOfStory(awkwardRun, language).record;
    CHECK(record == fileOfStory(awkwardRun, language).record);
    for (const Table& table : record.tables) {
        CAPTURE(table.id);
        CHECK_THAT(table.title + linesOf(table) + table.empty, !Contains("[report.") && !Contains("[path."));
    }
}

TEST_CASE("people are named where their names are known, else told by the beginning of their ids")
{
    const Evidence evidence = evidenceOfStory(awkwardRun);
    const Id person = evidence.entries.back().header.person;
    const auto record = recordOf(evidence, {.names = {{person, "Ada Reyes"}}});
    REQUIRE(record);
    CHECK_THAT(linesOf(record->table("signatures")), Contains("Ada Reyes"));
    CHECK_THAT(linesOf(awkward().table("signatures")), Contains(toText(person).substr(0, 8)));
}

TEST_CASE("a record tells in whose hands its run went, and that it is one with another, whose turnovers are not in it")
{
    const Id other{.bytes = {1, 2, 3}};
    const auto recordWith = [&](bool isOne) {
        ShortRun run;
        run.say(ledger::adoption("7K3M9Q"));
        run.say(ledger::linkAnswer(other, true));
        run.say(ledger::linkAnswer(other, isOne));
        return recordOf(run.evidence(), {}).value();
    };
    const auto isToldOne = [&](const RunRecord& record) {
        return std::ranges::any_of(record.notices, [&](const std::string& notice) {
            return notice.find("one with run " + run::codeOf(other)) != std::string::npos;
        });
    };
    const RunRecord one = recordWith(true);
    CHECK(isToldOne(one));
    CHECK_FALSE(isToldOne(recordWith(false)));
    std::string events;
    for (const Row& row : one.table("events").rows) {
        events += lineOf(row) + "\n";
    }
    CHECK_THAT(events, Contains("taken over by its code"));
    CHECK_THAT(events, Contains("said to be one with run " + run::codeOf(other)));
}
