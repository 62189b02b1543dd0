// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the journal says to files that are not as they should be.

#include "ledger/verify.h"
#include "store/end_witness.h"
#include "store/files.h"
#include "store/ordinary_user.h"
#include "store/raw_database.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sys/stat.h>

using namespace loopside;
using namespace loopside::ledger;
using namespace loopside::test;
using loopside::store::SqliteJournal;

namespace {

/// The error of opening `path`, which must fail with `code` and leave the file as it is.
Error refusal(const std::string& path, Errc code)
{
    const std::string before = contentOf(path);
    const auto opened = SqliteJournal::open(path, {.busyTimeoutMs = 0});
    REQUIRE_FALSE(opened);
    INFO(opened.error().sentence);
    CHECK(opened.error().code == code);
    CHECK_THAT(opened.error().sentence, Catch::Contains(path));
    CHECK_FALSE(opened.error().say.id.empty());
    CHECK(contentOf(path) == before);
    return opened.error();
}

} // namespace

TEST_CASE("a new journal is open to its owner alone and keeps to its settings")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const auto journal = openedJournal(path);
    REQUIRE(journal->append(Recorder(1).chainOf(1)));
    for (const char* ending : {"", "-wal", "-shm"}) {
        struct stat status = {};
        CAPTURE(ending);
        REQUIRE(::stat((path + ending).c_str(), &status) == 0);
        CHECK((status.st_mode & 0777U) == 0600);
    }
    CHECK_FALSE(std::filesystem::exists(path + ".new"));
    RawDatabase raw(path);
    CHECK(raw.text("PRAGMA application_id") == "1282371440");
    CHECK(raw.text("PRAGMA user_version") == "6");
    CHECK(raw.text("PRAGMA journal_mode") == "wal");
    CHECK(raw.text("SELECT strict FROM pragma_table_list WHERE name = 'entries'") == "1");
}

TEST_CASE("a start that was cut off while making a journal is made good by the next")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    write(path + ".new", "half a file");
    write(path + ".new-wal", "half a log");
    CHECK(allOf(*openedJournal(path)).empty());
    CHECK_FALSE(std::filesystem::exists(path + ".new"));
    CHECK_FALSE(std::filesystem::exists(path + ".new-wal"));
}

TEST_CASE("a journal is made of entries that come in any order, and not at all where they end too soon")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const auto entries = Recorder(1).chainOf(9);
    const store::Restore restore{7, 0, "to see", {{entries.front().chain, 20, 22}}};
    const auto give = [&](bool isWhole) {
        return [&, isWhole](const store::PutEntry& put) -> Result<store::Restore> {
            for (std::size_t i = entries.size(); i > 0; --i) {
                REQUIRE(put({i, entries[i - 1]}));
            }
            return isWhole ? Result<store::Restore>(restore) : fail(Errc::Io, "no more of them");
        };
    };
    const Done ended = SqliteJournal::make(path, give(false));
    REQUIRE_FALSE(ended);
    CHECK(ended.error().sentence == "no more of them");
    CHECK_FALSE(std::filesystem::exists(path));
    CHECK_FALSE(std::filesystem::exists(path + ".new"));
    REQUIRE(SqliteJournal::make(path, give(true)));
    const auto journal = openedJournal(path);
    const auto stored = allOf(*journal);
    REQUIRE(stored.size() == entries.size());
    for (std::size_t i = 0; i < entries.size(); ++i) {
        CHECK(stored[i].entry == entries[i]);
    }
    const auto told = journal->restores().value();
    REQUIRE(told.size() == 1);
    CHECK(told[0].position == entries.size());
    CHECK(told[0].losses == restore.losses);
}

TEST_CASE("what is appended in one write is there whole, or not at all")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    makeJournal(path, recorder.open());
    const std::vector<Entry> first = recorder.notes({"a", "b"});
    const std::vector<Entry> second = recorder.notes({"c"});
    const auto journal = openedJournal(path);
    const auto others = openedJournal(path);
    const std::vector<Stored> before = allOf(*journal);
    SECTION("all of it, and nobody else sees a part")
    {
        REQUIRE(journal->inOneWrite([&] {
            CHECK(journal->append(first).value() == 3);
            CHECK(journal->last().value() == 3);
            CHECK(allOf(*others) == before);
            return journal->append(second).transform([](Position) {});
        }));
        CHECK(allOf(*others).size() == 4);
        CHECK(store::writtenEnd(path)->position == 4);
    }
    SECTION("nothing of it where the work fails")
    {
        const Done written = journal->inOneWrite([&]() -> Done {
            CHECK(journal->append(first));
            return fail(Errc::Malformed, "there is no more");
        });
        REQUIRE_FALSE(written);
        CHECK(written.error().sentence == "there is no more");
    }
    SECTION("nothing of it where an append fails, though the work goes on")
    {
        CHECK_FALSE(journal->inOneWrite([&]() -> Done {
            CHECK_FALSE(journal->append(second)); // before what it follows
            CHECK_FALSE(journal->append(first));
            return {};
        }));
    }
    if (allOf(*others) == before) {
        CHECK(store::writtenEnd(path)->position == 1);
        CHECK(journal->append(first).value() == 3);
        CHECK(journal->append(second).value() == 4);
    }
    CHECK(verifyAll(*journal).empty());
}

