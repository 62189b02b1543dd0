// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/files.h"
#include "store/outcome_rounds.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

using namespace loopside::test;

TEST_CASE("whatever byte of a journal is turned and wherever it is cut, no entry changes and none goes without a word")
{
    const bool hasBackup = GENERATE(false, true);
    CAPTURE(hasBackup);
    const Sample sample(60, hasBackup);
    const auto fileTurned = outcomesOf(sample, Harm::FileTurned, 997);
    CHECK(fileTurned.size() > 1);
    CHECK(!fileTurned.contains(Outcome::TornTold));
    const auto fileCut = outcomesOf(sample, Harm::FileCut, 2999);
    CHECK(!fileCut.contains(Outcome::TornTold));
    const auto logTurned = outcomesOf(sample, Harm::LogTurned, 9'973);
    CHECK(logTurned.contains(Outcome::RecoveredWhole));
    const auto logCut = outcomesOf(sample, Harm::LogCut, 9'973);
    CHECK(!logCut.contains(Outcome::TornTold)); // what is cut off had been acknowledged
    CHECK(!logCut.contains(Outcome::EndGone));
}

TEST_CASE("a torn write is told from acknowledged ones by what follows it and by the witness of the end")
{
    const Sample sample(41, false);
    const std::size_t last = sample.bytes(Harm::LogTurned) - 1;
    CHECK(sample.outcomeOf(Harm::LogTurned, 2000) == Outcome::RecoveredWhole);
    CHECK(sample.outcomeOf(Harm::LogTurned, 20) == Outcome::RecoveredWhole);   // its header: SQLite drops all of it
    CHECK(sample.outcomeOf(Harm::LogTurned, last) == Outcome::RecoveredWhole); // acknowledged, and SQLite drops it
    CHECK(sample.outcomeOf(Harm::LogCut, 0) == Outcome::RecoveredLoss);
    const Sample blind = sample.withoutWitness();
    CHECK(blind.outcomeOf(Harm::LogTurned, 2000) == Outcome::RecoveredWhole);
    CHECK(blind.outcomeOf(Harm::LogTurned, last) == Outcome::TornTold);
    CHECK(blind.outcomeOf(Harm::LogCut, last - 3000) == Outcome::TornTold);
    CHECK(blind.outcomeOf(Harm::LogCut, 0) == Outcome::EndGone);
}

TEST_CASE("an entry gone without a word, altered or invented is judged to be wrong")
{
    const Sample sample(45, false);
    std::vector<loopside::ledger::Entry> entries = sample.entries();
    const TempFolder folder;
    const std::string path = folder.file("journal.db");
    const auto judged = [&] {
        makeJournal(path, entries);
        return sample.judge(path, {}, sample.bytes(Harm::LogCut));
    };

    SECTION("all there")
    {
        CHECK(judged() == Outcome::Whole);
    }
    SECTION("the last one gone")
    {
        entries.pop_back();
        CHECK(judged() == Outcome::Wrong);
    }
    SECTION("others in their place, each signed as it should be")
    {
        Recorder recorder(1);
        entries = recorder.open();
        for (std::size_t i = 1; i < sample.entries().size(); ++i) {
            entries.push_back(recorder.notes({"note " + std::to_string(i == 20 ? 21 : i)}).front());
        }
        CHECK(judged() == Outcome::Wrong);
    }
    SECTION("one more")
    {
        Recorder recorder(1);
        entries = recorder.chainOf(45);
        CHECK(judged() == Outcome::Wrong);
    }
    SECTION("some gone in the middle, told long ago")
    {
        entries.erase(entries.begin() + 10, entries.begin() + 12);
        REQUIRE(loopside::store::SqliteJournal::make(path, entries, {0, 0, "planted", {{entries[0].chain, 10, 13}}}));
        CHECK(sample.judge(path, {}, sample.bytes(Harm::LogCut)) == Outcome::Wrong); // not at this start
    }
    SECTION("damage told, and the file not kept as it was")
    {
        const bool isKept = GENERATE(true, false);
        makeJournal(path, entries);
        std::string file = contentOf(path);
        file.replace(file.rfind("note 7"), 6, "note 8");
        write(path, file);
        CHECK(sample.judge(path, isKept ? file : "another", sample.bytes(Harm::LogCut))
              == (isKept ? Outcome::RecoveredLoss : Outcome::Wrong));
    }
}

TEST_CASE("of the entries that are there it is known which are missing between them")
{
    const auto entries = Recorder(1).chainOf(9);
    auto there = entries;
    there.erase(there.begin() + 8, there.end());
    there.erase(there.begin() + 3, there.begin() + 5);
    auto stored = inOrder(there);
    const auto found = compared(stored, entries);
    CHECK(found.isSound);
    CHECK(found.missing == 4);
    CHECK(found.gaps == std::vector<loopside::ledger::Loss>{{entries[0].chain, 3, 6}});
    std::swap(stored[1].entry, stored[2].entry);
    CHECK_FALSE(compared(stored, entries).isSound);
}
