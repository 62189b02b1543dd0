// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/recovery.h"

#include "base/text.h"
#include "ledger/logbook.h"
#include "ledger/verify.h"
#include "store/backup.h"
#include "store/files.h"
#include "store/instance_lock.h"
#include "store/lost_in_index.h"
#include "store/raw_database.h"
#include "store/temp_folder.h"
#include "store/whole_check.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;
using store::Opened;
using store::openOrRecover;

namespace {

constexpr std::int64_t noon = 1'783'857'600'000; // 2026-07-12T12:00:00Z

Opened opened(const TempFolder& folder, const store::StartLimits& limits = {})
{
    auto result = openOrRecover(folder.file("journal.db"), folder.file("backups"), noon, limits);
    INFO((result ? std::string() : result.error().sentence));
    REQUIRE(result);
    return std::move(*result);
}

void backUpNow(const TempFolder& folder)
{
    REQUIRE(store::backUp(*openedJournal(folder.file("journal.db")), folder.file("backups"), noon - 1000));
}

/// Changes the row of one entry past all our rules.
void spoil(const TempFolder& folder, const std::string& change, int position)
{
    RawDatabase(folder.file("journal.db"))
        .runPastTriggers("UPDATE entries SET " + change + " WHERE position = " + std::to_string(position));
}

class StillClock final : public Clock
{
public:
    Stamp now() override { return {noon, 120, ++nanoseconds_, Recorder::idOf(0xB0, 9)}; }

private:
    std::uint64_t nanoseconds_ = 0;
};

} // namespace

TEST_CASE("a sound start tells nothing and makes the journal where there is none")
{
    const TempFolder folder;
    {
        const Opened first = opened(folder);
        CHECK(first.notice().id.empty());
        REQUIRE(first.journal->append(Recorder(1).chainOf(5)));
    }
    const Opened second = opened(folder);
    CHECK(second.notice().id.empty());
    CHECK(allOf(*second.journal).size() == 6);
    CHECK(second.journal->restores().value().empty());
}

TEST_CASE("an entry that was altered is replaced from the backup, and the altered file is kept")
{
    const TempFolder folder;
    const auto entries = Recorder(1).chainOf(9);
    makeJournal(folder.file("journal.db"), entries);
    backUpNow(folder);
    spoil(folder, GENERATE("body = X'00'", "hash = zeroblob(32)", "signature = zeroblob(64)"), 4);
    const Opened start = opened(folder);
    REQUIRE(start.recovered);
    CHECK(start.notice().id == "store-recovered");
    CHECK(start.recovered->entries == 10);
    CHECK(start.recovered->fromBackups == 1);
    CHECK(start.recovered->missing() == 0);
    CHECK(start.recovered->keptAs == folder.file("journal.db.damaged.1"));
    CHECK(RawDatabase(start.recovered->keptAs).text("SELECT count(*) FROM entries") == "10");
    CHECK(allOf(*start.journal) == inOrder(entries));
    CHECK(ledger::verifyAll(*start.journal).empty());
}

TEST_CASE("what neither file nor backup has is told as a gap, and stays told")
{
    const TempFolder folder;
    makeJournal(folder.file("journal.db"), Recorder(1).chainOf(9));
    spoil(folder, "body = X'00'", 4);
    const Id chain = Recorder(1).sealer().chain();
    {
        const Opened start = opened(folder);
        REQUIRE(start.recovered);
        CHECK(start.recovered->missing() == 1);
        CHECK(start.recovered->losses == std::vector<ledger::Loss>{{chain, 3, 5}});
        CHECK(allOf(*start.journal).size() == 9);
    }
    const Opened again = opened(folder);
    CHECK_FALSE(again.recovered); // it is known
    const auto restores = again.journal->restores();
    REQUIRE((restores && restores->size() == 1));
    CHECK(restores->front().atMs == noon);
    CHECK(restores->front().position == 9);
    CHECK_THAT(restores->front().why, Catch::Contains("position 4") && Catch::Contains("was changed"));
    CHECK(ledger::verifyAll(*again.journal, store::lossesOf(*again.journal).value()).empty());
    const auto faults = ledger::verifyAll(*again.journal);
    REQUIRE(faults.size() == 1);
    CHECK_THAT(faults[0].sentence, Catch::Contains("follows entry 3"));
}

