// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/saybolt.h"

#include "base/text.h"
#include "oil/root_between.h"
#include "oil/working_range.h"

#include <cmath>

namespace loopside::oil {

using units::centistokes;
using units::KinematicViscosity;
using units::second;
using units::Temperature;

namespace {

constexpr double minCst = 1.81;
constexpr double maxCst = 2e7;

double secondsAt100F(double cSt)
{
    const double divisor = (3930.2 + cSt * (262.7 + cSt * (23.97 + cSt * 1.646))) * 1e-5;
    return 4.6324 * cSt + (1.0 + 0.03264 * cSt) / divisor;
}

double temperatureFactor(Temperature at)
{
    return 1.0 + 0.000061 * (at.in(units::fahrenheit)-100.0);
}

} // namespace

Result<units::Duration> sayboltSeconds(KinematicViscosity viscosity, Temperature at)
{
    const double cSt = viscosity.in(centistokes);
    if (!(cSt >= minCst && cSt <= maxCst)) {
        return fail(Errc::OutOfRange,
                    "Saybolt Universal seconds are told from " + fixed(minCst, 2) + " to " + fixed(maxCst, 0)
                        + " cSt; the viscosity is " + fixed(cSt, 3) + " cSt.");
    }
    return checkWorkingRange(at, "temperature of the Saybolt seconds").transform([&] {
        return secondsAt100F(cSt) * temperatureFactor(at) * second;
    });
}

Result<KinematicViscosity> viscosityFromSaybolt(units::Duration seconds, Temperature at)
{
    const Done checked = checkWorkingRange(at, "temperature of the Saybolt seconds");
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    const double at100F = seconds.in(second) / temperatureFactor(at);
    if (!(at100F >= secondsAt100F(minCst) && at100F <= secondsAt100F(maxCst))) {
        return fail(Errc::OutOfRange,
                    "Saybolt Universal seconds at " + fixed(at.in(units::celsius), 1) + " °C go from "
                        + fixed(secondsAt100F(minCst) * temperatureFactor(at), 1) + " to "
                        + fixed(secondsAt100F(maxCst) * temperatureFactor(at), 0) + " s; given are "
                        + fixed(seconds.in(second), 1) + " s.");
    }
    return rootBetween([&](double cSt) { return secondsAt100F(cSt) - at100F; }, minCst, maxCst) * centistokes;
}

} // namespace loopside::oil
