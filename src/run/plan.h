// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/catalogue.h"

#include <optional>
#include <string>
#include <vector>

namespace loopside::run {

/// What can be told of one stage before the start.
struct StagePlan
{
    std::optional<units::Pressure> cleanDp; ///< At today's viscosity and the cart's rated flow.
    std::string why;                        ///< Why not, where it is not known.
};

/// What a set-up comes to before the pump starts.
struct Plan
{
    units::Duration turnover;                           ///< Volume ÷ rated flow.
    std::optional<units::Duration> run;                 ///< For the target in turnovers, if there is one.
    std::optional<units::KinematicViscosity> viscosity; ///< Today's.
    std::string viscosityWhy;                           ///< Why not, where it is not known.
    std::vector<StagePlan> stages;
};

/// Plans `setup`, which must have no fault, at the oil temperature `oil`.
[[nodiscard]] Plan planOf(const Setup& setup, std::optional<units::Temperature> oil);

} // namespace loopside::run
