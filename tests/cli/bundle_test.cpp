// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Bundles by the program itself: from one tablet to another and back.

#include "cli/program.h"
#include "cli/written_journal.h"
#include "ledger/recorder.h"
#include "store/aside_file.h"
#include "store/attachment_folder.h"
#include "store/instance_lock.h"
#include "store/sqlite_journal.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

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

void write(const std::string& path, const std::string& content)
{
    std::ofstream(path, std::ios::binary) << content;
}

const std::string siteFile = std::string(LOOPSIDE_SOURCE_DIR) + "/assets/demo/site.json";

/// A tablet in a folder of its own.
class Tablet
{
public:
    Tablet(const TempFolder& folder, const std::string& name)
        : journal{folder.file(name + ".db")}, key{folder.file(name + ".key")}, bundle{folder.file(name + ".bundle")}
    {
    }

    /// Writes a note, with a picture if there is one, to a run that it opens.
    void note(const std::string& text, const std::string& picture = "") const
    {
        writeNotes(journal, key, {text}, picture);
    }

    [[nodiscard]] store::AttachmentFolder attachments() const
    {
        return store::AttachmentFolder::besideJournal(journal);
    }

    Json pack() const { return answerOf("bundle", {"export", journal, "--to", bundle, "--key", key}); }

    Json take(const std::string& from) const { return answerOf("bundle", {"import", from, "--journal", journal}); }

    [[nodiscard]] std::size_t entries() const { return linesOf(runProgram({"record", journal}).out).size(); }

    /// It refuses the bundle `from` in a sentence that has `words`, and nothing of it changes.
    void refuses(const std::string& from, const std::string& words, std::vector<std::string> more = {}) const
    {
        const std::string before = runProgram({"export", journal}).out;
        const auto hashes = attachments().hashes().value();
        more.insert(more.begin(), {"bundle", "import", from, "--journal", journal});
        const Ran ran = runProgram(more);
        CHECK(ran.exitCode == 1);
        CHECK(ran.out.empty());
        CHECK_THAT(ran.err, Catch::Contains(words));
        CHECK(runProgram({"export", journal}).out == before);
        CHECK(attachments().hashes().value() == hashes);
        CHECK_FALSE(std::filesystem::exists(journal + ".aside"));
    }

    std::string journal;
    std::string key;
    std::string bundle;
};

} // namespace

TEST_CASE("two tablets that exchange bundles hold the same, and a second time nothing is left to take")
{
    const TempFolder folder;
    const Tablet one(folder, "one");
    const Tablet two(folder, "two");
    one.note("of one", "a picture");
    two.note("of two");
    CHECK(one.pack() == Json({{"entries", 4}, {"attachments", 1}, {"left_out", 0}}));
    two.pack();
    const Json taken = two.take(one.bundle);
    CHECK(taken
          == Json({{"new", 4}, {"same", 0}, {"conflicts", Json::array()}, {"behind_gaps", 0}, {"attachments", 1}}));
    CHECK(two.take(one.bundle)
          == Json({{"new", 0}, {"same", 4}, {"conflicts", Json::array()}, {"behind_gaps", 0}, {"attachments", 0}}));
    one.take(two.bundle);
    CHECK(one.entries() == 7);
    CHECK(two.entries() == 7);
    CHECK(two.attachments().read(two.attachments().hashes().value().front()).value() == "a picture");
    CHECK(runProgram({"verify", one.journal}).exitCode == 0);
    CHECK(runProgram({"verify", two.journal}).exitCode == 0);

    one.note("one more"); // the tablet goes on with its own chain
    one.pack();
    CHECK(two.take(one.bundle)["new"] == 2);
    CHECK(runProgram({"verify", two.journal}).exitCode == 0);
}

TEST_CASE("a journal that is not there is made, and a bundle shows what is in it")
{
    const TempFolder folder;
    const Tablet one(folder, "one");
    one.note("of one");
    REQUIRE(
        runProgram({"bundle", "export", one.journal, "--to", one.bundle, "--key", one.key, "--site", siteFile}).exitCode
        == 0);
    const Json shown = answerOf("bundle", {"show", one.bundle});
    CHECK(shown["site"] == "Brackwater Mill (invented)");

    CHECK(shown["entries"] == 3);
    CHECK(shown["chains"][0]["last"] == 3);
    CHECK_THAT(runProgram({"bundle", "show", one.bundle}).out,
               Catch::Contains("3 entries, 0 attachments") && Catch::Contains("every hash and signature holds"));
    const Tablet office(folder, "office");
    CHECK(office.take(one.bundle)["new"] == 3);
    CHECK(runProgram({"record", office.journal}).out == runProgram({"record", one.journal}).out);
    CHECK((std::filesystem::status(one.bundle).permissions() & std::filesystem::perms::group_all)
          == std::filesystem::perms::none);
}

