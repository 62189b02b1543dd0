// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What lies ahead of each stage: the forecast (forecast/forecast.h) asked of a run's facts.
//
// As of the last entry, and as if filtering went on from there: it does not change while nobody says anything. Limits
// are those of the raw ΔP at the oil temperature expected then: a range from the last one, held, to the trend of this
// run (forecast/factor_ahead.h). The past is what the run was opened with (RunState::past).

#pragma once

#include "forecast/forecast.h"
#include "run/credit.h"
#include "run/stage_loading.h"

#include <optional>
#include <vector>

namespace loopside::run {

/// Times on the run clock; nothing where it lies beyond ten times the target, or is never reached.
struct TimeRange
{
    std::optional<RunTime> t10;
    std::optional<RunTime> t50;
    std::optional<RunTime> t90;
};

/// Raw ΔP to be expected; at most the change limit, where the curve ends. See forecast/band.h.
struct DropAhead
{
    RunTime at{0};
    units::Pressure low;
    units::Pressure middle;
    units::Pressure high;
};

struct Outlook
{
    int stage = 1; ///< From 1.
    forecast::State state = forecast::State::None;
    Message why;
    TimeRange limitAt = {};
    bool isSwelling = false;                  ///< A water element takes water: no forecast from dirt, and little time.
    std::optional<double> pBeforeTarget = {}; ///< Nothing without a target in turnovers.
    std::optional<double> phase = {};         ///< 0 to 1.
    int pastLoadings = 0;                     ///< How many stand behind it.
    std::optional<int> spareSets = {};        ///< Sets of its elements still at hand; nothing where nobody counted.
    int setsNeeded = 0; ///< Up to the target, as it looks: where the limit comes first rather than not, at least one.
    std::vector<DropAhead> band = {}; ///< From `asOf` on; empty where nothing is told.
    std::optional<forecast::Posterior> lives = {};
    forecast::Ahead ahead = {};
    double load_l = 0.0; ///< At `asOf`.
    RunTime asOf{0};
};

[[nodiscard]] std::string_view nameOf(forecast::State state);

/// One for each stage.
[[nodiscard]] std::vector<Outlook> outlooksOf(const RunState& run, const std::vector<Moment>& moments,
                                              const std::vector<Question>& questions,
                                              const std::vector<JudgedSet>& judged, const Credit& credit);

/// The probability that the stage is at its limit by `at`, filtering all the time; nothing if no forecast is told.
[[nodiscard]] std::optional<double> probabilityBy(const Outlook& outlook, RunTime at);

/// When a quarter of the time from `from` to the earliest t10 of all stages is over, at least a minute: nobody should
/// wait longer for the next reading. Two minutes where a water element swells. Nothing where no stage tells a time.
[[nodiscard]] std::optional<RunTime> readBy(const std::vector<Outlook>& outlooks, RunTime from);

} // namespace loopside::run
