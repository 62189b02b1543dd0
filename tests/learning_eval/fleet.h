// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Simulated places, each lived through day by day as a tablet does: a run is opened with what the days before taught,
// and teaches once it is closed. practice/scenario.h tells how places and days are drawn.

#pragma once

#include "practice/simulate.h"
#include "run/state.h"

#include <cstdint>
#include <vector>

namespace loopside::evaluation {

/// One day at a place, how it truly was and how it was logged.
struct FleetDay
{
    practice::Scenario scenario;
    practice::Simulated simulated;
    run::RunState run; ///< Closed.
};

/// The first `days` days of a place; those that cannot be started are left out.
[[nodiscard]] std::vector<FleetDay> placeOver(std::uint64_t seed, int days);

/// All that is known after the last `most` of the days before `days[index]`.
[[nodiscard]] run::State stateBefore(const std::vector<FleetDay>& days, std::size_t index, std::size_t most);

} // namespace loopside::evaluation
