// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The forecast on open bench data. The data is not part of the project; where it is not there nothing is checked, and
// the test says so. The figures held here are a little looser than those measured, so that it fails when the forecast
// gets worse; forecast_eval prints the whole table.

#include "protocols.h"
#include "scores.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <iostream>
#include <optional>

using namespace loopside::evaluation;

namespace {

std::optional<std::vector<BenchRun>> benchRuns(const char* name)
{
    const char* folder = std::getenv("LOOPSIDE_DATA");
    const std::filesystem::path data = folder != nullptr ? folder
                                                         : std::string(LOOPSIDE_SOURCE_DIR) + "/../shared/data";
    auto runs = readRuns(data / name / "runs.csv");
    if (!runs) {
        const std::string message =
            "skipped: the filter bench data is missing; NOTHING WAS CHECKED. Set LOOPSIDE_DATA to its folder.";
        std::cout << message << std::endl;
        WARN(message);
        return std::nullopt;
    }
    return *std::move(runs);
}

double ours(const Table& table, double share)
{
    return median(table.at(share).errors.at("ours"));
}

double exponentials(const Table& table, double share)
{
    return median(table.at(share).errors.at("exponential, last 8"));
}

} // namespace

TEST_CASE("on a dust bench a coarse handful of readings tells the end within a few hundredths")
{
    const auto runs = benchRuns("hse");
    if (!runs) {
        return;
    }
    const Table table = sparse(*runs, seededSplits(*runs), false);
    CHECK(ours(table, 0.5) < 3.3);
    CHECK(ours(table, 0.7) < 2.3);
    CHECK(ours(table, 0.9) < 1.5);
    for (const auto& [share, found] : table) {
        std::vector<bool> inside;
        for (const auto& [group, here] : found.covered.at(0.8)) {
            inside.insert(inside.end(), here.begin(), here.end());
        }
        const auto covered = static_cast<double>(std::count(inside.begin(), inside.end(), true));
        const Band band = binomialBand(static_cast<int>(found.runs), 0.8);
        CAPTURE(share);
        CHECK(covered / static_cast<double>(inside.size()) >= band.low);
        CHECK(covered / static_cast<double>(inside.size()) <= band.high);
    }
}

TEST_CASE("without any history the forecast is early, and no worse than the exponential")
{
    const auto dust = benchRuns("hse");
    const auto liquids = benchRuns("phme20");
    if (!dust || !liquids) {
        return;
    }
    for (const Table& table : {sparseWithoutHistory(*dust), liquid(*liquids, LiquidHistory::Nothing)}) {
        for (const auto& [share, found] : table) {
            CAPTURE(share);
            CHECK(ours(table, share) <= exponentials(table, share));
            CHECK(found.early == found.answers);
        }
    }
}

TEST_CASE("on a liquid bench runs of other concentrations tell most of the end")
{
    const auto runs = benchRuns("phme20");
    if (!runs) {
        return;
    }
    const Table table = liquid(*runs, LiquidHistory::OtherConcentrations);
    CHECK(ours(table, 0.5) < 0.22);
    CHECK(ours(table, 0.7) < 0.25);
    CHECK(ours(table, 0.85) < 0.13);
}
