// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What past runs are worth, on open bench data. The data is not part of the project; where it is not there nothing is
// checked, and the test says so. The bounds are a little looser than what was measured: docs/learning.md.

#include "bench_learned.h"
#include "scores.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <iostream>
#include <optional>

using namespace loopside::evaluation;

namespace {

std::optional<std::vector<BenchRun>> dustRuns()
{
    const char* folder = std::getenv("LOOPSIDE_DATA");
    const std::filesystem::path data = folder != nullptr ? folder
                                                         : std::string(LOOPSIDE_SOURCE_DIR) + "/../shared/data";
    auto runs = readRuns(data / "hse" / "runs.csv");
    if (!runs) {
        const std::string message =
            "skipped: the filter bench data is missing; NOTHING WAS CHECKED. Set LOOPSIDE_DATA to its folder.";
        std::cout << message << std::endl;
        WARN(message);
        return std::nullopt;
    }
    return *std::move(runs);
}

} // namespace

TEST_CASE("on a dust bench the forecast and the band of the next life get better with runs behind them")
{
    const auto runs = dustRuns();
    if (!runs) {
        return;
    }
    const BenchScores none = benchLearned(*runs, 0, true);
    const BenchScores one = benchLearned(*runs, 1, true);
    const BenchScores twenty = benchLearned(*runs, 20, true);
    CHECK(none.lifeErrors.empty());
    CHECK(median(one.errors.at(0.5)) < median(none.errors.at(0.5)));
    CHECK(median(twenty.errors.at(0.5)) < median(one.errors.at(0.5)));
    CHECK(median(twenty.lifeErrors) <= median(one.lifeErrors));
    CHECK(median(twenty.lifeWidths) < median(one.lifeWidths));
    CHECK(none.cleanErrors.empty());
    CHECK(median(twenty.cleanErrors) < median(one.cleanErrors));
    const auto covered = std::count(twenty.lifeCovered.begin(), twenty.lifeCovered.end(), true);
    CHECK(static_cast<double>(covered) >= 0.85 * static_cast<double>(twenty.lifeCovered.size()));
}