TEST_CASE("entries cannot be changed or removed by a slip")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(1));
    sqlite3* connection = nullptr;
    REQUIRE(sqlite3_open(path.c_str(), &connection) == SQLITE_OK);
    CHECK(sqlite3_exec(connection, "DELETE FROM entries WHERE position = 2", nullptr, nullptr, nullptr)
          == SQLITE_CONSTRAINT);
    CHECK(sqlite3_exec(connection, "UPDATE entries SET kind = 'x'", nullptr, nullptr, nullptr) == SQLITE_CONSTRAINT);
    sqlite3_close(connection);
    CHECK(verifyAll(*openedJournal(path)).empty());
}

TEST_CASE("a file that is no journal is refused and left as it is")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");

    SECTION("a text")
    {
        write(path, "grocery list\n");
    }
    SECTION("nothing at all")
    {
        write(path, "");
    }
    SECTION("a long file of zeros")
    {
        write(path, std::string(8192, '\0'));
    }
    SECTION("another program's database")
    {
        RawDatabase(path).run("PRAGMA application_id = 42; CREATE TABLE songs (title TEXT)");
    }
    SECTION("a database of a program that does not say its name")
    {
        RawDatabase(path).run("CREATE TABLE songs (title TEXT)");
    }
    SECTION("another program's database with a log of its own")
    {
        RawDatabase(path).run("PRAGMA journal_mode = WAL; CREATE TABLE songs (title TEXT)");
    }
    const Error error = refusal(path, Errc::Corrupt);
    CHECK_THAT(error.sentence, Catch::Contains("left as it is") && Catch::Contains("move it away"));
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), std::filesystem::directory_iterator())
          == 1);
}

TEST_CASE("a journal of a newer version is refused and left as it is")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(1));
    RawDatabase(path).run("PRAGMA user_version = 7");
    CHECK_THAT(refusal(path, Errc::Incompatible).sentence, Catch::Contains("newer version"));
}

TEST_CASE("a journal with a layout number that no version gives is damaged")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(1));
    RawDatabase(path).run("PRAGMA user_version = -1");
    refusal(path, Errc::Corrupt);
}

TEST_CASE("a damaged journal is refused, kept, and says what to do")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(20));
    std::string content = contentOf(path);

    SECTION("cut short")
    {
        content.resize(content.size() / 2);
    }
    SECTION("a page of zeros in the middle")
    {
        content.replace(4096, 4096, std::string(4096, '\0'));
    }
    write(path, content);
    CHECK_THAT(refusal(path, Errc::Corrupt).sentence, Catch::Contains("left as it is") && Catch::Contains("backup"));
}

TEST_CASE("a place where no journal can be is said plainly")
{
    const TempFolder folder;

    SECTION("the folder is missing")
    {
        const std::string path = folder.file("no/such/journal.db");
        CHECK_THAT(refusal(path, Errc::Io).sentence, Catch::Contains("the folder") && Catch::Contains("no/such"));
    }
    SECTION("a file stands where the folder should be")
    {
        write(folder.file("no"), "a file");
        refusal(folder.file("no/journal.db"), Errc::Io);
    }
    SECTION("it is a folder itself")
    {
        std::filesystem::create_directory(folder.file("journal.db"));
        const auto opened = SqliteJournal::open(folder.file("journal.db"));
        REQUIRE_FALSE(opened);
        CHECK(opened.error().code == Errc::Io);
    }
}

TEST_CASE("a journal that may only be read is refused as such")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(1));
    const auto opening = [&] {
        const auto opened = SqliteJournal::open(path);
        return opened ? std::string("opened")
                      : std::string(opened.error().code == Errc::Io ? "Io: " : "other: ") + opened.error().sentence;
    };

    SECTION("neither file nor folder is the trouble")
    {
        CHECK(asOrdinaryUser(folder.path(), opening) == "opened");
    }
    SECTION("the file")
    {
        REQUIRE(::chmod(path.c_str(), 0400) == 0);
        CHECK_THAT(asOrdinaryUser(folder.path(), opening),
                   Catch::StartsWith("Io: ") && Catch::Contains("may only be read"));
    }
    SECTION("the folder")
    {
        REQUIRE(::chmod(folder.path().c_str(), 0500) == 0);
        CHECK_THAT(asOrdinaryUser(folder.path(), opening), Catch::StartsWith("Io: ") && Catch::Contains("folder"));
    }
    SECTION("the folder, and there is no journal yet")
    {
        std::filesystem::remove(path);
        REQUIRE(::chmod(folder.path().c_str(), 0500) == 0);
        CHECK_THAT(asOrdinaryUser(folder.path(), opening),
                   Catch::StartsWith("Io: ") && Catch::Contains("may not be written"));
    }
}

TEST_CASE("a journal that another program keeps is unavailable until it lets go")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    makeJournal(path, recorder.open());

    SECTION("when opened")
    {
        {
            RawDatabase other(path);
            other.run("PRAGMA locking_mode = EXCLUSIVE; BEGIN EXCLUSIVE; CREATE TABLE t (a); DROP TABLE t; COMMIT");
            CHECK_THAT(refusal(path, Errc::Unavailable).sentence, Catch::Contains("in use by another program"));
        }
        CHECK(allOf(*openedJournal(path)).size() == 1);
    }
    SECTION("when added to")
    {
        auto journal = SqliteJournal::open(path, {.busyTimeoutMs = 0});
        REQUIRE(journal);
        RawDatabase other(path);
        other.run("BEGIN IMMEDIATE");
        const std::vector<Entry> entries = recorder.notes({"a"});
        const Result<Position> refused = (*journal)->append(entries);
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == Errc::Unavailable);
        CHECK(allOf(**journal).size() == 1);
        other.run("ROLLBACK");
        CHECK((*journal)->append(entries).value() == 2);
    }
}
