// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/walther.h"

#include "base/text.h"
#include "oil/working_range.h"

#include <cmath>
#include <string>

namespace loopside::oil {

using units::celsius;
using units::centistokes;
using units::kelvin;
using units::KinematicViscosity;
using units::Temperature;

namespace {

constexpr double apartMinC = 5.0;

double logLogZ(KinematicViscosity viscosity)
{
    return std::log10(std::log10(waltherZ(viscosity)));
}

double logT(Temperature temperature)
{
    return std::log10(temperature.in(kelvin));
}

std::string pointText(Temperature at, KinematicViscosity viscosity)
{
    return fixed(viscosity.in(centistokes), 2) + " cSt at " + fixed(at.in(celsius), 1) + " °C";
}

Done checkPoint(Temperature at, KinematicViscosity viscosity)
{
    return checkWorkingRange(at, "temperature of a viscosity point").and_then([&] {
        return checkViscosity(viscosity, "viscosity at " + fixed(at.in(celsius), 1) + " °C");
    });
}

/// Whether the warmer point is far enough from the colder one, and thinner.
Done checkFall(Temperature cold, KinematicViscosity atCold, Temperature warm, KinematicViscosity atWarm)
{
    if ((warm - cold).in(units::kelvins) < apartMinC) {
        return fail(Errc::OutOfRange,
                    "The temperatures of the two viscosity points must be at least " + fixed(apartMinC, 0)
                        + " °C apart; they are " + fixed(cold.in(celsius), 1) + " and " + fixed(warm.in(celsius), 1)
                        + " °C.");
    }
    if (atWarm >= atCold) {
        return fail(Errc::OutOfRange,
                    "The viscosity of oil falls as it warms; the points say " + pointText(cold, atCold) + " and "
                        + pointText(warm, atWarm) + ".");
    }
    return {};
}

} // namespace

double waltherZ(KinematicViscosity viscosity)
{
    const double nu = viscosity.in(centistokes);
    return nu + 0.7 + std::exp(-1.47 - 1.84 * nu - 0.51 * nu * nu);
}

KinematicViscosity viscosityFromZ(double z)
{
    const double x = z - 0.7;
    // 0.3193 is a fitted number and not a poor 1/π. NOLINTNEXTLINE(modernize-use-std-numbers)
    return (x - std::exp(-0.7487 - 3.295 * x + 0.6119 * x * x - 0.3193 * x * x * x)) * centistokes;
}

Done checkViscosity(KinematicViscosity viscosity, std::string_view what)
{
    constexpr double minCst = 0.2;
    constexpr double maxCst = 2e7;
    const double cSt = viscosity.in(centistokes);
    if (!(cSt >= minCst && cSt <= maxCst)) {
        return fail(Errc::OutOfRange,
                    "The " + std::string(what) + " must be from " + fixed(minCst, 1) + " to " + fixed(maxCst, 0)
                        + " cSt; it is " + fixed(cSt, 3) + " cSt.");
    }
    return {};
}

Result<WaltherLine> WaltherLine::through(Temperature first, KinematicViscosity atFirst, Temperature second,
                                         KinematicViscosity atSecond)
{
    if (second < first) {
        return through(second, atSecond, first, atFirst);
    }
    const Done checked =
        checkPoint(first, atFirst).and_then([&] { return checkPoint(second, atSecond); }).and_then([&] {
            return checkFall(first, atFirst, second, atSecond);
        });
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    const double b = (logLogZ(atFirst) - logLogZ(atSecond)) / (logT(second) - logT(first));
    return WaltherLine(logLogZ(atFirst) + b * logT(first), b);
}

Result<KinematicViscosity> WaltherLine::at(Temperature temperature) const
{
    const Done warmEnough = checkWorkingRange(temperature, "oil temperature");
    if (!warmEnough.has_value()) {
        return fail(warmEnough.error());
    }
    const double z = std::pow(10.0, std::pow(10.0, a_ - b_ * logT(temperature)));
    const KinematicViscosity viscosity = viscosityFromZ(z);
    const Done known = checkViscosity(viscosity, "viscosity at " + fixed(temperature.in(celsius), 1) + " °C");
    if (!known.has_value()) {
        return fail(known.error());
    }
    return viscosity;
}

} // namespace loopside::oil
