// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/water.h"

#include "base/text.h"

#include <cmath>
#include <string>
#include <string_view>

namespace loopside::oil {

using units::celsius;
using units::Fraction;
using units::kelvin;
using units::partPerMillion;
using units::Temperature;

namespace {

constexpr Temperature coldest = 0.0 * celsius;
constexpr Temperature warmest = 100.0 * celsius;

std::string ppmText(Fraction part)
{
    return fixed(part.in(partPerMillion), 1) + " ppm";
}

Done checkTemperature(Temperature at)
{
    constexpr units::TemperatureDifference conversionSlack = 1e-9 * units::kelvins;
    if (!(at >= coldest - conversionSlack && at <= warmest + conversionSlack)) {
        return fail(Errc::OutOfRange,
                    "The saturation of oil with water is known from 0 to 100 °C; the oil temperature is "
                        + fixed(at.in(celsius), 1) + " °C.");
    }
    return {};
}

Done checkWater(Fraction water, std::string_view what)
{
    if (!(water >= Fraction() && water <= 1.0 * units::one)) {
        return fail(Errc::OutOfRange,
                    "The " + std::string(what) + " must be from 0 to 1 000 000 ppm; it is " + ppmText(water) + ".");
    }
    return {};
}

Fraction saturation(const WaterSolubility& oil, Temperature at)
{
    return std::pow(10.0, oil.a - oil.bKelvin / at.in(kelvin)) * partPerMillion;
}

} // namespace

Result<WaterSolubility> waterSolubility(Fraction saturation, Temperature at)
{
    const Done checked = checkTemperature(at);
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    const double ppm = saturation.in(partPerMillion);
    if (!(ppm >= 1.0 && ppm <= 1e5)) {
        return fail(Errc::OutOfRange,
                    "The saturation of oil with water must be from 1 to 100000 ppm; it is " + ppmText(saturation)
                        + ".");
    }
    const double slope = mineralInsulatingOil.bKelvin;
    return WaterSolubility{std::log10(ppm) + slope / at.in(kelvin), slope};
}

Result<Fraction> waterSaturation(const WaterSolubility& oil, Temperature at)
{
    return checkTemperature(at).transform([&] { return saturation(oil, at); });
}

Result<Fraction> relativeSaturation(Fraction water, const WaterSolubility& oil, Temperature at)
{
    return checkWater(water, "water content")
        .and_then([&] { return waterSaturation(oil, at); })
        .transform([&](Fraction most) { return water / most * units::one; });
}

Result<Temperature> freeWaterTemperature(Fraction water, const WaterSolubility& oil)
{
    const Done checked = checkWater(water, "water content");
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    if (water < saturation(oil, coldest)) {
        return fail(Errc::OutOfRange, ppmText(water) + " of water stay dissolved down to 0 °C and below.");
    }
    if (water > saturation(oil, warmest)) {
        return fail(Errc::OutOfRange,
                    ppmText(water) + " of water do not dissolve even at 100 °C: there is free water.");
    }
    return oil.bKelvin / (oil.a - std::log10(water.in(partPerMillion))) * kelvin;
}

Result<units::Volume> waterToRemove(units::Volume oil, units::Density density, Fraction from, Fraction to)
{
    constexpr double waterKgM3 = 998.2;
    const Done checked = checkWater(from, "water content before").and_then([&] {
        return checkWater(to, "water content after");
    });
    if (!checked.has_value()) {
        return fail(checked.error());
    }
    if (to > from) {
        return fail(Errc::OutOfRange,
                    "The water content after, " + ppmText(to) + ", must not be above that before, " + ppmText(from)
                        + ".");
    }
    const double m3 = oil.in(units::cubicMetre);
    if (!(m3 >= 0.0 && std::isfinite(m3))) {
        return fail(Errc::OutOfRange, "The volume of oil must be 0 or more; it is " + fixed(m3 * 1e3, 1) + " L.");
    }
    const double kgM3 = density.in(units::kilogramPerCubicMetre);
    if (!(kgM3 >= 700.0 && kgM3 <= 1200.0)) {
        return fail(Errc::OutOfRange,
                    "The density of the oil must be from 700 to 1200 kg/m³; it is " + fixed(kgM3, 1) + " kg/m³.");
    }
    return oil * (kgM3 / waterKgM3) * (from - to).in(units::one);
}

} // namespace loopside::oil
