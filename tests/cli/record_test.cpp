// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The record of a run by the program itself, and an auditor who has nothing but the file.

#include "cli/program.h"
#include "run/run_code.h"
#include "store/files.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <filesystem>

using Catch::Contains;
using namespace loopside;
using namespace loopside::test;
using Json = nlohmann::json;

namespace {

/// A journal that has the awkward run: a changeover, an amendment, an hour that nobody watched, results that came late.
struct Kept
{
    Kept()
    {
        const std::string story = std::string(LOOPSIDE_SOURCE_DIR) + "/tests/report/data/awkward.json";
        REQUIRE(runProgram({"replay", story, "--journal", journal}).exitCode == 0);
        const Json last = Json::parse(linesOf(runProgram({"record", "--json", journal}).out).back());
        run = last["run"];
        person = last["person"];
        code = run::codeOf(idFromText(run).value());
    }

    /// Runs `record` of the run into the file `to`.
    [[nodiscard]] Ran record(const std::string& to, std::vector<std::string> more) const
    {
        more.insert(more.begin(), {"record", code, "--journal", journal, "--out", to});
        return runProgram(more);
    }

    /// The record as JSON, and where it stands.
    [[nodiscard]] Json made(const std::vector<std::string>& more = {}) const
    {
        std::vector<std::string> options = {"--json"};
        options.insert(options.end(), more.begin(), more.end());
        const Ran ran = record(file, options);
        CHECK(ran.err.empty());
        REQUIRE(ran.exitCode == 0);
        return Json::parse(contentOf(file));
    }

    TempFolder folder;
    std::string journal = folder.file("a.db");
    std::string file = folder.file("record.json");
    std::string run;
    std::string code;
    std::string person;
};

/// What stands in the QR code, put together as schema/README.md says, section 3e.
std::string sealOf(const Json& record)
{
    return "LOOPSIDE RECORD 1 " + record["code"].get<std::string>() + " " + record["run"].get<std::string>() + " "
        + std::to_string(record["entry_count"].get<int>()) + " " + record["digest"].get<std::string>();
}

std::string cellsOf(const Json& record, const std::string& table)
{
    for (const Json& one : record["tables"]) {
        if (one["id"] == table) {
            return one["rows"].dump();
        }
    }
    return "no table " + table;
}

} // namespace

TEST_CASE("an auditor checks a record where there is no journal, against the seal on the paper")
{
    const Kept kept;
    const Json record = kept.made();
    const TempFolder elsewhere;
    const std::string alone = elsewhere.file("record.json");
    std::filesystem::rename(kept.file, alone);
    std::filesystem::remove_all(kept.journal);

    const Ran told = runProgram({"verify", "--record", alone, "--seal", sealOf(record)});
    CHECK(told.err.empty());
    CHECK(told.exitCode == 0);
    CHECK_THAT(told.out,
               Contains("every hash, link and signature holds") && Contains("Not proven: bottle A2 has 18/16/13")
                   && Contains("digest " + record["digest"].get<std::string>())
                   && Contains("only the tablet or the site hub can tell"));
    const Json answer = answerOf("verify", {"--record", alone});
    CHECK(answer["faults"].empty());
    CHECK(answer["entries"] == record["entry_count"]);
    CHECK(answer["chains"].size() == 1);
    CHECK(answer["chains"][0]["key"].get<std::string>().size() == 64);
}

TEST_CASE("a record in which one digit was altered, or that is not the printed one, is told")
{
    const Kept kept;
    const Json record = kept.made();
    std::string text = contentOf(kept.file);
    const std::size_t at = text.find("18/16/13");
    REQUIRE(at != std::string::npos);
    write(kept.folder.file("altered.json"), text.replace(at, 8, "16/14/11"));
    const Ran altered = runProgram({"verify", "--record", kept.folder.file("altered.json")});
    CHECK(altered.exitCode == 1);
    CHECK_THAT(altered.out, Contains("these parts say other things"));
    CHECK_THAT(altered.out, !Contains("every hash"));
    CHECK_THAT(altered.err, Contains("1 faults found"));

    std::string seal = sealOf(record);
    seal.back() = seal.back() == '0' ? '1' : '0';
    const Ran other = runProgram({"verify", "--json", "--record", kept.file, "--seal", seal});
    CHECK(other.exitCode == 1);
    CHECK_THAT(Json::parse(other.out)["faults"].dump(), Contains("the printed record is not of these entries"));
}