TEST_CASE("a restored journal goes on with a new chain that names the old one")
{
    const TempFolder folder;
    const auto entries = Recorder(1).chainOf(4);
    makeJournal(folder.file("journal.db"), entries);
    spoil(folder, "body = X'00'", 3);
    const Opened start = opened(folder);
    const Id device = Recorder(1).device();
    CHECK(start.journal->head(device).value()->isOver);
    StillClock clock;
    SeededRandom random(3);
    auto logbook = ledger::Logbook::open(*start.journal, clock, random);
    REQUIRE(logbook);
    REQUIRE(logbook->enrol(device, Recorder::keyOf(2))); // a new key too: the old chain keeps its own
    const auto stored = allOf(*start.journal);
    const auto opening = ledger::chainOpeningFrom(stored.back().entry.body);
    REQUIRE((opening && opening->parent));
    CHECK(opening->parent->chain == entries[0].chain);
    CHECK(opening->parent->last == entries.back().hash);
    CHECK_FALSE(start.journal->head(device).value()->isOver);
    CHECK(ledger::verifyAll(*start.journal, store::lossesOf(*start.journal).value()).empty());
}

TEST_CASE("a journal that is gone, or an older one in its place, is made good from the backup")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    const auto entries = recorder.chainOf(5);
    makeJournal(path, entries);
    const std::string old = contentOf(path);
    REQUIRE(openedJournal(path)->append(recorder.notes({"a", "b"})));
    backUpNow(folder);

    SECTION("gone")
    {
        std::filesystem::remove(path);
        const Opened start = opened(folder);
        REQUIRE(start.recovered);
        CHECK(start.recovered->keptAs.empty());
        CHECK(start.recovered->fromBackups == 8);
        CHECK(start.recovered->missing() == 0);
    }
    SECTION("older, and its witness knows")
    {
        write(path, old);
        const Opened start = opened(folder);
        REQUIRE(start.recovered);
        CHECK_THAT(start.recovered->why, Catch::Contains("entry 8 had been logged"));
        CHECK(allOf(*start.journal).size() == 8);
    }
    SECTION("older, and only the backup knows")
    {
        write(path, old);
        std::filesystem::remove(path + ".end");
        const Opened start = opened(folder);
        REQUIRE(start.recovered);
        CHECK_THAT(start.recovered->why, Catch::Contains("the backup of"));
        CHECK(allOf(*start.journal).size() == 8);
    }
    SECTION("older, and no backup: how many are missing is told")
    {
        write(path, old);
        std::filesystem::remove_all(folder.file("backups"));
        const Opened start = opened(folder);
        REQUIRE(start.recovered);
        CHECK(start.recovered->missing() == 2);
        CHECK_THAT(start.recovered->why, Catch::Contains("2 entries at its end are gone"));
        CHECK(allOf(*start.journal) == inOrder(entries));
    }
    CHECK_FALSE(opened(folder).recovered);
}

TEST_CASE("entries longer than a page come back from a file whose beginning is gone")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    auto entries = recorder.open();
    for (const std::size_t size : {5000, 100, 70'000, 1}) {
        const auto note = recorder.notes({std::string(size, 'x')});
        entries.insert(entries.end(), note.begin(), note.end());
    }
    makeJournal(path, entries);
    std::string content = contentOf(path);
    content.replace(0, 4096, std::string(4096, '\xAA'));
    write(path, content);
    const Opened start = opened(folder);
    REQUIRE(start.recovered);
    CHECK(allOf(*start.journal) == inOrder(entries));
}

TEST_CASE("of two writings of one place in a chain the one that the chain names is taken")
{
    // The first was refused by the disk and never acknowledged; its bytes may still stand in the log.
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    auto entries = recorder.chainOf(2);
    const auto refused = recorder.sealedNotes({"refused"});
    const auto taken = recorder.notes({"taken"});
    const auto next = recorder.notes({"next"});
    makeJournal(folder.file("other.db"), entries);
    REQUIRE(openedJournal(folder.file("other.db"))->append(refused));
    entries.insert(entries.end(), {taken.front(), next.front()});
    makeJournal(path, entries);
    const auto recovered = store::recover(path, {folder.file("other.db")}, noon, "to see");
    REQUIRE(recovered);
    CHECK(allOf(*openedJournal(path)) == inOrder(entries));
    CHECK(recovered->fromBackups == 0);
}

TEST_CASE("a file of which nothing can be read is left as it is")
{
    const TempFolder folder;
    write(folder.file("journal.db"), std::string(9000, 'x'));
    const auto start = openOrRecover(folder.file("journal.db"), folder.file("backups"), noon);
    REQUIRE_FALSE(start);
    CHECK(start.error().code == Errc::Corrupt);
    CHECK(start.error().say.id == "store-not-a-journal");
    CHECK(contentOf(folder.file("journal.db")) == std::string(9000, 'x'));
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), std::filesystem::directory_iterator())
          == 1);
}

