// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What becomes of a journal of 200 entries, cut at every length and with one bit turned in every byte, without and with
// a backup that lacks the last 40. `damage_table [STEP [FIRST]]`: every STEPth byte only, from byte FIRST (0) on, so
// that several processes share the work. Exit 1 if anything is wrong.

#define CATCH_CONFIG_RUNNER
#include "store/outcome_rounds.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>

#include <cstdio>
#include <cstdlib>

using namespace loopside::test;

namespace {

constexpr std::size_t inLog = 5; // what is in the log takes 17 kB an entry

std::size_t step = 1;
std::size_t first = 0;
bool isWrong = false;

} // namespace

TEST_CASE("the table")
{
    constexpr std::array harms = {std::pair("file cut", Harm::FileCut), std::pair("file turned", Harm::FileTurned),
                                  std::pair("log cut", Harm::LogCut), std::pair("log turned", Harm::LogTurned)};
    for (const bool hasBackup : {false, true}) {
        const Sample sample(200, hasBackup, inLog);
        for (const auto& [name, harm] : harms) {
            std::printf("%s, %s a backup, %zu bytes:", name, hasBackup ? "with" : "without", sample.bytes(harm));
            for (const auto& [outcome, count] : outcomesOf(sample, harm, step, first)) {
                std::printf("  %s %zu", nameOf(outcome).c_str(), count);
                isWrong = isWrong || outcome == Outcome::Wrong;
            }
            std::printf("\n");
            std::fflush(stdout);
        }
    }
}

int main(int argc, char** argv)
{
    step = argc > 1 ? static_cast<std::size_t>(std::max(std::atoi(argv[1]), 1)) : 1;
    first = argc > 2 ? static_cast<std::size_t>(std::max(std::atoi(argv[2]), 0)) : 0;
    const int failed = Catch::Session().run();
    return isWrong || failed != 0 ? 1 : 0;
}