TEST_CASE("a record on paper is checked by its PDF alone, which holds the file")
{
    const Kept kept;
    const Json record = kept.made();
    const std::string pdf = kept.folder.file("record.pdf");
    REQUIRE(kept.record(pdf, {}).exitCode == 0);
    const TempFolder elsewhere;
    const std::string alone = elsewhere.file("from the auditor.pdf");
    std::filesystem::rename(pdf, alone);
    std::filesystem::remove_all(kept.journal);
    const Ran told = runProgram({"verify", "--record", alone, "--seal", sealOf(record)});
    CHECK(told.err.empty());
    CHECK(told.exitCode == 0);
    CHECK_THAT(told.out,
               Contains("every hash, link and signature holds")
                   && Contains("digest " + record["digest"].get<std::string>()));
    std::string seal = sealOf(record);
    seal.back() = seal.back() == '0' ? '1' : '0';
    CHECK(runProgram({"verify", "--record", alone, "--seal", seal}).exitCode == 1);
}

TEST_CASE("a PDF that is cut off, or holds no record, is told as such")
{
    const Kept kept;
    const std::string pdf = kept.folder.file("record.pdf");
    REQUIRE(kept.record(pdf, {}).exitCode == 0);
    const std::string content = contentOf(pdf);
    write(kept.folder.file("cut.pdf"), content.substr(0, 900));
    const Ran cut = runProgram({"verify", "--record", kept.folder.file("cut.pdf")});
    CHECK(cut.exitCode == 1);
    CHECK_THAT(cut.err, Contains("cut.pdf: ") && (Contains("cannot be read") || Contains("no file of a record")));
    const std::string labels = kept.folder.file("labels.pdf");
    REQUIRE(runProgram({"labels", kept.code, "--journal", kept.journal, "--out", labels}).exitCode == 0);
    const Ran other = runProgram({"verify", "--record", labels});
    CHECK(other.exitCode == 1);
    CHECK_THAT(other.err, Contains("no file of a record is attached"));
}

TEST_CASE("a file that is no record is told as such")
{
    const TempFolder folder;
    write(folder.file("a.json"), "{}");
    CHECK_THAT(runProgram({"verify", "--record", folder.file("a.json")}).err, Contains(folder.file("a.json") + ": "));
    CHECK(runProgram({"verify", "--record", folder.file("none.json")}).exitCode == 1);
}

TEST_CASE("a record is the same each time, by code or by id")
{
    const Kept kept;
    REQUIRE(kept.made()["run"] == kept.run);
    const std::string once = contentOf(kept.file);
    REQUIRE(
        runProgram({"record", kept.run, "--journal", kept.journal, "--out", kept.folder.file("b"), "--json"}).exitCode
        == 0);
    CHECK(contentOf(kept.folder.file("b")) == once);
    const Ran small = runProgram({"record", kept.code.substr(0, 3) + "-" + kept.code.substr(3), "--journal",
                                  kept.journal, "--out", kept.folder.file("c"), "--json"});
    CHECK(small.exitCode == 0);
    CHECK(contentOf(kept.folder.file("c")) == once);
}

TEST_CASE("a record as CSV has four fields a line and belongs to the one in JSON by its digest")
{
    const Kept kept;
    const std::string csv = kept.folder.file("record.csv");
    const Ran ran = kept.record(csv, {"--csv"});
    REQUIRE(ran.exitCode == 0);
    const std::string digest = kept.made()["digest"];
    CHECK_THAT(ran.out, Contains(digest));
    const std::string text = contentOf(csv);
    CHECK(text.starts_with("part,row,column,value\r\n"));
    CHECK(text.ends_with("proof,digest,value," + digest + "\r\n"));
    CHECK_THAT(text, Contains("'=SUM(1)")); // a note of the run: no formula for a spreadsheet
}

