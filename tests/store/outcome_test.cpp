// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

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