TEST_CASE("a bundle of more entries than are held at a time is taken in whole, in one write")
{
    constexpr int count = 2'345;
    const TempFolder folder;
    const Tablet one(folder, "one");
    const Tablet two(folder, "two");
    one.note("of one");
    two.note("of two");
    {
        const auto journal = store::SqliteJournal::open(one.journal);
        REQUIRE(journal);
        REQUIRE((*journal)->append(Recorder(1).chainOf(count - 1)));
    }
    CHECK(one.pack()["entries"] == 3 + count);
    CHECK(two.take(one.bundle)["new"] == 3 + count);
    CHECK(two.take(one.bundle)["same"] == 3 + count);
    CHECK(two.entries() == 3 + 3 + count);
    CHECK(runProgram({"verify", two.journal}).exitCode == 0);
    two.pack();
    const Tablet office(folder, "office");
    CHECK(office.take(two.bundle)["new"] == 3 + 3 + count);
    CHECK(runProgram({"record", office.journal}).out == runProgram({"record", two.journal}).out);
}

TEST_CASE("a bundle that is not right changes nothing and is told plainly")
{
    const TempFolder folder;
    const Tablet one(folder, "one");
    const Tablet two(folder, "two");
    one.note("of one", "a picture");
    two.note("of two");
    one.pack();
    const std::string good = contentOf(one.bundle);
    two.refuses(folder.file("nothing"), "is not there");
    two.refuses(folder.path().string(), "cannot be opened");
    two.refuses(one.journal, "is no bundle of Loopside");
    two.refuses(one.key, "is no bundle of Loopside");
    const std::string bad = folder.file("bad.bundle");
    write(bad, good.substr(0, good.size() - 30));
    two.refuses(bad, "was cut short");
    std::string garbled = good;
    garbled[good.find("a picture")] ^= 1;
    write(bad, garbled);
    two.refuses(bad, "was altered");
    garbled = good;
    garbled[good.find("note") + 200] ^= 1;
    write(bad, garbled);
    two.refuses(bad, "line ");
    write(bad, "{\"loopside_bundle\":2}\n");
    two.refuses(bad, "newer version of Loopside");
    two.refuses(one.bundle, "no site that it names", {"--site", siteFile});
    {
        const auto lock = store::InstanceLock::take(two.journal); // as the app does while it is open
        REQUIRE(lock);
        two.refuses(one.bundle, two.journal);
    }
    CHECK(two.take(one.bundle)["new"] == 4);
}

TEST_CASE("a bundle of a copied tablet that went its own way is kept aside and said")
{
    const TempFolder folder;
    const Tablet one(folder, "one");
    one.note("of one");
    const Tablet copy(folder, "copy"); // the same key, the same chain: what nobody should do
    std::filesystem::copy_file(one.journal, copy.journal);
    std::filesystem::copy_file(one.key, copy.key);
    one.note("goes on");
    copy.note("goes on elsewhere");
    copy.pack();
    const std::string before = runProgram({"export", one.journal}).out;
    const Json taken = one.take(copy.bundle);
    CHECK(taken["same"] == 3);
    CHECK(taken["conflicts"].size() == 2);
    CHECK(runProgram({"export", one.journal}).out == before);
    const auto aside = store::AsideFile(one.journal).all();
    REQUIRE(aside);
    CHECK(aside->size() == 2);
    const Ran again = runProgram({"bundle", "import", copy.bundle, "--journal", one.journal});
    CHECK(again.exitCode == 0);
    CHECK_THAT(again.out, Catch::Contains("is another one in the journal: both are kept"));
    CHECK(store::AsideFile(one.journal).all().value() == *aside);
}

TEST_CASE("an export of a bundle needs the key that is there, and leaves no half of one")
{
    const TempFolder folder;
    const Tablet one(folder, "one");
    one.note("of one");
    const Ran ran = runProgram({"bundle", "export", one.journal, "--to", one.bundle, "--key", folder.file("no.key")});
    CHECK(ran.exitCode == 1);
    CHECK_FALSE(std::filesystem::exists(folder.file("no.key")));
    CHECK_FALSE(std::filesystem::exists(one.bundle));
    const Ran nowhere = runProgram(
        {"bundle", "export", one.journal, "--to", folder.file("no/where"), "--key", one.key});
    CHECK(nowhere.exitCode == 1);
    CHECK_THAT(nowhere.err, Catch::Contains("cannot be written"));
    CHECK(runProgram({"bundle"}).exitCode == 2);
}