TEST_CASE("without another word a record is a PDF, of the paper that is asked for, and needs no screen")
{
    const Kept kept;
    const std::string pdf = kept.folder.file("record.pdf");
    REQUIRE(kept.record(pdf, {}).exitCode == 0);
    CHECK(contentOf(pdf).starts_with("%PDF-"));
    const std::string a4 = contentOf(pdf);
    REQUIRE(kept.record(pdf, {}).exitCode == 0);
    CHECK(contentOf(pdf) == a4);
    REQUIRE(kept.record(pdf, {"--paper", "letter"}).exitCode == 0);
    CHECK(contentOf(pdf) != a4);
    const Ran other = kept.record(pdf, {"--paper", "A5"});
    CHECK(other.exitCode == 1);
    CHECK_THAT(other.err, Contains("A4 or Letter"));
}

TEST_CASE("a record names those who wrote by the site file, and nobody else")
{
    const Kept kept;
    const std::string site = kept.folder.file("site.json");
    Json known = Json::parse(contentOf(std::string(LOOPSIDE_SOURCE_DIR) + "/assets/demo/site.json"));
    known["people"] = {{{"id", kept.person}, {"name", "Ada Reyes"}},
                       {{"id", "01234567-89ab-7def-8123-456789abcdef"}, {"name", "Ben Uhl"}}};
    write(site, known.dump());
    const Json record = kept.made({"--site", site});
    CHECK_THAT(cellsOf(record, "signatures"), Contains("Ada Reyes"));
    CHECK_THAT(record["told_beside"]["names"].dump(), Contains("Ada Reyes") && !Contains("Ben Uhl"));
    CHECK(runProgram({"verify", "--record", kept.file}).exitCode == 0);
}

TEST_CASE("a record tells what the run cost by prices that are told, and in the language that is wanted")
{
    const Kept kept;
    const Json record = kept.made({"--currency", "EUR", "--element-price", "85", "--language", "de"});
    CHECK_THAT(cellsOf(record, "cost"), Contains("170.00 EUR")); // two elements
    CHECK_THAT(record["title"].get<std::string>(), Contains("Protokoll"));
    CHECK(runProgram({"verify", "--record", kept.file}).exitCode == 0);
    CHECK_THAT(kept.record(kept.file, {"--json", "--currency", "EUR", "--oil-price", "much"}).err,
               Contains("--oil-price"));
    // the site file's, where the command tells none
    const std::string site = kept.folder.file("site.json");
    Json known = Json::parse(contentOf(std::string(LOOPSIDE_SOURCE_DIR) + "/assets/demo/site.json"));
    known["prices"] = {{"currency", "USD"}, {"element", 90.5}};
    write(site, known.dump());
    CHECK_THAT(cellsOf(kept.made({"--site", site}), "cost"), Contains("181.00 USD"));
    CHECK_THAT(cellsOf(kept.made({"--site", site, "--currency", "EUR", "--element-price", "85"}), "cost"),
               Contains("170.00 EUR"));
}

TEST_CASE("a run that is not there is told with those that are")
{
    const Kept kept;
    const Ran ran = runProgram({"record", "ZZZZZZ", "--journal", kept.journal, "--out", kept.file, "--json"});
    CHECK(ran.exitCode == 1);
    CHECK_THAT(ran.err, Contains("no run shows ZZZZZZ") && Contains(kept.code) && Contains(kept.run));
    CHECK_FALSE(std::filesystem::exists(kept.file));
    const std::string nobody = "01234567-89ab-7def-8123-456789abcdef";
    CHECK(runProgram({"record", nobody, "--journal", kept.journal, "--out", kept.file, "--json"}).exitCode == 1);
    CHECK(runProgram({"record", "not a code", "--journal", kept.journal, "--out", kept.file, "--json"}).exitCode == 1);
}

TEST_CASE("a record that cannot be written leaves nothing half done")
{
    const Kept kept;
    const Ran ran = kept.record(kept.folder.file("none/record.json"), {"--json"});
    CHECK(ran.exitCode == 1);
    CHECK(ran.out.empty());
    CHECK_THAT(ran.err, Contains("cannot be written"));
}