TEST_CASE("a journal of a newer version is no damage")
{
    const TempFolder folder;
    makeJournal(folder.file("journal.db"), Recorder(1).chainOf(1));
    backUpNow(folder);
    RawDatabase(folder.file("journal.db")).run("PRAGMA user_version = 99");
    const auto start = openOrRecover(folder.file("journal.db"), folder.file("backups"), noon);
    REQUIRE_FALSE(start);
    CHECK(start.error().code == Errc::Incompatible);
    CHECK_FALSE(std::filesystem::exists(folder.file("journal.db.damaged.1")));
}

TEST_CASE("a journal of a newer version is left as it is with its log")
{
    const TempFolder other;
    const std::string from = other.file("journal.db");
    makeJournal(from, Recorder(1).chainOf(1));
    RawDatabase newer(from);
    newer.run("PRAGMA journal_mode = WAL; PRAGMA user_version = 99"); // stands in the log alone
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    for (const char* ending : {"", "-wal", ".end"}) {
        write(path + ending, contentOf(from + ending));
    }
    REQUIRE_FALSE(contentOf(path + "-wal").empty());
    const auto start = openOrRecover(path, folder.file("backups"), noon);
    REQUIRE_FALSE(start);
    CHECK(start.error().code == Errc::Incompatible);
    for (const char* ending : {"", "-wal", ".end"}) {
        CHECK(contentOf(path + ending) == contentOf(from + ending));
    }
    CHECK_FALSE(std::filesystem::exists(path + ".damaged.1"));
}

TEST_CASE("a witness that a power cut left torn, empty or behind costs nothing and tells nothing")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    makeJournal(path, recorder.chainOf(5));
    const std::string older = contentOf(path + ".end");
    REQUIRE(openedJournal(path)->append(recorder.notes({"a", "b"})));
    const std::string whole = contentOf(path + ".end");
    REQUIRE(older != whole);
    const auto left = GENERATE_COPY(std::string(), whole.substr(0, 10), whole.substr(0, 40),
                                    whole.substr(0, whole.size() - 1), older, std::string(whole.size(), '\0'));
    write(path + ".end", left);
    {
        const Opened start = opened(folder);
        CHECK(start.notice().id.empty());
        CHECK(allOf(*start.journal).size() == 8);
        REQUIRE(start.journal->append(recorder.notes({"c"})));
    }
    CHECK(opened(folder).notice().id.empty());
    CHECK_THAT(contentOf(path + ".end"), Catch::Contains("00009 "));
}

TEST_CASE("what a backup holds is missed whatever the clock said at a restore before it")
{
    const auto restoredAt = GENERATE(noon - 2000, noon + 3'000'000'000'000); // in the year 2121
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    makeJournal(path, recorder.chainOf(5));
    REQUIRE(store::recover(path, {}, restoredAt, "to see"));
    Recorder next(2);
    REQUIRE(openedJournal(path)->append(next.chainOf(1)));
    const std::string older = contentOf(path);
    REQUIRE(openedJournal(path)->append(next.notes({"behind"})));
    backUpNow(folder);
    CHECK(opened(folder).notice().id.empty());
    write(path, older);
    std::filesystem::remove(path + ".end");
    const Opened start = opened(folder);
    REQUIRE(start.recovered);
    CHECK_THAT(start.recovered->why, Catch::Contains("the backup of"));
    CHECK(allOf(*start.journal).size() == 9);
}

TEST_CASE("a backup of before a restore, or of another journal, says nothing of what is missing")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(5));
    SECTION("of before")
    {
        backUpNow(folder);
        std::filesystem::remove(path);
        std::filesystem::remove(path + ".end");
        auto fewer = Recorder(1).chainOf(3); // made anew without the folder of backups, and one entry fewer was found
        REQUIRE(store::SqliteJournal::make(path, fewer, {0, 0, "to see", {}}));
    }
    SECTION("of a life that another restore began")
    {
        REQUIRE(store::recover(path, {}, noon - 9000, "elsewhere"));
        REQUIRE(openedJournal(path)->append(Recorder(2).chainOf(3)));
        backUpNow(folder);
        std::filesystem::remove(path);
        std::filesystem::remove(path + ".end");
        REQUIRE(store::SqliteJournal::make(path, Recorder(1).chainOf(5), {noon - 8000, 0, "here", {}}));
    }
    SECTION("of another")
    {
        makeJournal(folder.file("other.db"), Recorder(2).chainOf(20));
        REQUIRE(store::backUp(*openedJournal(folder.file("other.db")), folder.file("backups"), noon));
    }
    CHECK(opened(folder).notice().id.empty());
}

