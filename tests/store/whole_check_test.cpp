// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/whole_check.h"

#include "ledger/body.h"
#include "ledger/some_setup.h"
#include "store/files.h"
#include "store/raw_database.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;
using store::verifyWhole;

TEST_CASE("the whole check passes a journal as it was written, and tells of each kind of change")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    makeJournal(path, recorder.chainOf(600)); // several pieces
    const auto whole = verifyWhole(path);
    REQUIRE(whole);
    CHECK(whole->entries == 601);
    CHECK(whole->faults.empty());

    const auto [change,
                told] = GENERATE(table<std::string, std::string>({{"body = X'00'", "was changed"},
                                                                  {"signature = zeroblob(64)", "is not signed"},
                                                                  {"previous_hash = zeroblob(32)", "was changed"}}));
    RawDatabase(path).runPastTriggers("UPDATE entries SET " + change + " WHERE position = 500");
    const auto found = verifyWhole(path);
    REQUIRE(found);
    REQUIRE_FALSE(found->faults.empty());
    CHECK(found->faults.front().position == 500);
    CHECK_THAT(found->faults.front().sentence, Catch::Contains(told));
}

TEST_CASE("a journal that is held still shows what it held, whatever is logged meanwhile")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    makeJournal(path, recorder.chainOf(3));
    const auto still = openedJournal(path);
    REQUIRE(still->holdStill());
    const auto writer = openedJournal(path);
    REQUIRE(writer->append(recorder.notes({"meanwhile"})));
    CHECK(still->last().value() == 4);
    CHECK(allOf(*still).size() == 4);
    CHECK(writer->last().value() == 5);
    CHECK_FALSE(still->append(recorder.notes({"by the one that is still"})));
    CHECK(verifyWhole(path).value().entries == 5);
}

TEST_CASE("a file that no entry points to is told by the whole check, and is no fault")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(3));
    auto attachments = store::AttachmentFolder::besideJournal(path);
    const auto orphan = attachments.keep("a picture", {});
    REQUIRE(orphan);
    const auto found = verifyWhole(path);
    REQUIRE(found);
    CHECK(found->faults.empty());
    CHECK(found->attachments.orphans == std::vector<std::string>{*orphan});
}

TEST_CASE("a whole check can be ended, and tells how far it came")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(600));
    store::CheckWatch watch;
    REQUIRE(verifyWhole(path, watch));
    CHECK(watch.entries == 601);
    CHECK(watch.looked == 601);
    watch.looked = 0;
    watch.isToEnd = true;
    const auto ended = verifyWhole(path, watch);
    REQUIRE_FALSE(ended);
    CHECK(ended.error().code == Errc::Unavailable);
    CHECK(watch.looked < 601);
}

TEST_CASE("a journal that is not there is not made by a check")
{
    const TempFolder folder;
    const auto found = verifyWhole(folder.file("journal.db"));
    REQUIRE_FALSE(found);
    CHECK(found.error().code == Errc::NotFound);
    CHECK_FALSE(std::filesystem::exists(folder.file("journal.db")));
}

TEST_CASE("a picture that is gone is a fault of the whole check")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    makeJournal(path, recorder.open());
    auto attachments = store::AttachmentFolder::besideJournal(path);
    const auto kept = attachments.keep("a picture", {});
    REQUIRE(kept);
    const Id run = Recorder::idOf(0xA0, 2);
    const run::AttachmentAdded added{run::AttachmentKind::Photo, {}, *kept, 9, "image/jpeg", {}};
    const auto entries = recorder.seal(
        {{"run-opened", ledger::bodyOf(run::Event(run::RunOpened{fullSetup()})), run, {}, {}},
         {"attachment-added", ledger::bodyOf(run::Event(added)), run, {}, {}}});
    REQUIRE(openedJournal(path)->append(entries));
    CHECK(verifyWhole(path).value().faults.empty());
    CHECK(verifyWhole(path).value().attachments.whole == 1);
    REQUIRE(attachments.remove(*kept));
    const auto found = verifyWhole(path);
    REQUIRE(found);
    REQUIRE(found->faults.size() == 1);
    CHECK_THAT(found->faults.front().sentence, Catch::Contains(*kept));
}
