// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What makes and renames files, with each call of the system failing, and with the power gone at each.

#include "store/file_calls.h"

#include "store/backup.h"
#include "store/durable_file.h"
#include "store/files.h"
#include "store/keeping.h"
#include "store/key_file.h"
#include "store/raw_database.h"
#include "store/temp_folder.h"

#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <optional>

using namespace loopside;
using namespace loopside::test;

namespace {

constexpr std::int64_t noon = 1'783'857'600'000; // 2026-07-12T12:00:00Z
constexpr int callsMost = 200;

/// Does `work` with the first call failing, with the second, and so on, each in a folder that `before` makes, until
/// none is left to fail; then with all from there on. `after` is told what came of it and whether all failed, with the
/// calls working again.
template<class Work, class After>
void withEachCallFailing(const std::function<void(const TempFolder&)>& before, Work work, After after)
{
    for (const bool isForGood : {false, true}) {
        bool isReached = true;
        for (int n = 1; isReached; ++n) {
            REQUIRE(n < callsMost);
            INFO("call " << n << (isForGood ? " and all behind it fail" : " fails"));
            const TempFolder folder;
            before(folder);
            FileCalls calls;
            isForGood ? calls.failFrom(n, ENOSPC) : calls.failAt(n, EIO);
            auto came = work(folder);
            isReached = calls.isReached();
            const auto atRisk = came ? calls.atRisk() : std::set<std::string>();
            calls.work();
            CHECK(atRisk.empty());
            CHECK((came || isReached));
            after(folder, came, isForGood);
        }
    }
}

/// Does `work` with the power gone at the first call, at the second, and so on until it is through.
template<class Work>
void withEachCut(const std::function<void(const TempFolder&)>& before, Work work,
                 const std::function<void(const TempFolder&)>& after)
{
    bool isCut = true;
    for (int n = 1; isCut; ++n) {
        REQUIRE(n < callsMost);
        INFO("the power goes at call " << n);
        const TempFolder folder;
        before(folder);
        isCut = cutAt(n, [&] { return work(folder).has_value(); });
        after(folder);
    }
}

void nothing(const TempFolder&) {}

/// A journal with a spoilt entry, its youngest entries in the log alone, and a backup without those.
void makeSpoilt(const TempFolder& folder)
{
    const std::string path = folder.file("journal.db");
    auto entries = Recorder(1).chainOf(9);
    const auto late = std::span(entries).subspan(6);
    {
        const auto journal = openedJournal(path);
        REQUIRE(journal->append(std::span(entries).first(6)));
        REQUIRE(store::backUp(*journal, folder.file("backups"), noon - 1000));
    }
    RawDatabase(path).runPastTriggers("UPDATE entries SET body = X'00' WHERE position = 4");
    const auto journal = openedJournal(path);
    journal->leaveAsItIs();
    REQUIRE(journal->append(late));
}

std::string stateOf(const TempFolder& folder)
{
    return contentOf(folder.file("journal.db")) + "|" + contentOf(folder.file("journal.db-wal"));
}

Result<store::Opened> start(const TempFolder& folder)
{
    return store::openOrRecover(folder.file("journal.db"), folder.file("backups"), noon);
}

/// Nothing is missing, whatever became of the starts before, and the spoilt file is kept.
void startsWhole(const TempFolder& folder)
{
    const auto started = start(folder);
    INFO((started ? std::string() : started.error().sentence));
    REQUIRE(started);
    CHECK(allOf(*started->journal) == inOrder(Recorder(1).chainOf(9)));
    CHECK(RawDatabase(folder.file("journal.db.damaged.1")).text("SELECT hex(body) FROM entries WHERE position = 4")
          == "00");
    CHECK_FALSE(std::filesystem::exists(folder.file("journal.db.restored")));
}

} // namespace

TEST_CASE("planted: a name without its folder on disk, and a name before its content, are found")
{
    const TempFolder folder;
    FileCalls calls;
    REQUIRE(store::writePrivateFile(folder.file("a"), "whole")); // promises no name
    CHECK(calls.atRisk() == std::set{folder.file("a")});
    REQUIRE(::rename(folder.file("a").c_str(), folder.file("b").c_str()) == 0);
    CHECK(calls.atRisk() == std::set{folder.file("b")});
    REQUIRE(store::replacePrivateFile(folder.file("c"), "whole")); // syncs the folder for both
    CHECK(calls.atRisk().empty());
    store::Disk& disk = store::systemDisk();
    REQUIRE(disk.write(folder.file("d"), "not synced"));
    REQUIRE(disk.rename(folder.file("d"), folder.file("e")));
    REQUIRE(disk.sync(folder.file("e")));
    REQUIRE(disk.syncFolder(folder.path().string()));
    CHECK(calls.atRisk() == std::set{folder.file("e")});
}

TEST_CASE("planted: content that was not synced is spoilt by a cut")
{
    const TempFolder folder;
    const std::string path = folder.file("a");
    CHECK(cutAt(4, [&] { // made, written, renamed
        store::Disk& disk = store::systemDisk();
        return disk.write(path + ".new", "content").has_value() && disk.rename(path + ".new", path).has_value()
            && disk.sync(path).has_value();
    }));
    CHECK_FALSE(contentOf(path + ".new") == "content");
    CHECK_FALSE(contentOf(path) == "content");
}