TEST_CASE("an empty journal in the place of one that a backup holds is missing everything")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(5));
    backUpNow(folder);
    std::filesystem::remove(path);
    std::filesystem::remove(path + ".end");
    openedJournal(path); // made anew by somebody who did not look at the backups
    const Opened start = opened(folder);
    REQUIRE(start.recovered);
    CHECK(allOf(*start.journal) == inOrder(Recorder(1).chainOf(5)));
}

TEST_CASE("a copy of before a restore in the place of the journal is missing what was logged since")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(5));
    const std::string before = contentOf(path);
    REQUIRE(store::recover(path, {}, noon - 5000, "to see"));
    REQUIRE(openedJournal(path)->append(Recorder(2).chainOf(1)));
    backUpNow(folder);
    write(path, before);
    std::filesystem::remove(path + ".end");
    const Opened start = opened(folder); // the backup has a restore more than this
    REQUIRE(start.recovered);
    CHECK(allOf(*start.journal).size() == 8);
}

TEST_CASE("a backup that nobody can read still tells by its name what is missing, once")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(5));
    std::filesystem::create_directory(folder.file("backups"));
    write(folder.file("backups") + "/journal-20260712T110000Z-000000000009.sqlite", "spoilt");
    {
        const Opened start = opened(folder);
        REQUIRE(start.recovered);
        CHECK_THAT(start.recovered->why, Catch::Contains("it ends at entry 6") && Catch::Contains("holds 9"));
        CHECK(start.recovered->entries == 6);
    }
    CHECK(opened(folder).notice().id.empty());
}

TEST_CASE("a chain that names an end which nobody has any more is told once as a loss, and is no fault then")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder one(1);
    auto entries = one.chainOf(4);
    const ledger::ParentChain parent{entries.front().chain, entries.back().hash};
    entries.pop_back();
    SeededRandom random(5);
    IdMaker ids(random);
    auto next = ledger::Sealer::startChain(one.device(), Recorder::idOf(0xC0, 9), Recorder::keyOf(1), parent);
    next.heard(entries.back().header.clock + 100'000);
    const std::vector<ledger::Draft> opening = {next.chainOpened()};
    const auto sealed = next.seal(opening, entries.back().header.entered, Recorder::idOf(0xE0, 1), ids);
    entries.insert(entries.end(), sealed.begin(), sealed.end());
    makeJournal(path, entries);
    const auto faults = ledger::verifyAll(*openedJournal(path));
    REQUIRE(faults.size() == 1);
    CHECK_THAT(faults[0].sentence, Catch::Contains("goes on from chain"));
    const auto recovered = store::recover(path, {}, noon, "to see");
    REQUIRE(recovered);
    CHECK(recovered->losses == std::vector<ledger::Loss>{{parent.chain, 4, 6}});
    const auto journal = openedJournal(path);
    CHECK(ledger::verifyAll(*journal, store::lossesOf(*journal).value()).empty());
}

TEST_CASE("the structure of a small file is looked at by the start, that of a large one behind it")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(20));
    CHECK(opened(folder).journal->isStructureSeen());
    CHECK(store::checkBehindStart(path, false)->faults.empty());
    const store::StartLimits limits{.structureMaxBytes = 1000};
    CHECK_FALSE(opened(folder, limits).journal->isStructureSeen());

    loseInIndex(path);
    const auto unseen = opened(folder, limits);
    CHECK_FALSE(unseen.recovered);
    const auto seen = store::checkBehindStart(path, false);
    REQUIRE(seen);
    CHECK(seen->faults.size() == 1);
    CHECK(unseen.journal->last().value() == 21); // and is left at work
}

TEST_CASE("damage that was found behind a start is mended by the next one, however far back")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const store::StartLimits limits{.hashes = 5, .signatures = 5, .structureMaxBytes = 1000};
    makeJournal(path, Recorder(1).chainOf(29));
    const auto damaged = GENERATE(true, false);
    CAPTURE(damaged);
    if (damaged) {
        spoil(folder, "body = X'00'", 15);
    } else {
        loseInIndex(path);
    }
    {
        const auto first = opened(folder, limits);
        CHECK_FALSE(first.recovered);
        const auto seen = store::checkBehindStart(path, first.journal->isStructureSeen());
        REQUIRE(seen);
        CHECK(seen->faults.size() == 1);
        CHECK(store::noteChecked(*first.journal, *seen));
    }
    CHECK(opened(folder, limits).recovered);
    CHECK_FALSE(opened(folder, limits).recovered); // and it is whole then
}

