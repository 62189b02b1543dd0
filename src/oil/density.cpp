// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/density.h"

#include "base/text.h"
#include "oil/root_between.h"
#include "oil/working_range.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace loopside::oil {

using units::celsius;
using units::kilogramPerCubicMetre;

namespace {

constexpr double minKgM3 = 800.0;
constexpr double maxKgM3 = 1164.0;
constexpr double minAt60FKgM3 = 800.9;
constexpr double maxAt60FKgM3 = 1163.5;
constexpr double conversionSlackKgM3 = 1e-6; // 0.8 g/mL is 800 kg/m³, whatever the last bit says

/// exp(−αΔt(1 + 0.8αΔt)) of `alphaDt` = αΔt.
double correctionFor(double alphaDt)
{
    return std::exp(-alphaDt * (1.0 + 0.8 * alphaDt));
}

/// The density in kg/m³ at `temperature` of oil that has `at15KgM3` at 15 °C.
double densityKgM3(double at15KgM3, units::Temperature temperature)
{
    const double alpha = 0.6278 / at15KgM3;
    return at15KgM3 * correctionFor(alpha * (temperature - 15.0 * celsius).in(units::kelvins));
}

Done checkDensityAt60F(double kgM3)
{
    if (!(kgM3 >= minAt60FKgM3 - conversionSlackKgM3 && kgM3 <= maxAt60FKgM3 + conversionSlackKgM3)) {
        return fail(Errc::OutOfRange,
                    "The density at 60 °F of lubricating oil is from " + fixed(minAt60FKgM3, 1) + " to "
                        + fixed(maxAt60FKgM3, 1) + " kg/m³; it is " + fixed(kgM3, 1) + " kg/m³.");
    }
    return {};
}

/// Whether lubricating oil can have this specific gravity, which is `given` as a person gave it.
Done checkSpecificGravity(double specificGravity, const std::string& given)
{
    const double waterKgM3 = waterAt60F.in(kilogramPerCubicMetre);
    const double min = minAt60FKgM3 / waterKgM3;
    const double max = maxAt60FKgM3 / waterKgM3;
    if (!(specificGravity >= min && specificGravity <= max)) {
        return fail(Errc::OutOfRange,
                    "The specific gravity 60/60 °F of lubricating oil is from " + fixed(min, 4) + " to " + fixed(max, 4)
                        + ", which is 45.0 to -10.0 °API; given is " + given + ".");
    }
    return {};
}

} // namespace

Done checkDensityAt15(units::Density at15)
{
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
        .transform([&] { return densityKgM3(at15.in(kilogramPerCubicMetre), temperature) * kilogramPerCubicMetre; });
}

Result<units::Density> densityAt15From(units::Density observed, units::Temperature at)
{
    const Done checked = checkWorkingRange(at, "oil temperature");
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    const double kgM3 = observed.in(kilogramPerCubicMetre);
    const double least = densityKgM3(minKgM3, at);
    const double most = densityKgM3(maxKgM3, at);
    if (!(kgM3 >= least - conversionSlackKgM3 && kgM3 <= most + conversionSlackKgM3)) {
        return fail(Errc::OutOfRange,
                    "The density of lubricating oil at " + fixed(at.in(celsius), 1) + " °C is from " + fixed(least, 1)
                        + " to " + fixed(most, 1) + " kg/m³; it is " + fixed(kgM3, 1) + " kg/m³.");
    }
    const double sought = std::clamp(kgM3, least, most);
    return rootBetween([&](double at15) { return densityKgM3(at15, at) - sought; }, minKgM3, maxKgM3)
        * kilogramPerCubicMetre;
}

Result<double> volumeCorrectionTo60F(units::Density at60F, units::Temperature temperature)
{
    const double kgM3 = at60F.in(kilogramPerCubicMetre);
    return checkDensityAt60F(kgM3)
        .and_then([&] { return checkWorkingRange(temperature, "oil temperature"); })
        .transform([&] {
            const double alphaPerF = 0.34878 / kgM3;
            return correctionFor(alphaPerF * (temperature - 60.0 * units::fahrenheit).in(units::fahrenheitDegrees));
        });
}

Result<double> specificGravity(double degreesApi)
{
    const double gravity = 141.5 / (degreesApi + 131.5);
    return checkSpecificGravity(gravity, fixed(degreesApi, 1) + " °API").transform([&] { return gravity; });
}

Result<double> apiGravity(double specificGravity)
{
    return checkSpecificGravity(specificGravity, fixed(specificGravity, 4)).transform([&] {
        return 141.5 / specificGravity - 131.5;
    });
}

} // namespace loopside::oil
