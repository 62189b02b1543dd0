// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/backup.h"

#include "ledger/verify.h"
#include "store/faulty_disk.h"
#include "store/files.h"
#include "store/raw_database.h"
#include "store/recovery.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <sqlite3.h>
#include <sys/stat.h>

using namespace loopside;
using namespace loopside::test;
using store::Backup;
using store::backUp;
using store::backupsIn;

namespace {

constexpr std::int64_t noon = 1'783'857'600'000; // 2026-07-12T12:00:00Z, as date -u says
constexpr std::int64_t hour = 3'600'000;

std::vector<Backup> listed(const std::string& folder)
{
    const auto backups = backupsIn(folder);
    REQUIRE(backups);
    return *backups;
}

} // namespace

TEST_CASE("a backup is a whole journal, made while the journal is open, and named by moment and last position")
{
    const TempFolder folder;
    const std::string backups = folder.file("backups");
    Recorder recorder(1);
    const std::vector<ledger::Entry> entries = recorder.chainOf(3);
    makeJournal(folder.file("journal.db"), entries);
    const auto journal = openedJournal(folder.file("journal.db"));
    CHECK(listed(backups).empty());

    const auto made = backUp(*journal, backups, noon);
    REQUIRE((made && *made));
    CHECK_THAT((*made)->path, Catch::EndsWith("journal-20260712T120000Z-000000000004.sqlite"));
    CHECK(listed(backups) == std::vector{**made});
    struct stat status = {};
    REQUIRE(::stat((*made)->path.c_str(), &status) == 0);
    CHECK((status.st_mode & 0777U) == 0600);
    CHECK(allOf(*openedJournal((*made)->path)) == inOrder(entries));

    CHECK(backUp(*journal, backups, noon + hour).value() == std::nullopt); // nothing new
    REQUIRE(journal->append(recorder.notes({"more"})));
    const auto later = backUp(*journal, backups, noon - hour); // the wall clock was set back
    REQUIRE((later && *later));
    CHECK((*later)->last == 5);
    CHECK(listed(backups).front() == **later);
}

TEST_CASE("a restore is backed up once, whatever the clock said then, also in the same second")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const std::string backups = folder.file("backups");
    const auto restoredAt = GENERATE(std::int64_t{0}, noon, noon + 3'000'000'000'000); // 1970 and 2121 too
    makeJournal(path, Recorder(1).chainOf(3));
    REQUIRE(backUp(*openedJournal(path), backups, noon).value());
    REQUIRE(store::recover(path, {}, restoredAt, "to see"));
    const auto after = backUp(*openedJournal(path), backups, noon);
    REQUIRE((after && *after));
    CHECK(openedJournal((*after)->path)->restores().value().size() == 1);
    CHECK(listed(backups).front() == **after);
    CHECK(backUp(*openedJournal(path), backups, noon + hour).value() == std::nullopt);
}

TEST_CASE("the name of a backup goes on by a second where the clock does not")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const std::string backups = folder.file("backups");
    Recorder recorder(1);
    makeJournal(path, recorder.chainOf(3));
    const std::int64_t newYear = 1'798'761'599'000; // 2026-12-31T23:59:59Z, as date -u says
    REQUIRE(backUp(*openedJournal(path), backups, newYear).value());
    REQUIRE(openedJournal(path)->append(recorder.notes({"more"})));
    CHECK(backUp(*openedJournal(path), backups, noon).value()->at == "20270101T000000Z");
}

TEST_CASE("an empty journal needs no backup")
{
    const TempFolder folder;
    CHECK(backUp(*openedJournal(folder.file("journal.db")), folder.file("backups"), noon).value() == std::nullopt);
    CHECK(listed(folder.file("backups")).empty());
}

TEST_CASE("a backup of a damaged journal is refused, and the older ones stay")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const std::string backups = folder.file("backups");
    Recorder recorder(1);
    makeJournal(path, recorder.chainOf(3));
    REQUIRE(backUp(*openedJournal(path), backups, noon));
    REQUIRE(openedJournal(path)->append(recorder.notes({"more"})));
    const auto* change = GENERATE("body = X'00'", "signature = zeroblob(64)", "previous_hash = zeroblob(32)");
    RawDatabase(path).runPastTriggers("UPDATE entries SET " + std::string(change) + " WHERE position = 3");
    const auto refused = backUp(*openedJournal(path), backups, noon + hour);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Errc::Corrupt);
    CHECK(listed(backups).size() == 1);
    CHECK_FALSE(std::filesystem::exists(backups + "/unfinished"));
}

TEST_CASE("a backup that the disk does not take leaves the older ones and nothing half-made")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const std::string backups = folder.file("backups");
    Recorder recorder(1);
    makeJournal(path, recorder.chainOf(3));
    REQUIRE(backUp(*openedJournal(path), backups, noon));
    REQUIRE(openedJournal(path)->append(recorder.notes({"more"})));
    FaultyDisk disk;
    int failures = 0;
    for (int n = 1; n < 200; ++n) {
        CAPTURE(n);
        const auto journal = openedJournal(path);
        disk.failFrom(n, SQLITE_FULL);
        const auto made = backUp(*journal, backups, noon + hour);
        disk.work();
        if (made) {
            break;
        }
        ++failures;
        CHECK(made.error().code == Errc::Io);
        CHECK(listed(backups).size() == 1);
        CHECK_FALSE(std::filesystem::exists(backups + "/unfinished"));
    }
    CHECK(failures > 2);
    CHECK(listed(backups).size() == 2);
}

TEST_CASE("of many backups those stay that are young, end a day, or hold the most")
{
    std::vector<Backup> all;
    for (int day = 28; day >= 1; --day) {
        for (int h = 9; h >= 0; --h) {
            const std::string at = std::string(day < 10 ? "2026060" : "202606") + std::to_string(day) + "T0"
                + std::to_string(h) + "0000Z";
            all.push_back({"b" + at, at, static_cast<ledger::Position>(day * 100 + h)});
        }
    }
    all.back().last = 9999;
    const std::vector<Backup> stay = store::kept(all);
    REQUIRE(stay.size() == 8 + 6 + 1);
    CHECK(std::vector(stay.begin(), stay.begin() + 8) == std::vector(all.begin(), all.begin() + 8));
    CHECK(stay[8].at == "20260627T090000Z");
    CHECK(stay[13].at == "20260622T090000Z");
    CHECK(stay.back() == all.back());
    CHECK(store::kept({}).empty());
}
