// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What becomes of a journal of 200 entries, cut at every length and with one bit turned in every byte, without and with
// a backup that lacks the last 40. `damage_table [STEP [FIRST [FILE]]]`: every STEPth byte only, from byte FIRST (0)
// on, so that several processes share the work. With FILE the counts stand there, a line for each row, and a run that
// was ended goes on from them. Exit 1 if anything is wrong.

#define CATCH_CONFIG_RUNNER
#include "store/outcome_rounds.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <malloc.h>
#include <sqlite3.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

using namespace loopside::test;

namespace {

constexpr std::size_t inLog = 5; // what is in the log takes 17 kB an entry
constexpr std::size_t keptEvery = 500;
constexpr std::size_t outcomeCount = static_cast<std::size_t>(Outcome::Wrong) + 1;

std::size_t step = 1;
std::size_t first = 0;
std::string countsFile;

/// One row of the table, as far as it was counted.
struct Row
{
    std::size_t next = 0; ///< The byte that is looked at next.
    std::array<std::size_t, outcomeCount> counts = {};
};

using Rows = std::array<Row, 8>;

std::string textOf(const Rows& rows)
{
    std::string text;
    for (const Row& row : rows) {
        text += std::to_string(row.next);
        for (const std::size_t count : row.counts) {
            text += " " + std::to_string(count);
        }
        text += "\n";
    }
    return text;
}

Rows rowsKept()
{
    Rows rows;
    std::ifstream file(countsFile);
    for (Row& row : rows) {
        row.next = first;
        if (file && file >> row.next) {
            for (std::size_t& count : row.counts) {
                file >> count;
            }
        }
    }
    return rows;
}

void keep(const Rows& rows)
{
    if (!countsFile.empty()) {
        std::ofstream(countsFile + ".new") << textOf(rows);
        std::filesystem::rename(countsFile + ".new", countsFile);
    }
}

void tell(const char* name, bool hasBackup, std::size_t bytes, const Row& row)
{
    std::printf("%s, %s a backup, %zu bytes:", name, hasBackup ? "with" : "without", bytes);
    for (std::size_t i = 0; i < outcomeCount; ++i) {
        if (row.counts[i] > 0) {
            std::printf("  %s %zu", nameOf(static_cast<Outcome>(i)).c_str(), row.counts[i]);
        }
    }
    std::printf("\n");
    std::fflush(stdout);
}

/// Goes on to the end of the row, and keeps now and then how far it came.
void count(const Sample& sample, Harm harm, Rows& rows, Row& row)
{
    for (std::size_t looked = 1; row.next < sample.bytes(harm); ++looked) {
        const Outcome outcome = sample.outcomeOf(harm, row.next);
        CAPTURE(static_cast<int>(harm), row.next);
        CHECK(outcome != Outcome::Wrong);
        ++row.counts[static_cast<std::size_t>(outcome)];
        row.next += step;
        if (looked % keptEvery == 0) {
            keep(rows);
        }
    }
    keep(rows);
}

} // namespace

TEST_CASE("the table")
{
    constexpr std::array harms = {std::pair("file cut", Harm::FileCut), std::pair("file turned", Harm::FileTurned),
                                  std::pair("log cut", Harm::LogCut), std::pair("log turned", Harm::LogTurned)};
    Rows rows = rowsKept();
    std::size_t number = 0;
    for (const bool hasBackup : {false, true}) {
        const Sample sample(200, hasBackup, inLog);
        for (const auto& [name, harm] : harms) {
            Row& row = rows[number++];
            count(sample, harm, rows, row);
            tell(name, hasBackup, sample.bytes(harm), row);
            CHECK(row.counts.back() == 0); // of earlier runs too
        }
    }
}

int main(int argc, char** argv)
{
    step = argc > 1 ? static_cast<std::size_t>(std::max(std::atoi(argv[1]), 1)) : 1;
    first = argc > 2 ? static_cast<std::size_t>(std::max(std::atoi(argv[2]), 0)) : 0;
    countsFile = argc > 3 ? argv[3] : "";
    // Nothing here runs on two threads, and what is given back is wanted again at once.
    sqlite3_config(SQLITE_CONFIG_SINGLETHREAD);
    sqlite3_config(SQLITE_CONFIG_MEMSTATUS, 0);
    mallopt(M_MMAP_THRESHOLD, 1 << 26);
    mallopt(M_TRIM_THRESHOLD, 1 << 28);
    return Catch::Session().run() == 0 ? 0 : 1;
}
