// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What journals keep of looks at a tank and of positions: the facts `tag` and `fix` of a run, by schema/README.md.

#pragma once

#include "run/right_tank.h"
#include "run/state.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace loopside::ledger {

[[nodiscard]] run::Kept asKept(const run::TankLook& look);
[[nodiscard]] run::Kept asKept(const run::Fix& fix);

/// Nothing if `kept` is no look at a tank, or has another form. A tag of which only what it reads was kept, as in
/// journals of old, was held against no tank.
[[nodiscard]] std::optional<run::TankLook> lookIn(const run::Kept& kept);
[[nodiscard]] std::optional<run::Fix> fixIn(const run::Kept& kept);

/// The looks at the tank of `run` that were not struck, in the order in which they were taken.
[[nodiscard]] std::vector<run::TankLook> looksOf(const run::RunState& run);

/// Where tanks stand, by name: of each the finest position that was kept with a run at it whose tank was confirmed by
/// tag or plate, the latest of those that are as fine. One without an accuracy tells no place.
[[nodiscard]] std::map<std::string, run::Fix> placesOf(const run::State& state);

/// How well it is known that `run` is at the tank that it is written to.
[[nodiscard]] run::TankKnown tankKnown(const run::RunState& run);

} // namespace loopside::ledger
