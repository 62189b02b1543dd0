// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// When a stage reaches its limit, and how sure that is.
//
// A straight line through the last readings is late, because loading curves turn up near their end: on open liquid data
// its error at 85 % of the life is a median of 15 times the time that is left. Here shapes and lives of past loadings
// (history.h), or blocking laws where there are none, are weighed by the readings (posterior.h).
//
// Pure: no clock, no random numbers, no state. A forecast of 100 readings with 100 past loadings takes under 2 ms
// (tests/bench/bench_forecast). Readings beyond 41 are gathered, loadings beyond 128 left out, so both are bounded.

#pragma once

#include "base/result.h"
#include "forecast/history.h"
#include "forecast/load_axis.h"
#include "forecast/loading.h"
#include "forecast/posterior.h"

#include <optional>
#include <span>
#include <string>

namespace loopside::forecast {

/// What can be said.
enum class State
{
    None,            ///< Nothing, and the reason why.
    Early,           ///< A range that may still move a long way.
    Forecast,        ///< A range to plan by.
    Reached,         ///< The raw drop is at its limit.
    NotBeforeTarget, ///< The target comes first: at most 10 % likely to reach the limit before.
};

/// Why: a sentence of the catalogue and its English.
struct Why
{
    Message say;
    std::string sentence;
};

/// What is asked beside the readings.
struct Question
{
    units::Pressure rawLimit;                       ///< Above 0.
    std::optional<units::Pressure> rawDropNow = {}; ///< As seen last; corrected drop × `rawPerCorrected` where unknown.
    double rawPerCorrected = 1.0;      ///< As expected when the limit is reached, from the oil temperature then.
    double rawPerCorrectedError = 0.0; ///< Relative standard uncertainty (k = 1) of that.
    units::Pressure standingError;     ///< Of the drops, expanded (k = 2); 0 or more.
    std::optional<units::Pressure> bypassSetting = {}; ///< Raw; at it and above the drop says nothing of dirt.
    bool isUsed = false;                               ///< The elements had caught something before load 0.
    std::optional<double> loadNow = {};                ///< Where later than the last reading.
    double secondsNow = 0.0;                           ///< On the caller's clock, at `loadNow`.
    Ahead ahead;                                       ///< How the load goes on.
    std::optional<double> targetLoad = {};             ///< Where the target is met.
    std::optional<double> secondsMax = {};             ///< Times beyond are not told; else ten times those so far.
};

/// Three quantiles; nothing where it lies beyond what is told or is never reached.
struct Range
{
    std::optional<double> p10;
    std::optional<double> p50;
    std::optional<double> p90;
};

struct Forecast
{
    State state = State::None;
    Why why;
    Range seconds; ///< On the caller's clock.
    Range loads;
    std::optional<double> pBeforeTarget; ///< Nothing without a target.
    std::optional<double> phase;         ///< Load now ÷ median load at the limit, 0 to 1.
    int pastLoadings = 0;                ///< How many stand behind it.
    std::optional<Posterior> lives;      ///< The whole of it: what the ranges are read from.
};

/// The corrected drop that `question`'s limit corresponds to: what `learn` wants to know.
[[nodiscard]] units::Pressure correctedLimit(const Question& question);

/// Forecasts from `readings`, in the order of loads, with a `history` learned against `correctedLimit(question)`.
///
/// OutOfRange, naming it, if a number is not finite, a load is negative or falls, an error is not above 0, a trust is
/// not above 0 to 1, the limit or the factor is not above 0. Whatever else is odd (no rise, a fall, one reading, a
/// bypass setting below the limit) gives State::None with its reason.
[[nodiscard]] Result<Forecast> forecast(std::span<const Reading> readings, const Question& question,
                                        const History& history);

} // namespace loopside::forecast
