// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/state.h"

#include <string>
#include <vector>

namespace loopside::run {

/// What a run that was moved to another tank after its pump had run leaves to be done: at the tank that it belongs to,
/// into which the cart brought what it held, and at each tank that it was written to, to which the cart would bring
/// oil of the other. Empty for a run that was not moved, or that pumped nothing before.
///
/// The share is that of the cart's hold-up in the tank's oil, at most: 8 L in 400 L are 2 %.
[[nodiscard]] std::vector<Message> movedNotes(const RunState& run);

/// Those of all runs of `state` that were moved to or from `tank`, for that tank.
[[nodiscard]] std::vector<Message> movedNotesAt(const State& state, const std::string& tank);

} // namespace loopside::run
