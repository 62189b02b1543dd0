// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Judges what is learned over many runs, by how many are behind it, and prints the tables of docs/learning.md.
//
//   learning_eval [--places 300] [--data FOLDER] [--only PART]
//
// FOLDER holds hse/runs.csv, see forecast_eval; without it the bench part is not judged, which is said, and the exit is
// 2 where nothing else was asked. PART: forecast, learned, alarms, bench. It takes minutes.

#include "bench_learned.h"
#include "learned_scores.h"
#include "past_alarms.h"
#include "simulated.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cstdio>

using namespace loopside;
using namespace loopside::evaluation;

namespace {

constexpr std::uint64_t fleetSeed = 980'000; // no other evaluation looks at these places

double percentOf(const std::vector<bool>& inside)
{
    return 100.0 * static_cast<double>(std::ranges::count(inside, true)) / static_cast<double>(inside.size());
}

/// Each run of the test set is simulated with its history once, then judged with less and less of it.
void judgeForecasts(int places)
{
    std::map<int, SimulatedScores> scores;
    for (int number = 0; number < places; ++number) {
        for (const StageCase& one : stageCases(number, pastRuns.back(), true)) {
            for (const int past : pastRuns) {
                StageCase with = one;
                with.others.resize(std::min(with.others.size(), static_cast<std::size_t>(past)));
                judge(with, scores[past]);
            }
        }
    }
    std::printf("\nForecast, %d simulated places: is a stage at its limit before the target?\n", places);
    std::printf("past runs   asked   Brier   skill   CRPS, %% of target   80 %% covers\n");
    for (const auto& [past, of] : scores) {
        std::printf("%9d %7d %7.4f %7.3f %19.1f %10.0f %%\n", past, of.asked, brierScore(of.ours), brierSkill(of.ours),
                    mean(of.crps), percentOf(of.covered.at(0.8)));
    }
    std::printf("line of 5   %19.4f %7.3f\n", brierScore(scores.at(0).line), brierSkill(scores.at(0).line));
}

void printLearned(const LearnedScores& scores, int places)
{
    std::printf("\nClean ΔP of new elements, %d simulated places; median error\n", places);
    std::printf("past runs   stages   of what dials show   of the truth   90 %% band covers   not shown\n");
    for (const auto& [past, of] : scores.clean) {
        std::printf("%9d %8zu %18.1f %% %12.1f %% %16.0f %% %11d\n", past, of.covered.size(), median(of.ofShown),
                    median(of.ofTruth), percentOf(of.covered), of.notShown);
    }
    std::printf("\nLives: do new elements reach their limit in this run?\n");
    std::printf("past runs    told   unknown   came true   Brier   skill\n");
    for (const auto& [past, of] : scores.lives) {
        if (of.told.empty()) {
            std::printf("%9d %7d %9d\n", past, 0, of.unknown);
            continue;
        }
        std::printf("%9d %7zu %9d %11d %7.4f %7.3f\n", past, of.told.size(), of.unknown,
                    static_cast<int>(std::ranges::count(of.told, true, &Told::cameTrue)), brierScore(of.told),
                    brierSkill(of.told));
    }
}

void printAlarms(const PastAlarms& alarms)
{
    std::printf("\nFindings of earlier elements, %d runs without a fault with history enough behind them, %d sets\n",
                alarms.runs, alarms.sets);
    std::printf("finding                sets   untrue   in 100 sets   runs   untrue   in 100 runs\n");
    for (const auto& [id, of] : alarms.said) {
        std::printf("%-20s %6d %8d %13.2f %6d %8d %13.2f\n", id.c_str(), of.sets, of.untrue,
                    100.0 * of.untrue / alarms.sets, of.runs, of.untrueRuns, 100.0 * of.untrueRuns / alarms.runs);
    }
}

void printHits(const std::map<std::string, PastHits>& hits)
{
    std::printf("\nRuns with a fault from the start, new elements, history enough behind them\n");
    std::printf("fault                  runs   told by history   by it alone   told by another\n");
    for (const auto& [name, of] : hits) {
        std::printf("%-20s %6d %15d %15d %17d\n", name.c_str(), of.runs, of.byPast, of.onlyPast, of.byOthers);
    }
}

/// Places are lived through once for both parts.
void judgeFleet(int places, bool isLearnedAsked, bool areAlarmsAsked)
{
    using practice::FaultKind;
    LearnedScores learned;
    PastAlarms alarms;
    std::map<std::string, PastHits> hits;
    for (int place = 0; place < places; ++place) {
        const auto days = placeOver(fleetSeed + static_cast<std::uint64_t>(place), fleetDays);
        if (days.empty()) {
            continue;
        }
        if (isLearnedAsked) {
            judgeLearned(days, learned);
        }
        if (areAlarmsAsked) {
            judgeAlarms(days, alarms);
            for (const FaultKind kind : {FaultKind::SlowLeak, FaultKind::StageTorn, FaultKind::StageBypassOpen,
                                         FaultKind::ElementMissing, FaultKind::DirtStirred}) {
                judgeHits(days, kind, hits);
            }
        }
    }
    if (isLearnedAsked) {
        printLearned(learned, places);
    }
    if (areAlarmsAsked) {
        printAlarms(alarms);
        printHits(hits);
    }
}

void judgeBench(const std::vector<BenchRun>& runs)
{
    for (const bool isOwnGroup : {true, false}) {
        std::printf("\nDust filters on a bench, %zu runs; past runs of %s\n", runs.size(),
                    isOwnGroup ? "the same feed" : "any feed");
        std::printf("past runs   forecast, median error, %% of life, at 0.3   0.5   0.7   0.9   next life: error   "
                    "90 %% covers   high ÷ low   clean ΔP: error   90 %% covers\n");
        for (const int past : pastRuns) {
            const BenchScores scores = benchLearned(runs, past, isOwnGroup);
            std::printf("%9d %50s", past, "");
            for (const auto& [share, errors] : scores.errors) {
                std::printf(" %5.1f", median(errors));
            }
            if (!scores.lifeErrors.empty()) {
                std::printf(" %16.1f %% %11.0f %% %12.2f", median(scores.lifeErrors), percentOf(scores.lifeCovered),
                            median(scores.lifeWidths));
                std::printf(" %17.1f %% %11.0f %%", median(scores.cleanErrors), percentOf(scores.cleanCovered));
            }
            std::printf("\n");
        }
    }
}

} // namespace

int main(int argc, char** argv)
{
    int places = 300;
    std::string data;
    std::string only;
    CLI::App app("Judges what is learned over many runs.");
    app.add_option("--places", places, "simulated ones")->check(CLI::Range(1, practice::testScenarios));
    app.add_option("--data", data, "folder with hse/runs.csv");
    app.add_option("--only", only, "forecast, learned, alarms or bench");
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        return app.exit(error) == 0 ? 0 : 2;
    }
    const auto isAsked = [&](const char* part) { return only.empty() || only == part; };
    if (isAsked("forecast")) {
        judgeForecasts(places);
    }
    if (isAsked("learned") || isAsked("alarms")) {
        judgeFleet(places, isAsked("learned"), isAsked("alarms"));
    }
    if (!isAsked("bench")) {
        return 0;
    }
    const auto runs = readRuns(std::filesystem::path(data) / "hse/runs.csv");
    if (!runs) {
        std::fprintf(stderr,
                     "learning_eval: %s: the bench data is missing, so NOTHING WAS JUDGED ON IT. Give its folder with "
                     "--data.\n",
                     runs.error().sentence.c_str());
        return only.empty() ? 0 : 2;
    }
    judgeBench(*runs);
    return 0;
}
