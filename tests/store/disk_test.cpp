// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The journal on a disk that fills up, fails, or loses its power.

#include "ledger/verify.h"
#include "store/faulty_disk.h"
#include "store/files.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sqlite3.h>

using namespace loopside;
using namespace loopside::ledger;
using namespace loopside::test;
using loopside::store::SqliteJournal;

namespace {

std::vector<Stored> firstOf(const std::vector<Entry>& entries, std::size_t count)
{
    return inOrder({entries.begin(), entries.begin() + static_cast<std::ptrdiff_t>(count)});
}

} // namespace

TEST_CASE("what append acknowledged is there after a power cut in the next instruction")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    makeJournal(path, recorder.open());
    FaultyDisk disk;
    disk.keep(path);
    const auto journal = openedJournal(path);
    for (std::size_t i = 2; i <= 6; ++i) {
        REQUIRE(journal->append(recorder.notes({"note " + std::to_string(i)})));
        const TempFolder afterwards;
        for (const auto& [file, content] : disk.synced()) {
            if (file == path || file == path + "-wal") {
                write(afterwards.file(std::filesystem::path(file).filename()), content);
            }
        }
        const auto found = openedJournal(afterwards.file("journal.db"));
        CAPTURE(i);
        CHECK(allOf(*found) == allOf(*journal));
        CHECK(allOf(*found).size() == i);
    }
}

TEST_CASE("a disk that is full or fails at any write or sync keeps all of a batch or nothing")
{
    const auto [code, word] = GENERATE(table<int, std::string>({{SQLITE_FULL, "the disk is full"},
                                                                {SQLITE_IOERR_WRITE, "the disk failed"},
                                                                {SQLITE_IOERR_FSYNC, "the disk failed"}}));
    const bool programEnds = GENERATE(false, true);
    CAPTURE(word, programEnds);
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    const std::vector<Entry> before = recorder.open();
    makeJournal(path, before);
    const std::string made = contentOf(path);
    const std::vector<Entry> batch = recorder.notes({"a", std::string(9000, 'b'), "c"});
    FaultyDisk disk;
    int n = 1;
    for (bool didFail = true; didFail; ++n) {
        CAPTURE(n);
        REQUIRE(n < 100);
        write(path, made);
        auto journal = openedJournal(path);
        disk.failFrom(n, code);
        const Result<Position> appended = journal->append(batch);
        didFail = disk.hasFailed();
        REQUIRE(appended.has_value() == !didFail);
        if (!didFail) {
            disk.work();
            continue;
        }
        CHECK(appended.error().code == Errc::Io);
        CHECK_THAT(appended.error().sentence, Catch::Contains(word) && Catch::Contains("nothing was stored"));
        CHECK(allOf(*journal) == inOrder(before));

        if (programEnds) {
            journal.reset();
            disk.work();
            journal = openedJournal(path);
            const std::size_t found = allOf(*journal).size();
            CHECK((found == 1 || found == 4));
        } else {
            disk.work();
            CHECK(journal->append(batch).value() == 4);
        }
        CHECK(verifyAll(*journal).empty());
    }
    CHECK(n > 3); // else nothing was tried
}

TEST_CASE("a disk that fails while a journal is made leaves a whole one or none")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const int code = GENERATE(SQLITE_FULL, SQLITE_IOERR_WRITE);
    FaultyDisk disk;
    int failures = 0;
    for (int n = 1; n < 200; ++n) {
        CAPTURE(n);
        disk.failFrom(n, code);
        const auto opened = SqliteJournal::open(path);
        if (opened) {
            break;
        }
        ++failures;
        CHECK(opened.error().code == Errc::Io);
        disk.work();
        CHECK((std::filesystem::is_empty(folder.path()) || allOf(*openedJournal(path)).empty()));
        for (const auto& left : std::filesystem::directory_iterator(folder.path())) {
            std::filesystem::remove(left.path());
        }
    }
    CHECK(failures > 3);
}

TEST_CASE("a log cut at any length keeps whole batches, and all of them up to the cut")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    std::vector<Entry> entries = recorder.open();
    makeJournal(path, entries);
    const auto journal = openedJournal(path);
    for (int i = 0; i < 5; ++i) {
        const std::vector<Entry> batch = recorder.notes({"a", std::string(3000, 'b')});
        REQUIRE(journal->append(batch));
        entries.insert(entries.end(), batch.begin(), batch.end());
    }
    const std::string database = contentOf(path);
    const std::string log = contentOf(path + "-wal");
    std::size_t last = 1;
    for (std::size_t length = 0; length <= log.size() + 1200; length += 1201) {
        const TempFolder afterwards;
        write(afterwards.file("journal.db"), database);
        write(afterwards.file("journal.db-wal"), log.substr(0, length));
        const auto found = openedJournal(afterwards.file("journal.db"));
        const std::vector<Stored> stored = allOf(*found);
        CAPTURE(length);
        REQUIRE(stored.size() % 2 == 1);
        REQUIRE(stored.size() >= last);
        REQUIRE(stored == firstOf(entries, stored.size()));
        last = stored.size();
    }
    CHECK(last == entries.size());
}

TEST_CASE("any call of the disk that fails while a journal is opened, written and read is said, and costs nothing")
{
    const int code = GENERATE(SQLITE_IOERR_READ, SQLITE_IOERR, SQLITE_CANTOPEN);
    CAPTURE(code);
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    const std::vector<Entry> before = recorder.chainOf(8);
    const std::vector<Entry> added = recorder.notes({"a", std::string(9000, 'b')});
    makeJournal(path, before);
    const std::string made = contentOf(path);
    std::vector<Entry> all = before;
    all.insert(all.end(), added.begin(), added.end());
    FaultyDisk disk;
    disk.countAllCalls();
    int failures = 0;
    bool didFail = true;
    for (int n = 1; didFail; ++n) {
        CAPTURE(n);
        REQUIRE(n < 400);
        std::filesystem::remove(path + "-wal");
        std::filesystem::remove(path + "-shm");
        std::filesystem::remove(path + ".end");
        write(path, made);
        disk.failFrom(n, code);
        bool isAcknowledged = false;
        if (const auto journal = SqliteJournal::open(path, {.busyTimeoutMs = 0})) {
            const Result<Position> appended = (*journal)->append(added);
            isAcknowledged = appended.has_value();
            const auto read = isAcknowledged ? (*journal)->read(0, 100) : Result<std::vector<Stored>>(inOrder(all));
            CHECK((!read || *read == inOrder(all)));
            CHECK((appended || !appended.error().sentence.empty()));
        } else {
            CHECK(journal.error().code != Errc::Corrupt); // a disk that fails is no damage
        }
        didFail = disk.hasFailed();
        failures += didFail ? 1 : 0;
        disk.work();
        const auto stored = allOf(*openedJournal(path));
        CHECK((stored == inOrder(all) || (!isAcknowledged && stored == inOrder(before))));
    }
    CHECK(failures > 20);
}
