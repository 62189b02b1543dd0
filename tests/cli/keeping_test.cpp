// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Export, import, backup, restore and a new key, by the program itself.

#include "cli/program.h"
#include "ledger/line.h"
#include "ledger/recorder.h"
#include "store/raw_database.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

using namespace loopside;
using namespace loopside::test;
using Json = nlohmann::json;

namespace {

std::string contentOf(const std::string& path)
{
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

void replayInto(const std::string& journal)
{
    const std::string story = std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories/f04_hungry_stage.json";
    REQUIRE(runProgram({"replay", story, "--journal", journal}).exitCode == 0);
}

/// What a fault does to the journal: a byte of an entry's body.
void spoil(const std::string& journal, int position)
{
    RawDatabase(journal).runPastTriggers("UPDATE entries SET body = X'7B7D' WHERE position = "
                                         + std::to_string(position));
}

} // namespace

TEST_CASE("an export read in again is the same journal, line for line")
{
    const TempFolder folder;
    replayInto(folder.file("a.db"));
    const auto exported = runProgram({"export", folder.file("a.db"), "--to", folder.file("a.jsonl")});
    REQUIRE(exported.exitCode == 0);
    CHECK(exported.out.find(" entries in " + folder.file("a.jsonl")) != std::string::npos);
    const Ran imported = runProgram({"import", folder.file("a.jsonl"), "--journal", folder.file("b.db")});
    CHECK(imported.exitCode == 0);
    CHECK_THAT(imported.out, Catch::Contains("28 entries"));
    CHECK(runProgram({"export", folder.file("b.db")}).out == contentOf(folder.file("a.jsonl")));
    CHECK(runProgram({"record", "--json", folder.file("a.db")}).out
          == runProgram({"record", "--json", folder.file("b.db")}).out);
    const Ran verified = runProgram({"verify", folder.file("b.db")});
    CHECK(verified.exitCode == 0);
    CHECK_THAT(verified.out, Catch::Contains("imported from"));
    CHECK(runProgram({"import", folder.file("a.jsonl"), "--journal", folder.file("b.db")}).exitCode == 1);
}

TEST_CASE("an export that was cut short, added to or altered makes no journal")
{
    const TempFolder folder;
    replayInto(folder.file("a.db"));
    std::string text = runProgram({"export", folder.file("a.db")}).out;
    std::string expected;
    SECTION("cut at a line")
    {
        text.resize(text.rfind('\n', text.size() - 2) + 1);
        expected = "was cut short";
    }
    SECTION("cut in a line")
    {
        text.resize(text.size() - 100);
        expected = "line 29 is no entry";
    }
    SECTION("a line more")
    {
        text += text.substr(text.rfind('\n', text.size() - 2) + 1);
        expected = "line 30 stands behind the last entry";
    }
    SECTION("a digit of a reading altered")
    {
        const auto at = text.find("reading-logged");
        REQUIRE(at != std::string::npos);
        const auto digit = text.find_first_of("123456789", text.find("gauges", at));
        text[digit] = text[digit] == '1' ? '2' : '1';
        expected = "is not as it was written";
    }
    SECTION("no export")
    {
        text = "{}\n";
        expected = "line 1 is not the beginning of an export";
    }
    std::ofstream(folder.file("a.jsonl"), std::ios::binary) << text;
    std::ofstream(folder.file("b.db.end"), std::ios::binary) << "what a journal that is gone held";
    const Ran ran = runProgram({"import", folder.file("a.jsonl"), "--journal", folder.file("b.db")});
    CHECK(ran.exitCode == 1);
    CHECK_THAT(ran.err, Catch::Contains(expected));
    CHECK_FALSE(std::filesystem::exists(folder.file("b.db")));
    CHECK_FALSE(std::filesystem::exists(folder.file("b.db.new")));
    CHECK(contentOf(folder.file("b.db.end")) == "what a journal that is gone held");
}

TEST_CASE("an import holds a chain against the entry that it goes on from, wherever in the file that stands")
{
    const TempFolder folder;
    Recorder one(1);
    const auto first = one.chainOf(4);
    SeededRandom random(5);
    IdMaker ids(random);
    auto next = ledger::Sealer::startChain(one.device(), Recorder::idOf(0xC0, 9), Recorder::keyOf(1),
                                           ledger::ParentChain{first.front().chain, first.back().hash});
    next.heard(first.back().header.clock);
    const std::vector<ledger::Draft> drafts = {next.chainOpened()};
    const ledger::Entry opening = next.seal(drafts, first.back().header.entered, Recorder::idOf(0xE0, 1), ids).front();
    std::vector<ledger::Entry> entries(first.begin(), first.end() - 1);
    entries.push_back(opening); // before the one that it names
    std::size_t missing = 1;
    SECTION("it comes behind")
    {
        entries.push_back(first.back());
        missing = 0;
    }
    SECTION("it is nowhere") {}
    std::ofstream file(folder.file("a.jsonl"), std::ios::binary);
    file << lineOf(ledger::ExportTitle{entries.size(), {}}) << '\n';
    for (const ledger::Entry& entry : entries) {
        file << lineOf(entry) << '\n';
    }
    file.close();
    const Ran ran = runProgram({"import", folder.file("a.jsonl"), "--journal", folder.file("b.db")});
    INFO(ran.err);
    CHECK(ran.exitCode == 0);
    const auto title = ledger::titleFromLine(linesOf(runProgram({"export", folder.file("b.db")}).out).front());
    REQUIRE(title);
    CHECK(title->entries == entries.size());
    CHECK(title->losses.size() == missing);
}

TEST_CASE("an export that is cut off leaves the one before it as it was")
{
    const TempFolder folder;
    const std::string target = folder.file("a.jsonl");
    for (int i = 0; i < 3; ++i) {
        replayInto(folder.file("a.db"));
    }
    REQUIRE(runProgram({"export", folder.file("a.db"), "--to", target}).exitCode == 0);
    const std::string before = contentOf(target);
    REQUIRE(before.size() > 60'000);
    // The system ends a program that makes a file longer than 80 blocks of 512 bytes, in the midst of its writing.
    const std::string limited = "ulimit -f 80; exec " + std::string(LOOPSIDE_CLI) + " export " + folder.file("a.db")
        + " --to " + target;
    REQUIRE(std::system(limited.c_str()) != 0);
    CHECK(contentOf(target) == before);
    REQUIRE(runProgram({"export", folder.file("a.db"), "--to", target}).exitCode == 0);
    CHECK(contentOf(target) == before);
    CHECK_FALSE(std::filesystem::exists(target + ".new"));
    CHECK(std::filesystem::status(target).permissions()
          == (std::filesystem::perms::owner_read | std::filesystem::perms::owner_write));
}

TEST_CASE("an export goes into what is no file as it is")
{
    const TempFolder folder;
    replayInto(folder.file("a.db"));
    const std::string full = folder.file("full");
    std::filesystem::create_symlink("/dev/full", full);
    const Ran ran = runProgram({"export", folder.file("a.db"), "--to", full});
    CHECK(ran.exitCode == 1);
    CHECK_THAT(ran.err, Catch::Contains(full + " could not be written to its end"));
    CHECK(std::filesystem::is_character_file(full));
}

TEST_CASE("verify says what is wrong and since when, and restore puts it right from the backup")
{
    const TempFolder folder;
    const std::string journal = folder.file("a.db");
    replayInto(journal);
    const Json made = answerOf("backup", {journal, "--to", folder.file("backups")});
    CHECK(made["entries"] == 28);
    CHECK_THAT(runProgram({"backup", journal, "--to", folder.file("backups")}).out,
               Catch::Contains("the last backup has everything"));
    spoil(journal, 9);
    const Ran faulty = runProgram({"verify", journal});
    CHECK(faulty.exitCode == 1);
    CHECK_THAT(faulty.out,
               Catch::Contains("position 9") && Catch::Contains("was changed") && Catch::Contains("entered 20"));
    CHECK(runProgram({"backup", journal, "--to", folder.file("backups")}).exitCode == 0); // nothing new to copy

    const Json restored = answerOf("restore", {journal, "--backups", folder.file("backups")});
    CHECK(restored["entries"] == 28);
    CHECK(restored["from_backups"] == 1);
    CHECK(restored["missing"] == 0);
    CHECK(restored["kept_as"] == journal + ".damaged.1");
    const Json verified = answerOf("verify", {journal});
    CHECK(verified["faults"].empty());
    CHECK(verified["restores"].size() == 1);
    CHECK(runProgram({"verify", journal + ".damaged.1"}).exitCode == 1);
    replayInto(journal); // and it goes on
    CHECK(runProgram({"verify", journal}).exitCode == 0);
}

TEST_CASE("what is missing after a restore stays told")
{
    const TempFolder folder;
    const std::string journal = folder.file("a.db");
    replayInto(journal);
    spoil(journal, 9);
    CHECK(answerOf("restore", {journal})["missing"] == 1);
    const Ran verified = runProgram({"verify", journal});
    CHECK(verified.exitCode == 0);
    CHECK_THAT(verified.out, Catch::Contains("missing since then: entries 9 to 9"));
    REQUIRE(runProgram({"export", journal, "--to", folder.file("a.jsonl")}).exitCode == 0);
    CHECK(runProgram({"import", folder.file("a.jsonl"), "--journal", folder.file("b.db")}).exitCode == 0);
    CHECK_THAT(runProgram({"verify", folder.file("b.db")}).out, Catch::Contains("entries 9 to 9"));
}

TEST_CASE("a journal that is not there is neither kept nor brought back from nothing")
{
    const TempFolder folder;
    const auto arguments = GENERATE(as<std::vector<std::string>>{}, std::vector<std::string>{"export"},
                                    std::vector<std::string>{"backup", "--to", "/tmp"},
                                    std::vector<std::string>{"restore"});
    std::vector<std::string> all = arguments;
    all.insert(all.begin() + 1, folder.file("no.db"));
    const Ran ran = runProgram(all);
    CHECK(ran.exitCode == 1);
    CHECK_FALSE(std::filesystem::exists(folder.file("no.db")));
}

TEST_CASE("what was done with the entries is told also where their attachments could not be carried")
{
    const TempFolder folder;
    const std::string journal = folder.file("a.db");
    replayInto(journal);
    std::ofstream(journal + ".attachments") << "a file where the folder should be";
    const auto holds = [](const Ran& ran, const std::string& told) {
        CHECK(ran.exitCode == 1);
        CHECK_THAT(ran.out, Catch::Contains(told));
        CHECK_THAT(ran.err, Catch::Contains("not with all their attachments") && Catch::Contains(".attachments"));
    };
    holds(runProgram({"export", journal, "--to", folder.file("a.jsonl")}), "28 entries in ");
    holds(runProgram({"backup", journal, "--to", folder.file("backups")}), "28 entries, checked");
    holds(runProgram({"restore", "--json", journal, "--backups", folder.file("backups")}),
          R"("kept_as":")" + journal + R"(.damaged.1","attachments":null)");
    std::ofstream(folder.file("b.db.attachments")) << "and here";
    holds(runProgram({"import", folder.file("a.jsonl"), "--journal", folder.file("b.db")}), "28 entries imported");
    CHECK(linesOf(runProgram({"record", folder.file("b.db")}).out).size() == 28);
}

TEST_CASE("entries that cannot be folded are exported all the same")
{
    const TempFolder folder;
    replayInto(folder.file("a.db"));
    spoil(folder.file("a.db"), 9);
    const Ran ran = runProgram({"export", folder.file("a.db"), "--to", folder.file("a.jsonl")});
    CHECK(ran.exitCode == 0);
    CHECK_THAT(ran.out, Catch::Contains("28 entries in "));
    CHECK(linesOf(contentOf(folder.file("a.jsonl"))).size() == 29); // the title before them
}

TEST_CASE("an import brings a witness of its own, and an older one of that place says nothing")
{
    const TempFolder folder;
    const std::string journal = folder.file("a.db");
    replayInto(journal);
    REQUIRE(runProgram({"export", journal, "--to", folder.file("a.jsonl")}).exitCode == 0);
    replayInto(journal); // the witness knows of more than the export has
    std::filesystem::remove(journal);
    REQUIRE(runProgram({"import", folder.file("a.jsonl"), "--journal", journal}).exitCode == 0);
    const Ran verified = runProgram({"verify", journal});
    CHECK(verified.exitCode == 0);
    const Ran goesOn = runProgram(
        {"replay", std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories/f04_hungry_stage.json", "--journal", journal});
    CHECK(goesOn.exitCode == 0);
    CHECK(goesOn.err.empty());
    CHECK(answerOf("verify", {journal})["restores"].size() == 1);
    // The new one works: a file cut back to what the export had is found.
    REQUIRE(contentOf(journal + ".end").find("56 ") != std::string::npos);
}

TEST_CASE("an import beside the log of a journal whose file is gone is refused, and leaves it")
{
    const TempFolder folder;
    const std::string journal = folder.file("a.db");
    replayInto(folder.file("b.db"));
    REQUIRE(runProgram({"export", folder.file("b.db"), "--to", folder.file("b.jsonl")}).exitCode == 0);
    std::ofstream(journal + "-wal", std::ios::binary) << "all that is left of a journal";
    std::ofstream(journal + ".end", std::ios::binary) << "and its witness";
    const Ran refused = runProgram({"import", folder.file("b.jsonl"), "--journal", journal});
    CHECK(refused.exitCode == 1);
    CHECK_THAT(refused.err, Catch::Contains("the log of a journal whose file is gone"));
    CHECK(contentOf(journal + "-wal") == "all that is left of a journal");
    CHECK(contentOf(journal + ".end") == "and its witness");
    CHECK_FALSE(std::filesystem::exists(journal));
}

TEST_CASE("what was kept aside goes with backup and export, and comes back with restore and import")
{
    const TempFolder folder;
    const std::string journal = folder.file("a.db");
    replayInto(journal);
    const std::string lines = "{\"one\": 1}\n{\"two\": 2}\n";
    std::ofstream(journal + ".aside", std::ios::binary) << lines;
    REQUIRE(runProgram({"export", journal, "--to", folder.file("a.jsonl")}).exitCode == 0);
    REQUIRE(runProgram({"import", folder.file("a.jsonl"), "--journal", folder.file("b.db")}).exitCode == 0);
    CHECK(contentOf(folder.file("b.db.aside")) == lines);
    REQUIRE(runProgram({"backup", journal, "--to", folder.file("backups")}).exitCode == 0);
    std::filesystem::remove(journal + ".aside");
    REQUIRE(runProgram({"restore", journal, "--backups", folder.file("backups")}).exitCode == 0);
    CHECK(contentOf(journal + ".aside") == lines);
}

TEST_CASE("a backup in the second of a restore is made, and so is the one after it")
{
    const TempFolder folder;
    const std::string journal = folder.file("a.db");
    replayInto(journal);
    for (int i = 0; i < 3; ++i) {
        const Json made = answerOf("backup", {journal, "--to", folder.file("backups")});
        CHECK(made["entries"] == 28);
        REQUIRE(runProgram({"restore", journal, "--backups", folder.file("backups")}).exitCode == 0);
    }
}

TEST_CASE("a device gets a new key, and the old one is kept")
{
    const TempFolder folder;
    const std::string key = folder.file("device.key");
    std::ofstream(key) << "loopside device key 1\n" << std::string(64, '7') << '\n';
    std::filesystem::permissions(key, std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
    const std::string old = contentOf(key);
    const Json told = answerOf("new-key", {key});
    CHECK(contentOf(told["kept_as"]) == old);
    CHECK(contentOf(key) != old);
    CHECK(contentOf(key).size() == old.size());
    CHECK(runProgram({"new-key", folder.file("other.key")}).exitCode == 1);
}
