// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/restore_reason.h"

#include "store/backup.h"
#include "store/files.h"
#include "store/keeping.h"
#include "store/raw_database.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <filesystem>

using namespace loopside;
using namespace loopside::test;
using store::restoreReason;

namespace {

constexpr std::int64_t noon = 1'783'857'600'000; // 2026-07-12T12:00:00Z

words::Words in(std::string_view language)
{
    return words::Words::in(language).value();
}

/// A journal of ten entries, spoilt by `spoil`, as the next start tells of it.
store::Recovered recoveredAfter(const std::function<void(const TempFolder&)>& spoil)
{
    const TempFolder folder;
    makeJournal(folder.file("journal.db"), Recorder(1).chainOf(9));
    REQUIRE(store::backUp(*openedJournal(folder.file("journal.db")), folder.file("backups"), noon));
    spoil(folder);
    const auto opened = store::openOrRecover(folder.file("journal.db"), folder.file("backups"), noon);
    REQUIRE((opened && opened->recovered));
    return *opened->recovered;
}

void takeAway(const TempFolder& folder)
{
    std::filesystem::remove(folder.file("journal.db"));
}

/// Puts one in its place that lacks the last entries.
void cutShort(const TempFolder& folder)
{
    takeAway(folder);
    std::filesystem::remove(folder.file("journal.db.end"));
    makeJournal(folder.file("journal.db"), Recorder(1).chainOf(3));
}

} // namespace

TEST_CASE("what a start finds is told in the language of the tablet")
{
    const std::string gone = recoveredAfter(takeAway).why;
    CHECK(restoreReason(in("en"), gone) == "its file is gone");
    CHECK(restoreReason(in("es"), gone) == "falta su archivo");
    CHECK(restoreReason(in("de"), gone) == "seine Datei fehlt");
    const std::string backup = recoveredAfter(cutShort).why;
    CHECK(restoreReason(in("en"), backup) == backup);
    CHECK(restoreReason(in("de"), backup) == "es endet mit Eintrag 4, aber die Sicherung von 20260712T120000Z hat 10");
}

TEST_CASE("each sentence that a journal keeps as the reason is known in each language")
{
    const std::string why = GENERATE("its log is spoilt in the middle", "restored by a person",
                                     "imported from /media/stick/a.jsonl",
                                     "it ends at entry 5, but entry 7 had been logged, and is not there",
                                     "its file is gone; 12 entries at its end are gone");
    INFO(why);
    CHECK(restoreReason(in("en"), why) == why);
    for (const std::string_view language : {"es", "de"}) {
        const std::string told = restoreReason(in(language), why);
        CHECK(told != why);
        CHECK_THAT(told, !Catch::Contains(" entry ") && !Catch::Contains("{") && !Catch::Contains("["));
    }
    CHECK_THAT(restoreReason(in("de"), "imported from /media/stick/a.jsonl"), Catch::Contains("/media/stick/a.jsonl"));
}

TEST_CASE("any other damage is told as damage, with what was found")
{
    const std::string found = "position 4: the entry was changed";
    CHECK(restoreReason(in("en"), found) == "damage was found (" + found + ")");
    CHECK(restoreReason(in("de"), found) == "ein Schaden wurde gefunden (" + found + ")");
    CHECK(restoreReason(in("es"), "") == "se encontraron daños ()");
    // What begins like a known one and goes on otherwise is none.
    CHECK_THAT(restoreReason(in("de"), "its file is gone away"), Catch::Contains("its file is gone away"));
}

TEST_CASE("the notice of a start tells its reason in words, and other messages stay as they are")
{
    const Message notice{"store-recovered", {{"reason", "its file is gone"}, {"path", "a"}}};
    const Message told = store::withReasonTold(in("de"), notice);
    CHECK(told == Message{"store-recovered", {{"reason", "seine Datei fehlt"}, {"path", "a"}}});
    const Message other{"store-disk-failed", {{"reason", "its file is gone"}}};
    CHECK(store::withReasonTold(in("de"), other) == other);
}

TEST_CASE("why a backup or a restore failed is told in the language of the tablet, and not as if somebody had logged")
{
    const TempFolder folder;
    const auto failed = store::restoreByHand(folder.file("journal.db"), {}, noon);
    REQUIRE_FALSE(failed);
    CHECK_THAT(store::keepFailure(in("de"), failed.error()), Catch::Contains("ist kein Eintrag lesbar"));
    CHECK_THAT(store::keepFailure(in("es"), failed.error()), Catch::Contains("ninguna entrada"));
    const Error full{Errc::Io, "the disk is full: a was not written", {"store-disk-full", {{"path", "a"}}}};
    CHECK(store::keepFailure(in("en"), full) == "the disk is full; make room and try again");
    CHECK(store::keepFailure(in("de"), {Errc::Io, "something else", {}}) == "something else");
}
