// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the journal knows of the carts. A run that pumps leaves its oil in the cart; waste, within a run or as a job of
// its own, marks it; a flush that was closed with at least one batch leaves the oil that it was done with and takes
// the mark away. What of a run was amended or struck counts as it then is.

#pragma once

#include "run/state.h"

namespace loopside::run {

/// Brings `state.carts` up to date after `event` was folded into runs and jobs.
void updateCarts(State& state, const Header& header, const Event& event);

/// Counts anew what `cart` went through, from all runs and jobs: the same as after `updateCarts` for each of their
/// entries in fold order.
void recountCart(State& state, const std::string& cart);

} // namespace loopside::run
