// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Runs that are over are put away, so that what a tablet holds in memory does not grow with the years: of such a run
// stays what other runs, carts, tanks and the stock are judged by. The rest is read from the journal when somebody
// asks for the run.

#pragma once

#include "run/state.h"

#include <string_view>

namespace loopside::run {

/// Whether `event` tells of a moment of its run (a set of gauges, an alert, an answer, a sign, a note, a point of a
/// checklist) and nothing outside of that run is judged by it.
[[nodiscard]] bool isOfMoment(const Event& event);

/// Drops from `run` what is of a moment, its alerts and what it learned from, and marks it. Afterwards its times (those
/// of its facts and its close) are not to be told: what they are counted by may be gone.
void putAway(RunState& run);

/// How many closed runs stay whole: those of this shift and the last ones, which somebody may look at again.
inline constexpr std::size_t closedRunsAtHand = 32;

} // namespace loopside::run
