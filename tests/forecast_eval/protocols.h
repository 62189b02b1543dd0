// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The protocols by which the forecast is judged on runs of filter benches. Each fills a table of errors and coverage.

#pragma once

#include "bench_runs.h"
#include "forecast/forecast.h"

#include <map>
#include <string>
#include <vector>

namespace loopside::evaluation {

/// What was found at one share of the life.
struct Found
{
    std::map<std::string, std::vector<double>> errors;                  ///< By method.
    std::map<double, std::map<std::string, std::vector<bool>>> covered; ///< By share of the interval and group.
    std::vector<double> crps;                                           ///< In the unit of the errors.
    int early = 0;                                                      ///< Forecasts that called themselves early.
    int answers = 0;                                                    ///< Forecasts that told a range.
    int asked = 0;
    std::size_t runs = 0; ///< Different runs among them.
};

/// Groups of fewer runs are told together.
inline constexpr std::size_t groupRunsMin = 15;

/// By share of the life.
using Table = std::map<double, Found>;

/// How sparse readings are taken: 25 in the middles of equal parts of the life, so that shares 0.5, 0.7 and 0.9 are
/// readings; 1 % of the limit random error (standard deviation), rounded to 2 % of the limit.
[[nodiscard]] std::vector<forecast::Reading> sparseReadings(const BenchRun& run);

/// Every 10 s, rounded to 1/40 of the limit (0.5 psi of 20).
[[nodiscard]] std::vector<forecast::Reading> tenSecondReadings(const BenchRun& run);

/// The run as a past loading.
[[nodiscard]] forecast::PastLoading asPast(const BenchRun& run, forecast::Kinship kinship);

/// The forecast from the readings up to `share` of the run's life.
[[nodiscard]] Result<forecast::Forecast> forecastAt(const std::vector<forecast::Reading>& readings, const BenchRun& run,
                                                    double share, const forecast::History& history);

/// Sparse readings, groups not told; errors in % of the life. History: training and validation runs, as nothing is
/// tuned on the latter while this runs; training runs only with `isTrainingOnly`.
[[nodiscard]] Table sparse(const std::vector<BenchRun>& runs, const std::vector<Split>& splits, bool isTrainingOnly);

/// The same readings with no history at all.
[[nodiscard]] Table sparseWithoutHistory(const std::vector<BenchRun>& runs);

/// Root mean square errors of the remaining time, s, from 12.5 s on every half second, mean over test runs.
struct Dense
{
    double ours = 0.0;
    double clock = 0.0;
    double oursSd = 0.0; ///< Over splits.
};
[[nodiscard]] Dense dense(const std::vector<BenchRun>& runs, const std::vector<Split>& splits, bool isTrainingOnly);

/// What the forecast of a liquid run may learn from.
enum class LiquidHistory
{
    OtherConcentrations,         ///< The same particle size.
    SameConcentration,           ///< The same, and the other runs of its concentration: for comparison.
    OtherConcentrationsOverLoad, ///< The same, but over the dirt fed, ratio × time: the feed is told.
    OtherSize,
    Nothing,
};

/// Ten-second readings; errors ÷ time left. Groups are named size_concentration.
[[nodiscard]] Table liquid(const std::vector<BenchRun>& runs, LiquidHistory from);

} // namespace loopside::evaluation