TEST_CASE("half a command about a record is a wrong use")
{
    CHECK(runProgram({"record", "ABC123", "--out", "f"}).exitCode == 2);
    CHECK(runProgram({"record", "j", "--paper", "A4"}).exitCode == 2);
    CHECK(runProgram({"record", "ABC123", "--out", "f", "--json"}).exitCode == 2);
    CHECK(runProgram({"record", "ABC123", "--journal", "j", "--json"}).exitCode == 2);
    CHECK(runProgram({"record", "j", "--csv"}).exitCode == 2);
    CHECK(runProgram({"record", "ABC123", "--journal", "j", "--out", "f", "--json", "--csv"}).exitCode == 2);
    CHECK(runProgram({"verify"}).exitCode == 2);
    CHECK(runProgram({"verify", "j", "--record", "f"}).exitCode == 2);
    CHECK(runProgram({"verify", "j", "--seal", "s"}).exitCode == 2);
}

TEST_CASE("the records of a tank's year are written into a folder, one for each run")
{
    const Kept kept;
    const auto ofYear = [&](const char* tank, const char* year, const std::string& to) {
        return runProgram({"record", "--tank", tank, "--year", year, "--journal", kept.journal, "--out", to, "--json"});
    };
    const std::string to = kept.folder.file("press");
    const Ran ran = ofYear("Press, unit 2", "2026", to);
    CHECK(ran.err.empty());
    CHECK(ran.exitCode == 0);
    CHECK(Json::parse(contentOf(to + "/record-" + kept.code + ".json")) == kept.made());

    for (const auto& [tank, year] : {std::pair("Press, unit 2", "2025"), std::pair("Press, unit 3", "2026")}) {
        const Ran none = ofYear(tank, year, to);
        CHECK(none.exitCode == 1);
        CHECK_THAT(none.err, Contains("no run at \"" + std::string(tank) + "\" was opened in " + year));
    }
    const Ran wrong = ofYear("Press, unit 2", "last", to);
    CHECK(wrong.exitCode == 1);
    CHECK_THAT(wrong.err, Contains("--year"));
    const Ran half = runProgram({"record", "--tank", "Press, unit 2", "--journal", kept.journal, "--out", to});
    CHECK(half.exitCode == 2);
    const Ran nothing = runProgram({"record"});
    CHECK(nothing.exitCode == 2);
}

TEST_CASE("labels of a run are written as a PDF or as pictures")
{
    const Kept kept;
    const auto labels = [&](const std::string& to) {
        return runProgram({"labels", kept.code, "--journal", kept.journal, "--out", to});
    };
    const Ran pdf = labels(kept.folder.file("labels.pdf"));
    CHECK(pdf.exitCode == 0);
    CHECK(linesOf(pdf.out).size() == 5); // two bottles, two elements, the oil of their housings
    CHECK_THAT(pdf.out, Contains("labels.pdf, page 4: Used element, Stage 2 · EL-3"));
    CHECK(contentOf(kept.folder.file("labels.pdf")).starts_with("%PDF-"));
    const Ran png = labels(kept.folder.file("label.png"));
    CHECK(png.exitCode == 0);
    CHECK(contentOf(kept.folder.file("label-4.png")).starts_with("\x89PNG"));
    CHECK_FALSE(std::filesystem::exists(kept.folder.file("label.png")));
}

TEST_CASE("labels that cannot be written are refused in a sentence")
{
    const Kept kept;
    const std::string to = kept.folder.file("labels.pdf");
    const Ran nowhere = runProgram({"labels", kept.code, "--journal", kept.journal, "--out", "/nowhere/labels.pdf"});
    CHECK(nowhere.exitCode == 1);
    CHECK_THAT(nowhere.err, Contains("/nowhere/labels.pdf cannot be written"));
    const Ran nobody = runProgram({"labels", "000000", "--journal", kept.journal, "--out", to});
    CHECK(nobody.exitCode == 1);
    CHECK_THAT(nobody.err, Contains("no run shows 000000"));
    const std::string still = std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories/f12_whine.json";
    REQUIRE(runProgram({"replay", still, "--journal", kept.folder.file("b.db")}).exitCode == 0);
    const Json last = Json::parse(linesOf(runProgram({"record", "--json", kept.folder.file("b.db")}).out).back());
    const Ran nothing = runProgram({"labels", last["run"], "--journal", kept.folder.file("b.db"), "--out", to});
    CHECK(nothing.exitCode == 1);
    CHECK_THAT(nothing.err, Contains("there is nothing to label"));
    CHECK_FALSE(std::filesystem::exists(to));
}
