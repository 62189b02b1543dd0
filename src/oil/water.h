// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Water in oil: how much stays dissolved, when it comes out as free water, how much there is to take out.
//
//   log₁₀ S = A − B/T      S in ppm by mass, T in kelvin
//
// Source: the form and A = 7.0895, B = 1567 for mineral insulating oil from memory; they meet a published table of 0 to
//   100 °C within 1.3 ppm up to 60 °C and 4.5 ppm at 100 °C (least squares of that table: 7.095 and 1569.7).
// Validity: 0 to 100 °C, the range of that table. Lubricants hold more, because of their additives: mineral hydraulic
//   oil 200 to 300 ppm at 20 °C, four to five times insulating oil. So the saturation of the oil at hand must be told;
//   only the slope B is taken over from insulating oil.
// Uncertainty: without the oil's own figure the saturation is a guess within a factor of five. Another published pair
//   (7.42 and 1670, from memory) is 14 % higher at 100 °C.

#pragma once

#include "base/result.h"
#include "units/quantity.h"
#include "units/temperature.h"

namespace loopside::oil {

/// How much water an oil can hold dissolved.
struct WaterSolubility
{
    double a; ///< Of log₁₀ of ppm by mass.
    double bKelvin;
};

/// New mineral insulating oil. No lubricant: see above.
inline constexpr WaterSolubility mineralInsulatingOil{7.0895, 1567.0};

/// An oil that is saturated with `saturation` of water at `at`, with the slope of insulating oil.
/// OutOfRange for a saturation outside 1 to 100 000 ppm (our bounds) or a temperature outside 0 to 100 °C.
[[nodiscard]] Result<WaterSolubility> waterSolubility(units::Fraction saturation, units::Temperature at);

/// The most water, by mass, that stays dissolved at `at`. OutOfRange outside 0 to 100 °C.
[[nodiscard]] Result<units::Fraction> waterSaturation(const WaterSolubility& oil, units::Temperature at);

/// The part of saturation that `water`, by mass, is at `at`; above 1 there is free water.
/// OutOfRange outside 0 to 100 °C or for a water content outside 0 to 1.
[[nodiscard]] Result<units::Fraction> relativeSaturation(units::Fraction water, const WaterSolubility& oil,
                                                         units::Temperature at);

/// The temperature below which some of `water`, by mass, comes out of solution.
/// OutOfRange for a water content outside 0 to 1, and where the answer is outside 0 to 100 °C: the sentence says on
/// which side.
[[nodiscard]] Result<units::Temperature> freeWaterTemperature(units::Fraction water, const WaterSolubility& oil);

/// The volume of water, at 20 °C, to be taken out of `oil` so that its water content by mass falls from `from` to `to`:
/// V·ρ·(from − to)/ρ_water.
///
/// `oil` and `density` at one temperature. ρ_water = 998.2 kg/m³ (from memory). The oil is taken to weigh as much after
/// as before, so that the answer is short by a part `to` of itself. OutOfRange for a volume below 0, a density outside
/// 700 to 1200 kg/m³ (our bounds), contents outside 0 to 1, or `to` above `from`.
[[nodiscard]] Result<units::Volume> waterToRemove(units::Volume oil, units::Density density, units::Fraction from,
                                                  units::Fraction to);

} // namespace loopside::oil
