// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/density.h"

#include "base/text.h"
#include "oil/working_range.h"

#include <cmath>

namespace loopside::oil {

using units::celsius;
using units::kilogramPerCubicMetre;

Done checkDensityAt15(units::Density at15)
{
    constexpr double minKgM3 = 800.0;
    constexpr double maxKgM3 = 1164.0;
    constexpr double conversionSlackKgM3 = 1e-6; // 0.8 g/mL is 800 kg/m³, whatever the last bit says
    const double rho = at15.in(kilogramPerCubicMetre);
    if (!(rho >= minKgM3 - conversionSlackKgM3 && rho <= maxKgM3 + conversionSlackKgM3)) {
        return fail(Errc::OutOfRange,
                    "The density at 15 °C of lubricating oil is from " + fixed(minKgM3, 0) + " to " + fixed(maxKgM3, 0)
                        + " kg/m³; it is " + fixed(rho, 1) + " kg/m³.");
    }
    return {};
}

Result<units::Density> densityAt(units::Density at15, units::Temperature temperature)
{
    return checkDensityAt15(at15)
        .and_then([&] { return checkWorkingRange(temperature, "oil temperature"); })
        .transform([&] {
            const double alpha = 0.6278 / at15.in(kilogramPerCubicMetre);
            const double expansion = alpha * (temperature - 15.0 * celsius).in(units::kelvins);
            return at15 * std::exp(-expansion * (1.0 + 0.8 * expansion));
        });
}

} // namespace loopside::oil
