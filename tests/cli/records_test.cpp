// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// take-records: records from a file into a tablet's journal, by the program itself.

#include "cli/program.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <fstream>

using namespace loopside::test;
using Catch::Contains;
using Json = nlohmann::json;
using Arguments = std::vector<std::string>;

namespace {

constexpr const char* ines = "018f3b5e-0001-7000-8000-000000000001";

/// A tablet's folder with a journal in it, a site file, and a file of tanks.
struct Place
{
    Place()
    {
        const std::string story = std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories/f04_hungry_stage.json";
        REQUIRE(runProgram({"replay", story, "--journal", folder.file("journal.sqlite")}).exitCode == 0);
        static_cast<void>(
            write("tanks.csv", "name,volume_l,code\nPress hydraulic unit,740,\nVacuum pump,60,\nOld,x,\n"));
    }

    [[nodiscard]] std::string write(const std::string& name, const std::string& text) const
    {
        std::ofstream(folder.file(name), std::ios::binary) << text;
        return folder.file(name);
    }

    [[nodiscard]] Ran take(const Arguments& more, const std::string& name = "tanks.csv",
                           const std::string& kind = "tanks") const
    {
        Arguments all = {"take-records", folder.file(name), "--kind", kind, "--site", site};
        all.insert(all.end(), more.begin(), more.end());
        return runProgram(all);
    }

    [[nodiscard]] std::size_t entries() const
    {
        return linesOf(runProgram({"record", folder.file("journal.sqlite")}).out).size();
    }

    const std::string site = std::string(LOOPSIDE_SOURCE_DIR) + "/assets/demo/site.json";
    TempFolder folder;
};

} // namespace

TEST_CASE("a preview tells each row and changes nothing")
{
    const Place place;
    const std::size_t before = place.entries();
    const Ran ran = place.take({"--preview", "--data", place.folder.file("")});
    CHECK(ran.exitCode == 1); // a row cannot be read
    const auto lines = linesOf(ran.out);
    REQUIRE(lines.size() == 4);
    CHECK(lines[0] == "Row 2  changed  Press hydraulic unit: Volume of oil: 760 L → 740 L");
    CHECK(lines[1] == "Row 3  new  Vacuum pump: Volume of oil: 60 L");
    CHECK(lines[2]
          == "Row 4  cannot be read  Old, column volume_l: \"x\" is not a number. Write digits with at most one point "
             "or comma.");
    CHECK(lines[3] == "1 new, 1 changed, 0 the same, 1 cannot be read");
    CHECK_THAT(ran.err, Contains("rows that cannot be read: 1"));
    CHECK(place.entries() == before);
}

TEST_CASE("the good rows are taken, signed by a person, and the same file again changes nothing")
{
    const Place place;
    const std::size_t before = place.entries();
    const Arguments sign = {"--data", place.folder.file(""), "--person", "Ines"};
    const Ran ran = place.take(sign);
    CHECK(ran.exitCode == 1);
    CHECK_THAT(ran.out, Contains("2 taken, each signed by Ines."));
    CHECK(place.entries() == before + 3); // a chain of this device, and two records
    const auto last = linesOf(runProgram({"record", place.folder.file("journal.sqlite"), "--json"}).out).back();
    CHECK(Json::parse(last)["kind"] == "tank-put");
    CHECK(Json::parse(last)["person"] == ines);
    CHECK(runProgram({"verify", place.folder.file("journal.sqlite")}).exitCode == 0);
    CHECK_THAT(place.take(sign).out, Contains("0 new, 0 changed, 2 the same") && Contains("Nothing to take"));
    CHECK(place.entries() == before + 3);
}

TEST_CASE("as JSON a preview is one object")
{
    const Place place;
    const Ran ran = place.take({"--preview", "--json"});
    REQUIRE(linesOf(ran.out).size() == 1);
    const Json json = Json::parse(ran.out);
    CHECK(json["new"] == 1);
    CHECK(json["changed"] == 1);
    CHECK(json["unreadable"] == 1);
    CHECK(json["taken"] == 0);
    CHECK(json["rows"][0]["changes"][0] == Json({{"what", "Volume of oil"}, {"was", "760 L"}, {"becomes", "740 L"}}));
    CHECK(json["rows"][2]["faults"][0]["column"] == "volume_l");
    CHECK(json["rows"][2]["faults"][0]["value"] == "x");
}

