// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What there is to choose in a set-up: names of steps, points and placements as journal and word catalogue have them.

#pragma once

#include "app/setup_view.h"
#include "filtration/tank.h"

#include <array>

namespace loopside::app::choices {

inline constexpr int stepCount = 8;
inline constexpr std::array<const char*, stepCount> stepNames = {"tank",  "cart",   "elements", "oil",
                                                                 "hoses", "target", "verdict",  "area"};
inline constexpr std::array<const char*, 4> turnovers = {"5", "6", "7", "10"};
inline constexpr std::array<const char*, 4> overrideReasons = {"supervisor", "warmed-otherwise", "known-cart",
                                                               "urgent"};

enum OilField
{
    OilTemperature,
    OilWater
};

struct Placement
{
    filtration::HosePlacement placement;
    const char* name;
};
inline constexpr std::array<Placement, 3> placements = {{{filtration::HosePlacement::OppositeEnds, "opposite-ends"},
                                                         {filtration::HosePlacement::SameSideApart, "same-side"},
                                                         {filtration::HosePlacement::Adjacent, "adjacent"}}};

[[nodiscard]] inline const Placement& placementAt(int row)
{
    return placements.at(static_cast<std::size_t>(row));
}

[[nodiscard]] inline std::string nameOf(SetupView::Step step)
{
    return stepNames.at(static_cast<std::size_t>(step));
}

} // namespace loopside::app::choices
