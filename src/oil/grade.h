// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "units/quantity.h"

#include <span>
#include <string_view>

namespace loopside::oil {

/// A viscosity grade of ISO 3448. The viscosities are those at 40 °C.
///
/// Source: ISO 3448, as printed in public charts for VG 2 to 1500; VG 2200 and 3200 from memory.
/// Validity: new oil; the limits are 10 % either side of the mid-point, which below VG 10 is not the grade's number.
struct Grade
{
    int vg;
    units::KinematicViscosity min;
    units::KinematicViscosity mid;
    units::KinematicViscosity max;
};

/// The twenty grades, thinnest first.
[[nodiscard]] std::span<const Grade> grades();

/// The grade that a person calls `ISO VG 46`, `VG 46`, `VG46` or `46`; upper and lower case are alike.
/// NotFound, with the grades in the sentence, otherwise.
[[nodiscard]] Result<Grade> gradeNamed(std::string_view name);

} // namespace loopside::oil