TEST_CASE("elements, fluids and carts are taken too, and good files end with 0")
{
    const Place place;
    static_cast<void>(place.write("e.csv", "type;kind;rating_um;stock\nP6;particle;6;4\n"));
    static_cast<void>(place.write("f.csv", "name\tkind\tgrade\tvi\nTurbine\tturbine\tISO VG 46\t105\n"));
    static_cast<void>(place.write("c.csv", "name,flow_gpm,gauge_unit,stage1_type\nCart D,5,psi,P6\n"));
    const Arguments sign = {"--data", place.folder.file(""), "--person", ines};
    CHECK(place.take(sign, "e.csv", "elements").exitCode == 0);
    CHECK(place.take(sign, "f.csv", "fluids").exitCode == 0);
    const Ran cart = place.take(sign, "c.csv", "carts");
    CAPTURE(cart.out, cart.err);
    CHECK(cart.exitCode == 0); // the element type is known from the first file
}

TEST_CASE("what cannot be done is said in one sentence")
{
    static const Place place;
    const std::string data = place.folder.file("");
    const auto [arguments, exit, sentence] = GENERATE_REF(table<Arguments, int, std::string>({
        {{"take-records", place.folder.file("tanks.csv"), "--kind", "people", "--preview"}, 1, "is no kind of records"},
        {{"take-records", place.folder.file("no.csv"), "--kind", "tanks", "--preview"}, 1, "cannot be opened"},
        {{"take-records", place.write("empty.csv", ""), "--kind", "tanks", "--preview"}, 1, "empty.csv is empty"},
        {{"take-records", place.write("b.csv", "\xFF\xFE"), "--kind", "tanks", "--preview"}, 1, "not text in UTF-8"},
        {{"take-records", place.write("n.csv", "tank\nA\n"), "--kind", "tanks", "--preview"}, 1, "no column “name”"},
        {{"take-records", place.folder.file("tanks.csv"), "--kind", "tanks"}, 2, "--data (or --preview)"},
        {{"take-records", place.folder.file("tanks.csv"), "--kind", "tanks", "--data", data},
         2,
         "--site (or --preview)"},
        {{"take-records", place.folder.file("tanks.csv"), "--kind", "tanks", "--data", data, "--site", place.site},
         2,
         "--person"},
        {{"take-records", place.folder.file("tanks.csv"), "--kind", "tanks", "--data", data, "--site", place.site,
          "--person", "Bo"},
         1,
         "\"Bo\" is no name"},
    }));
    CAPTURE(sentence);
    const Ran ran = runProgram(arguments);
    CHECK(ran.exitCode == exit);
    CHECK_THAT(ran.err, Contains(sentence));
}

TEST_CASE("a laboratory's results go from a file to the runs of their bottles")
{
    const TempFolder folder;
    const std::string story = std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories/f01_steady_saturday.json";
    REQUIRE(runProgram({"replay", story, "--journal", folder.file("journal.sqlite")}).exitCode == 0);
    const std::string file = folder.file("lab.csv");
    std::ofstream(file) << "sample;code;water;c4_per_ml\nB3;17/15/12;90 ppm;\nB1;20/18/15;;\nB9;16/14/11;;\nB2;;;12x\n";
    const std::string site = std::string(LOOPSIDE_SOURCE_DIR) + "/assets/demo/site.json";
    const auto take = [&](const Arguments& more) {
        Arguments all = {"take-records", file, "--kind", "results", "--data", folder.path(), "--site", site};
        all.insert(all.end(), more.begin(), more.end());
        return runProgram(all);
    };
    const auto results = [&] {
        std::size_t count = 0;
        for (const std::string& line : linesOf(runProgram({"record", "--json", folder.file("journal.sqlite")}).out)) {
            count += Json::parse(line)["kind"] == "result-entered" ? 1U : 0U;
        }
        return count;
    };
    const std::size_t before = results();
    const Ran preview = take({"--preview"});
    CHECK(preview.exitCode == 1); // two rows cannot be taken
    CHECK_THAT(preview.out,
               Contains("Row 2  changed  B3 (PH-3): Code: 16/14/11 → 17/15/12; Water: – → 90")
                   && Contains("Row 3  the same  B1") && Contains("is no bottle that was drawn")
                   && Contains("column c4_per_ml: \"12x\" is no count"));
    CHECK(results() == before);
    const Ran taken = take({"--person", ines});
    CHECK_THAT(taken.out, Contains("1 taken"));
    CHECK(results() == before + 1);
    CHECK_THAT(take({"--person", ines}).out, Contains("Nothing to take"));
    CHECK(results() == before + 1);
}