TEST_CASE("a file that is replaced is the one before or the new one, whichever call fails")
{
    const auto before = [](const TempFolder& folder) { write(folder.file("site.json"), "one"); };
    const auto replace = [](const TempFolder& folder) {
        return store::replacePrivateFile(folder.file("site.json"), "the second");
    };
    withEachCallFailing(before, replace, [&](const TempFolder& folder, const Done& came, bool) {
        const std::string content = contentOf(folder.file("site.json"));
        CHECK((content == "the second" || (content == "one" && !came)));
        REQUIRE(replace(folder));
        CHECK(contentOf(folder.file("site.json")) == "the second");
        CHECK_FALSE(std::filesystem::exists(folder.file("site.json.new")));
    });
    withEachCut(before, replace, [&](const TempFolder& folder) {
        const std::string content = contentOf(folder.file("site.json"));
        CHECK((content == "the second" || content == "one"));
        REQUIRE(replace(folder));
    });
}

TEST_CASE("a key is made whole or not at all, whichever call fails")
{
    const auto load = [](const TempFolder& folder) { return store::loadOrCreateKey(folder.file("device.key")); };
    withEachCallFailing(nothing, load, [&](const TempFolder& folder, const Result<ledger::DeviceKey>& came, bool) {
        const auto again = load(folder);
        REQUIRE(again);
        CHECK((!came || came->publicKey() == again->publicKey()));
        CHECK_FALSE(std::filesystem::exists(folder.file("device.key.new.new")));
    });
    withEachCut(nothing, load, [&](const TempFolder& folder) { CHECK(load(folder)); });
}

TEST_CASE("a key that is replaced is the old one, or the new one with the old one kept, whichever call fails")
{
    const auto before = [](const TempFolder& folder) {
        REQUIRE(store::loadOrCreateKey(folder.file("device.key")));
        std::filesystem::copy(folder.file("device.key"), folder.file("copy"));
    };
    const auto replace = [](const TempFolder& folder) { return store::replaceKey(folder.file("device.key")); };
    const auto isOldInPlace = [](const TempFolder& folder) {
        REQUIRE(store::loadOrCreateKey(folder.file("device.key"))); // never none, never half of one
        return contentOf(folder.file("device.key")) == contentOf(folder.file("copy"));
    };
    withEachCallFailing(before, replace, [&](const TempFolder& folder, const Result<std::string>& came, bool) {
        const bool isOld = isOldInPlace(folder);
        CHECK_FALSE((came && isOld));
        CHECK((isOld || contentOf(folder.file("device.key.old.1")) == contentOf(folder.file("copy"))));
    });
    withEachCut(before, replace, [&](const TempFolder& folder) {
        CHECK((isOldInPlace(folder) || contentOf(folder.file("device.key.old.1")) == contentOf(folder.file("copy"))));
        REQUIRE(replace(folder)); // nothing that was left stands in the way
    });
}

TEST_CASE("a new journal is whole or not there, whichever call fails")
{
    const auto open = [](const TempFolder& folder) { return store::SqliteJournal::open(folder.file("journal.db")); };
    const auto works = [&](const TempFolder& folder) {
        const auto journal = open(folder);
        INFO((journal ? std::string() : journal.error().sentence));
        REQUIRE(journal);
        CHECK((*journal)->append(Recorder(1).chainOf(2)));
    };
    withEachCallFailing(nothing, open, [&](const TempFolder& folder, auto& came, bool) {
        if (came) {
            came->reset();
        }
        works(folder);
    });
    withEachCut(nothing, open, works);
}

TEST_CASE("a start that puts a spoilt journal together loses nothing, whichever call fails")
{
    withEachCallFailing(makeSpoilt, start, [](const TempFolder& folder, auto& came, bool) {
        if (came) {
            came->journal.reset();
        }
        startsWhole(folder);
    });
}

TEST_CASE("a start that puts a spoilt journal together loses nothing, wherever the power goes")
{
    withEachCut(makeSpoilt, start, startsWhole);
}

TEST_CASE("a restore by hand that fails leaves file and log as they were, whichever call fails")
{
    std::string before;
    const auto restore = [&](const TempFolder& folder) {
        before = stateOf(folder);
        return store::restoreByHand(folder.file("journal.db"), {{}, folder.file("backups")}, noon);
    };
    withEachCallFailing(makeSpoilt, restore, [&](const TempFolder& folder, const auto& came, bool isDiskGone) {
        CHECK((came || isDiskGone || stateOf(folder) == before));
        startsWhole(folder);
    });
}

TEST_CASE("a backup counts whole or not, and costs no other, whichever call fails")
{
    const auto before = [](const TempFolder& folder) {
        makeJournal(folder.file("journal.db"), Recorder(1).chainOf(3));
        REQUIRE(store::backUp(*openedJournal(folder.file("journal.db")), folder.file("backups"), noon - 1000));
        REQUIRE(openedJournal(folder.file("journal.db"))->append(Recorder(2).chainOf(1)));
    };
    const auto backUp = [](const TempFolder& folder) {
        return store::backUp(*openedJournal(folder.file("journal.db")), folder.file("backups"), noon);
    };
    const auto isSound = [](const TempFolder& folder) {
        const auto backups = store::backupsIn(folder.file("backups"));
        REQUIRE(backups);
        CHECK((backups->size() == 1 || backups->size() == 2));
        for (const store::Backup& backup : *backups) {
            CHECK(allOf(*openedJournal(backup.path)).size() == backup.last);
        }
        return backups->size() == 2;
    };
    withEachCallFailing(before, backUp, [&](const TempFolder& folder, const auto& came, bool) {
        const bool isMade = isSound(folder);
        CHECK((isMade || !came));
    });
    withEachCut(before, backUp, [&](const TempFolder& folder) { isSound(folder); });
}
