// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/results_file.h"

#include "run/walk.h"
#include "words/words.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::site;

namespace {

std::vector<KnownBottle> bottles()
{
    const Id run = test::Walk::idOfJob(1);
    const Id other = test::Walk::idOfJob(2);
    run::ResultEntered known{.sample = "B3", .code = "18/16/13", .water = "90 ppm", .viscosity = {}};
    return {{run, "Press", "B1", {}},
            {run, "Press", "B2", {}},
            {other, "Kiln", "B3", known},
            {run, "Press", "X", {}},
            {other, "Kiln", "X", {}}};
}

ResultsPreview previewIn(const std::string& text)
{
    const auto preview = resultsIn("lab.csv", text, bottles());
    REQUIRE(preview.has_value());
    return *preview;
}

/// The only row of a file with this header and line.
ResultRow rowIn(const std::string& header, const std::string& line)
{
    const auto preview = previewIn(header + "\n" + line + "\n");
    REQUIRE(preview.rows.size() == 1);
    return preview.rows.front();
}

const run::ResultEntered& resultOf(const ResultRow& row)
{
    REQUIRE(row.say);
    return std::get<run::ResultEntered>(row.say->what);
}

std::string faultIn(const std::string& header, const std::string& line)
{
    const ResultRow row = rowIn(header, line);
    CHECK(row.fate == RowFate::Unreadable);
    CHECK_FALSE(row.say);
    REQUIRE(row.faults.size() == 1);
    const auto words = words::Words::in("en");
    REQUIRE(words);
    CHECK(words->has(row.faults.front().what.id));
    CHECK(words->has(row.faults.front().todo.id));
    return row.faults.front().what.id;
}

} // namespace

TEST_CASE("a result goes to the run of its bottle, with everything as typed")
{
    const ResultRow row = rowIn("Sample;Code;Water;Viscosity;Acid;Method;Counted;Report;Mood",
                                "B1;14/12/≥7;90 ppm;46.2 cSt;0.12 mg KOH/g;counter;10 mL;L-77;fine");
    CHECK(row.fate == RowFate::New);
    CHECK(row.tank == "Press");
    CHECK(row.say->run == test::Walk::idOfJob(1));
    const run::ResultEntered& result = resultOf(row);
    CHECK(result.code == "14/12/≥7");
    CHECK(result.water == "90 ppm");
    CHECK(result.viscosity == "46.2 cSt");
    CHECK(result.acid == "0.12 mg KOH/g");
    CHECK(result.method == "counter");
    CHECK(result.counted->toText() == "10 mL");
    CHECK(result.report == "L-77");
}

TEST_CASE("counts per 100 mL become counts per mL, to the digit")
{
    // per 100 mL 300 000, 50 000 and 700 are 19/16/10: the published example of ISO 4406 (reference.md 3.1)
    const ResultRow row = rowIn("sample,code,c4_per_100ml,c6_per_100ml,c14_per_100ml", "B1,19/16/10,300000,50000,701");
    const auto& counts = resultOf(row).countsPerMl;
    REQUIRE(counts.size() == 3);
    CHECK(counts[0] == test::number("3000"));
    CHECK(counts[1] == test::number("500"));
    CHECK(counts[2] == test::number("7.01"));
}

TEST_CASE("what is known already is the same, what differs is a change")
{
    CHECK(rowIn("sample,code,water", "B3,18/16/13,90 ppm").fate == RowFate::Same);
    CHECK_FALSE(rowIn("sample,code,water", "B3,18/16/13,90 ppm").say);
    CHECK(rowIn("sample,code,water", "B3,17/16/13,90 ppm").fate == RowFate::Changed);
}

TEST_CASE("a row with one thing in it that cannot be read is not taken, and says why")
{
    const auto [header, line, fault] = GENERATE(table<std::string, std::string, std::string>({
        {"sample,code", "B9,18/16/13", "file.fault.no-bottle"},
        {"sample,code", "X,18/16/13", "file.fault.bottles"},
        {"sample,code", ",18/16/13", "file.fault.needed"},
        {"sample,code,water", "B1,,", "file.fault.needed"},
        {"sample,code", "B1,18/16", "file.fault.code"},
        {"sample,code", "B1,13/16/18", "file.fault.code"},
        {"sample,water", "B1,90", "file.fault.result-unit"},
        {"sample,viscosity", "B1,thick", "file.fault.result-unit"},
        {"sample,code,counted", "B1,18/16/13,10", "file.fault.result-unit"},
        {"sample,acid", "B1,0.12", "file.fault.acid"},
        {"sample,acid", "B1,-1 mg KOH/g", "file.fault.acid"},
        {"sample,c4_per_ml", "B1,many", "file.fault.count"},
        {"sample,c4_per_ml", "B1,-3", "file.fault.count"},
        {"sample,c4_per_ml,c14_per_ml", "B1,3000,7", "file.fault.count-gap"},
        {"sample,c4_per_ml,c6_per_ml,c14_per_ml", "B1,300,500,7", "file.fault.count-rises"},
        {"sample,c4_per_ml,c4_per_100ml", "B1,3000,300000", "file.fault.twice"},
        {"sample,code,c4_per_ml,c6_per_ml,c14_per_ml", "B1,18/16/10,3000,500,7", "file.fault.code-differs"},
        {"sample,code", "B1,18/16/13,more", "file.fault.fields"},
    }));
    CAPTURE(line);
    CHECK(faultIn(header, line) == fault);
}

TEST_CASE("of two rows for one bottle neither is taken, the others are")
{
    const auto preview = previewIn("sample,code\nB1,18/16/13\nB2,17/15/12\nB1,19/17/14\n");
    CHECK(preview.count(RowFate::Unreadable) == 2);
    CHECK(preview.count(RowFate::New) == 1);
    CHECK(preview.rows[1].say);
    CHECK(preview.rows[0].faults.front().what.arguments.front().second == "4");
}

TEST_CASE("columns that no result has are passed over and named, a file without bottles is refused")
{
    CHECK(previewIn("sample,code,mood\nB1,18/16/13,fine\n").passedOver == std::vector<std::string>{"mood"});
    const auto refused = resultsIn("lab.csv", "code\n18/16/13\n", bottles());
    REQUIRE_FALSE(refused);
    CHECK(refused.error().say.id == "file.no-column");
}

TEST_CASE("the bottles of a state are those that were drawn and not struck, with their latest result")
{
    test::Walk walk;
    walk.sayAt(1, run::SampleDrawn{"B1", 1}).sayAt(2, run::SampleDrawn{"B2", 1}).strikeAt(3, walk.last());
    walk.sayAt(4, run::ResultEntered{.sample = "B1", .code = "18/16/13", .water = {}, .viscosity = {}});
    walk.sayAt(5, run::ResultEntered{.sample = "B1", .code = "17/15/12", .water = {}, .viscosity = {}});
    const auto known = bottlesOf(walk.state());
    REQUIRE(known.size() == 1);
    CHECK(known[0].run == walk.id());
    CHECK(known[0].tank == "T1");
    CHECK(known[0].result->code == "17/15/12");
    // what the file says is entered there and judged at once
    const auto preview = resultsIn("lab.csv", "sample,code\nB1,19/17/14\n", known);
    REQUIRE(preview);
    CHECK(walk.attempt(6, *preview->rows.front().say).has_value());
}
