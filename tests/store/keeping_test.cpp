// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/keeping.h"

#include "store/backup.h"
#include "store/files.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;
using store::AttachmentFolder;

namespace {

constexpr std::int64_t noon = 1'783'857'600'000; // 2026-07-12T12:00:00Z

/// Overwrites the page in the middle of the file.
void spoilMiddle(const std::string& path)
{
    constexpr std::size_t pageBytes = 4096;
    std::string content = contentOf(path);
    content.replace(content.size() / pageBytes / 2 * pageBytes, pageBytes, std::string(pageBytes, '\x5a'));
    write(path, content);
}

} // namespace

TEST_CASE("a restore by hand puts file and backups together, keeps the file, and brings attachments back")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    Recorder recorder(1);
    makeJournal(path, recorder.chainOf(200));
    REQUIRE(store::backUp(*openedJournal(path), folder.file("backups"), noon - 1000));
    const auto picture = AttachmentFolder::inBackups(folder.file("backups")).keep("a picture", {});
    REQUIRE(openedJournal(path)->append(recorder.notes({"behind the backup"})));
    spoilMiddle(path);
    const std::string spoilt = contentOf(path);

    const auto restored = store::restoreByHand(path, {{}, folder.file("backups")}, noon);
    REQUIRE(restored);
    CHECK(restored->recovered.entries == 202);
    CHECK(restored->recovered.fromBackups > 0);
    CHECK(restored->recovered.missing() == 0);
    CHECK(contentOf(restored->recovered.keptAs) == spoilt);
    CHECK(restored->attachments.value() == 1);
    CHECK(AttachmentFolder::besideJournal(path).read(*picture).value() == "a picture");
    const auto journal = openedJournal(path);
    CHECK(allOf(*journal).back().entry.body == "behind the backup");
    CHECK(journal->restores().value().back().why == "restored by a person");
}

TEST_CASE("a restore by hand that cannot read the backups changes nothing")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(20));
    write(folder.file("backups"), "a file where a folder should be");
    const std::string before = contentOf(path);
    const auto restored = store::restoreByHand(path, {{}, folder.file("backups")}, noon);
    REQUIRE_FALSE(restored);
    CHECK(restored.error().code == Errc::Io);
    CHECK(contentOf(path) == before);
    CHECK_FALSE(std::filesystem::exists(path + ".damaged.1"));
}