TEST_CASE("what is looked at behind a start is not looked at again by the next one")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(29));
    const auto start = opened(folder, {.hashes = 5, .signatures = 8});
    const auto seen = store::checkBehindStart(path, true);
    REQUIRE(seen);
    CHECK(seen->faults.empty());
    CHECK(seen->signaturesUpTo == 30);
    CHECK(store::noteChecked(*start.journal, *seen));
    CHECK(store::checkPiece(*start.journal, {.hashes = 5, .signatures = 8})->signaturesUpTo == 8); // from the first on
}

TEST_CASE("a row that an index of a small file lost is damage")
{
    const TempFolder folder;
    makeJournal(folder.file("journal.db"), Recorder(1).chainOf(20));
    loseInIndex(folder.file("journal.db"));
    const auto start = opened(folder);
    REQUIRE(start.recovered);
    CHECK(start.recovered->entries == 21);
    CHECK(start.recovered->missing() == 0);
}

TEST_CASE("each start checks the next piece of signatures, and the youngest hashes always")
{
    const TempFolder folder;
    const store::StartLimits limits{.hashes = 5, .signatures = 8};
    makeJournal(folder.file("journal.db"), Recorder(1).chainOf(29));
    CHECK_FALSE(opened(folder, limits).recovered);

    SECTION("an old signature is found when its piece comes")
    {
        spoil(folder, "signature = zeroblob(64)", 20);
        CHECK_FALSE(opened(folder, limits).recovered); // 9 to 16
        CHECK(opened(folder, limits).recovered);       // 17 to 24
    }
    SECTION("the piece begins anew behind the last entry")
    {
        spoil(folder, "body = X'00'", 2);
        for (int start = 0; start < 3; ++start) {
            CHECK_FALSE(opened(folder, limits).recovered);
        }
        CHECK(opened(folder, limits).recovered);
    }
    SECTION("a young body is found at once")
    {
        spoil(folder, "body = X'00'", 28);
        CHECK(opened(folder, limits).recovered);
    }
}

TEST_CASE("only one program works with a journal at a time")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    {
        const auto first = store::InstanceLock::take(path);
        REQUIRE(first);
        const auto second = store::InstanceLock::take(path);
        REQUIRE_FALSE(second);
        CHECK(second.error().code == Errc::Unavailable);
        CHECK(second.error().say.id == "store-in-use");
    }
    CHECK(store::InstanceLock::take(path));
    CHECK(store::InstanceLock::take(folder.file("no/such/journal.db")).error().code == Errc::Io);
}

TEST_CASE("a journal of every earlier layout, and of this one, is brought up, entry for entry")
{
    // Layout 1 as the version of that time wrote it; 2 to 6 made of it by the steps of schema/tablet, with a restore,
    // a gap and a counter as their programs write them.
    const int layout = GENERATE(1, 2, 3, 4, 5, 6);
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const std::string data = std::string(LOOPSIDE_SOURCE_DIR) + "/tests/store/data/journal_v" + std::to_string(layout)
        + ".sqlite";
    std::filesystem::copy_file(data, path);
    REQUIRE(RawDatabase(path).text("PRAGMA user_version") == std::to_string(layout));
    const std::string lastHash = RawDatabase(path).text("SELECT lower(hex(hash)) FROM entries WHERE position = 28");
    const Opened start = opened(folder);
    CHECK(start.notice().id.empty());
    const auto stored = allOf(*start.journal);
    CHECK(stored.size() == 28);
    CHECK(ledger::verifyAll(*start.journal).empty());
    CHECK(toHex(stored.back().entry.hash) == lastHash);
    CHECK(RawDatabase(path).text("PRAGMA user_version") == "6");
    const auto restores = start.journal->restores();
    REQUIRE(restores);
    CHECK(restores->size() == (layout == 1 ? 0 : 1));
    CHECK(store::lossesOf(*start.journal).value().size() == restores->size());
    CHECK(store::tornWritesOf(*start.journal).value() == (layout == 1 ? 0 : 2));
    StillClock clock;
    SeededRandom random(3);
    const auto reach = GENERATE(ledger::Reach::Whole, ledger::Reach::AtHand);
    const auto logbook = ledger::Logbook::open(*start.journal, clock, random, reach);
    REQUIRE(logbook);
    CHECK(logbook->state().runs.size() == 1);
    CHECK(logbook->unknownEntries() == 0);
}
