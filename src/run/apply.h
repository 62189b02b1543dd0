// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The parts of `apply` (state.h), for who folds entries that do not come in fold order: runs each by itself, stock and
// catalogue whenever something of them comes, carts counted anew (cart.h).

#pragma once

#include "run/state.h"

namespace loopside::run {

/// The part that is of the run or job of `header` alone. Of one run or job, call it in fold order.
void applyToRun(State& state, const Header& header, const Event& event);

/// The part that is of the whole site: stock and catalogue, each where it belongs in fold order, whenever it comes.
/// What is there already stays as it is.
void applyToSite(State& state, const Header& header, const Event& event);

/// Takes back what `entry` did by `applyToSite`, as if it had never come.
void takeBackFromSite(State& state, const Id& entry);

} // namespace loopside::run
