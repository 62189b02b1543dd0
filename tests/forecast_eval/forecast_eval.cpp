// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Judges the forecast beside what people do without one, and prints one table.
//
//   forecast_eval --data FOLDER [--splits FILE] [--only PART] [--picture FILE]
//
// FOLDER holds hse/runs.csv and phme20/runs.csv, or files of the same columns. FILE of splits: split,run,part with the
// part train, validate or test; without it ten seeded ones. PART: sparse, dense, liquid, simulated. Exit 2 where there
// is no data.

#include "picture.h"
#include "print.h"
#include "simulated.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cstdio>
#include <string>
#include <utility>

using namespace loopside;
using namespace loopside::evaluation;

namespace {

constexpr int practiceRuns = 2000; // all of practice::testScenarios

void judgeSparse(const std::vector<BenchRun>& runs, const std::vector<Split>& splits)
{
    const Table table = sparse(runs, splits, false);
    printErrors("Sparse readings, group not told; median error, % of life", table);
    printCoverage(table);
    printErrors("The same, history: training runs only", sparse(runs, splits, true));
    const Table without = sparseWithoutHistory(runs);
    printErrors("The same, no history at all", without);
    printCoverage(without);
}

void judgeLiquid(const std::vector<BenchRun>& runs)
{
    const std::pair<const char*, LiquidHistory> histories[] = {
        {"other concentrations", LiquidHistory::OtherConcentrations},
        {"other concentrations, over the dirt fed", LiquidHistory::OtherConcentrationsOverLoad},
        {"the same concentration too", LiquidHistory::SameConcentration},
        {"the other particle size only", LiquidHistory::OtherSize},
        {"nothing", LiquidHistory::Nothing}};
    for (const auto& [name, from] : histories) {
        const Table table = liquid(runs, from);
        printErrors(std::string("Liquid, every 10 s; median error ÷ time left; history: ") + name, table);
        printCoverage(table);
    }
}

void judgeDense(const std::vector<BenchRun>& runs, const std::vector<Split>& splits)
{
    std::printf("\nDense readings, feed told; RMSE of the remaining time, s, mean over test runs, ± sd over splits\n");
    for (const bool isTrainingOnly : {false, true}) {
        const Dense found = dense(runs, splits, isTrainingOnly);
        std::printf("%-40s ours %.2f ± %.2f, clock %.2f, ours ÷ clock %.3f\n",
                    isTrainingOnly ? "history: training runs" : "history: training and validation runs", found.ours,
                    found.oursSd, found.clock, found.ours / found.clock);
    }
}

void judgeSimulatedRuns()
{
    constexpr int days = 6;
    const SimulatedScores scores = judgeSimulated(0, practiceRuns, days, true);
    const auto came = std::ranges::count_if(scores.ours, [](const Told& told) { return told.cameTrue; });
    std::printf(
        "\nSimulated recirculating runs: %d, each with %d other days as history\n"
        "is a stage at its limit before the target? told %d times, came true %ld times, without a forecast %d\n",
        practiceRuns, days, scores.asked, static_cast<long>(came), scores.unanswered);
    std::printf("%-52s %9s %9s\n", "at its limit: as read, or truly and unseen", "ours", "line of 5");
    std::printf("%-52s %9.4f %9.4f\n", "Brier score", brierScore(scores.ours), brierScore(scores.line));
    std::printf("%-52s %9.3f %9.3f\n", "Brier skill over the base rate", brierSkill(scores.ours),
                brierSkill(scores.line));
    for (const auto& [part, told] : scores.atParts) {
        std::printf("  told at %2.0f %% of the target %23s %9.3f\n", 100.0 * part, "", brierSkill(told));
    }
    std::printf("%-52s %9.3f\n", "the same, if only the true drop counted", brierSkill(scores.oursTruly));
    std::printf("where the limit came within three targets: mean CRPS %.1f %% of the target, median %.1f %%\n",
                mean(scores.crps), median(scores.crps));
    for (const auto& [interval, inside] : scores.covered) {
        std::printf("%2.0f %% covers %3.0f %%\n", 100.0 * interval,
                    100.0 * static_cast<double>(std::ranges::count(inside, true)) / static_cast<double>(inside.size()));
    }
    std::printf("reliability:  told   came  count\n");
    for (const ReliabilityBin& bin : reliability(scores.ours, 10)) {
        std::printf("             %5.3f  %5.3f  %5d\n", bin.told, bin.came, bin.count);
    }
}

int complain(const std::string& sentence)
{
    std::fprintf(stderr, "forecast_eval: %s\n", sentence.c_str());
    return 2;
}

} // namespace

int main(int argc, char** argv)
{
    std::string data;
    std::string splitsFile;
    std::string only;
    std::string picture;
    CLI::App app("Judges the forecast on open bench data.");
    app.add_option("--data", data, "folder with hse/runs.csv and phme20/runs.csv")->required();
    app.add_option("--splits", splitsFile, "file with the columns split,run,part");
    app.add_option("--only", only, "sparse, dense, liquid or simulated");
    app.add_option("--picture", picture, "SVG of twelve runs to write");
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : 2;
    }
    const std::filesystem::path folder = data;
    const auto dust = readRuns(folder / "hse/runs.csv");
    const auto liquids = readRuns(folder / "phme20/runs.csv");
    if (!dust || !liquids) {
        return complain((dust ? liquids : dust).error().sentence
                        + ": the bench data is missing, so NOTHING WAS JUDGED. Give its folder with --data.");
    }
    const Result<std::vector<Split>> splits = splitsFile.empty() ? seededSplits(*dust) : readSplits(splitsFile, *dust);
    if (!splits) {
        return complain(splits.error().sentence);
    }
    if (only.empty() || only == "sparse") {
        judgeSparse(*dust, *splits);
    }
    if (only.empty() || only == "liquid") {
        judgeLiquid(*liquids);
    }
    if (only.empty() || only == "dense") {
        judgeDense(*dust, *splits);
    }
    if (only.empty() || only == "simulated") {
        judgeSimulatedRuns();
    }
    if (!picture.empty()) {
        if (const Done drawn = drawRuns(picture, *dust, *splits, *liquids); !drawn) {
            return complain(drawn.error().sentence);
        }
    }
    return 0;
}
