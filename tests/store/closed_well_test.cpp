// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A journal that was closed well, all of it in its file and no log beside it: whatever bit of its first page is turned,
// the next start opens it.

#include "ledger/verify.h"
#include "store/files.h"
#include "store/raw_database.h"
#include "store/recovery.h"
#include "store/temp_folder.h"
#include "store/whole_check.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

constexpr std::size_t headerBytes = 100;
constexpr std::size_t pageBytes = 4096;
/// Where the header keeps the number of the layout: what says that a newer version wrote the file is believed.
constexpr std::size_t numberAt = 60;
constexpr std::size_t numberBytes = 4;

/// A journal that was closed well, to be spoilt again and again.
class ClosedWell
{
public:
    ClosedWell()
    {
        makeJournal(folder_.file("journal.db"), entries_);
        file_ = contentOf(folder_.file("journal.db"));
        end_ = contentOf(folder_.file("journal.db.end"));
    }

    /// What is wrong with the start of the journal whose byte `at` has the bit `bit` turned; empty: nothing.
    [[nodiscard]] std::string faultWith(std::size_t at, unsigned bit) const
    {
        std::string file = file_;
        file[at] = static_cast<char>(static_cast<unsigned char>(file[at]) ^ (1U << bit));
        const TempFolder folder;
        const std::string path = folder.file("journal.db");
        write(path, file);
        write(path + ".end", end_);
        const auto opened = store::openOrRecover(path, "", 0);
        if (!opened) {
            const bool isNewer = opened.error().code == Errc::Incompatible && at >= numberAt
                && at < numberAt + numberBytes && contentOf(path) == file;
            return isNewer ? std::string() : opened.error().sentence;
        }
        if (allOf(*opened->journal) != inOrder(entries_)) {
            return "not all is there";
        }
        return opened->recovered && contentOf(opened->recovered->keptAs) != file ? "it was not kept" : "";
    }

    [[nodiscard]] std::size_t bytes() const { return file_.size(); }

private:
    std::vector<ledger::Entry> entries_ = Recorder(1).chainOf(40);
    TempFolder folder_;
    std::string file_;
    std::string end_;
};

} // namespace

TEST_CASE("a journal that was closed well starts, all of it, whatever bit of its header is turned")
{
    const ClosedWell journal;
    for (std::size_t at = 0; at < headerBytes; ++at) {
        for (unsigned bit = 0; bit < 8; ++bit) {
            CAPTURE(at, bit);
            CHECK(journal.faultWith(at, bit).empty());
        }
    }
}

TEST_CASE("a journal that was closed well starts, all of it, whatever is turned in the text of its layout")
{
    const ClosedWell journal;
    for (std::size_t at = headerBytes; at < pageBytes; at += 7) {
        CAPTURE(at);
        CHECK(journal.faultWith(at, static_cast<unsigned>(at % 8)).empty());
    }
}

TEST_CASE("a trigger, an index or a rule of a table that is not as it was made is found by start and whole check")
{
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    makeJournal(path, Recorder(1).chainOf(5));
    const auto [change, told] = GENERATE(table<std::string, std::string>(
        {{"DROP TRIGGER entries_keep", "the trigger entries_keep is not there"},
         {"DROP INDEX lasting_entries", "the index lasting_entries is not there"},
         {"CREATE TABLE songs (title TEXT)", "the table songs does not belong there"},
         {"PRAGMA user_version = 2", "the index lasting_entries does not belong there"},
         {"DROP TRIGGER entries_stay; CREATE TRIGGER entries_stay BEFORE DELETE ON entries BEGIN SELECT 1; END",
          "the trigger entries_stay is not as it was made"}}));
    RawDatabase(path).run(change);
    const auto verified = store::verifyWhole(path);
    REQUIRE_FALSE(verified);
    CHECK(verified.error().code == Errc::Corrupt);
    CHECK_THAT(verified.error().sentence, Catch::Contains(told));
    const auto opened = store::openOrRecover(path, "", 0);
    REQUIRE((opened && opened->recovered));
    CHECK_THAT(opened->recovered->why, Catch::Contains(told));
    CHECK(opened->recovered->missing() == 0);
    CHECK(allOf(*opened->journal).size() == 6);
}
