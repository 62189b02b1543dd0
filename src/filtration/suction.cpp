// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/suction.h"

#include "base/text.h"
#include "filtration/checks.h"

#include <cmath>

namespace loopside::filtration {

using units::Density;
using units::Flow;
using units::KinematicViscosity;
using units::Length;
using units::Pressure;

namespace {

constexpr double standardGravity = 9.80665; // m/s², exact by definition

Pressure staticPressure(Length height, Density density)
{
    return density.in(units::kilogramPerCubicMetre)*standardGravity * height.in(units::metre)*units::pascal;
}

Done checkSuction(const Suction& suction)
{
    if (!(suction.allowance > 0.0 && suction.allowance <= 1.0)) {
        return fail(Errc::OutOfRange,
                    "The suction allowance must be above 0 and at most 1; it is " + fixed(suction.allowance, 2) + ".");
    }
    if (!std::isfinite(suction.lift.in(units::metre))) {
        return fail(Errc::OutOfRange, "The suction lift must be a number of metres.");
    }
    return {};
}

} // namespace

Result<Inlet> pumpInlet(const Suction& suction, Flow flow, KinematicViscosity viscosity, Density density)
{
    return checkSuction(suction)
        .and_then([&] { return pipeLoss(suction.hose, flow, viscosity / suction.allowance, density); })
        .transform([&](const PipeLoss& hose) {
            const Pressure vacuum = hose.loss + staticPressure(suction.lift, density);
            return Inlet{vacuum, hose, vacuum < standardAtmosphere};
        });
}

Result<Length> suctionHeadAvailable(Pressure vacuum, Density density)
{
    return checkAboveZero(density.in(units::kilogramPerCubicMetre), "density", "kg/m³").transform([&] {
        return (standardAtmosphere - vacuum) / staticPressure(1.0 * units::metre, density) * units::metre;
    });
}

} // namespace loopside::filtration
