// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/state.h"

#include <vector>

namespace loopside::app {

/// An alert that waits for somebody. Points into the state.
struct WaitingAlert
{
    Id run;
    const run::Alert* alert;
};

/// Every alert that nobody acknowledged or shelved, the gravest first, then those of the run `shown`, then in the order
/// in which they were raised. One that is over is not among them, but for stop-now: what it told of has to be looked
/// at.
[[nodiscard]] std::vector<WaitingAlert> waitingAlerts(const run::State& state, const Id& shown);

/// Whether an alert covers the screen while it waits: a change limit, stop-now.
[[nodiscard]] bool takesTheScreen(const run::Alert& alert);

} // namespace loopside::app
