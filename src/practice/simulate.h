// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A whole run of a simulated cart, as a person would have logged it, and beside it how it truly was.

#pragma once

#include "practice/practice_cart.h"
#include "run/state.h"

#include <vector>

namespace loopside::practice {

/// Something said, and when.
struct Entry
{
    run::RunTime at{0};
    run::Said what;
};

/// What nobody at the cart knows.
struct Truth
{
    std::vector<StageLife> lives;     ///< Of every filling, with the time at which it was at its raw limit. Filtering
                                      ///< goes on past the end of the run, up to `horizonTimes` its length, to tell.
    std::vector<Snapshot> atReadings; ///< One per reading, in order.
    Snapshot atEnd;                   ///< When the target was counted and the pump stopped.
    units::Duration targetAt;         ///< When it was.
    DirtBalance dirt;                 ///< At the very last.
};

struct Simulated
{
    run::Setup setup;
    std::vector<Entry> entries = {}; ///< In order: mode, readings, changeovers, stop. The first is at 0.
    Truth truth = {};

    /// Whether any stage, or the one told, with the elements it began with, was at its limit before the target.
    [[nodiscard]] bool reachedLimit(std::optional<int> stage = {}) const;
};

/// How long filtering goes on to find the limits: so many times the length of the run.
inline constexpr double horizonTimes = 2.0;

/// How long a person takes to change a stage that was read at its limit.
inline constexpr units::Duration changeoverTime = 12.0 * units::minute;

/// Runs `scenario` to its target in turnovers, counted as a person counts them: rated flow times time in filtering
/// mode. Read is at 2, 5, 10, 15 min, every 15 min in the first hour, then every 30 min or once a turnover; 0, 2 and
/// 5 min after a start; every 10 min at most while a drop is read at half its limit or more (common practice, no
/// source). The schedule is the simulator's own, so that the test set stays when the product plans readings otherwise.
/// Errors as of `checkScenario`, and Unavailable without a target in turnovers.
[[nodiscard]] Result<Simulated> simulate(const Scenario& scenario);

/// The run as the fold of its entries up to and including `until`; everything judged is judged from it. It has a fixed
/// id, one device, and no alerts: nothing is decided here.
[[nodiscard]] run::RunState asRun(const Simulated& simulated, std::optional<run::RunTime> until = {});

} // namespace loopside::practice
