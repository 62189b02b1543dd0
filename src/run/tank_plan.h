// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/catalogue.h"

#include <optional>
#include <vector>

namespace loopside::run {

/// What is known of a tank's level and room before the start; each part where the tank's record allows it.
struct TankPlan
{
    std::optional<units::Volume> atLevel = {};           ///< The oil at the level that was read.
    std::optional<units::Length> fall = {};              ///< Of the level when the cart's hold-up fills.
    std::optional<filtration::HeadSpace> headSpace = {}; ///< Above the oil as typed.
};

/// The level and room of `setup`'s tank; `setup` must have no fault.
[[nodiscard]] TankPlan tankPlanOf(const Setup& setup);

/// What of it is to be settled before the start: a level that tells another volume than the record by more than a
/// tenth (our choice; turnovers are off by as much), a cart that takes more than a tenth of the tank as it fills (our
/// choice: the suction may run dry), less room than the oil needs when it warms.
[[nodiscard]] std::vector<Message> tankCautions(const Setup& setup);

} // namespace loopside::run
