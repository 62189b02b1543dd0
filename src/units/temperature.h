// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "units/quantity.h"

namespace loopside::units {

/// How much warmer: 10 °C warmer is 18 °F warmer. SI: K.
using TemperatureDifference = Quantity<struct TemperatureDifferenceKind>;

inline constexpr TemperatureDifference::Unit kelvins{1.0};
inline constexpr TemperatureDifference::Unit fahrenheitDegrees{1.0 / 1.8};

/// How warm: a point on a scale. Two points have a difference but no sum; 0 °C is not "no temperature".
class Temperature
{
public:
    /// A scale: kelvin = (number + `shift`) × `factor`.
    struct Unit
    {
        double factor;
        double shift;
    };

    constexpr Temperature() = default; ///< 0 K.
    constexpr Temperature(double number, Unit unit) : kelvin_{(number + unit.shift) * unit.factor} {}

    /// The number on `unit`'s scale.
    [[nodiscard]] constexpr double in(Unit unit) const { return kelvin_ / unit.factor - unit.shift; }

    friend constexpr auto operator<=>(Temperature, Temperature) = default;

    friend constexpr TemperatureDifference operator-(Temperature a, Temperature b)
    {
        return (a.kelvin_ - b.kelvin_) * kelvins;
    }
    friend constexpr Temperature operator+(Temperature a, TemperatureDifference by)
    {
        return Temperature(a.kelvin_ + by.in(kelvins), Unit{1.0, 0.0});
    }
    friend constexpr Temperature operator-(Temperature a, TemperatureDifference by) { return a + -by; }

    friend constexpr Temperature operator*(double number, Unit unit) { return {number, unit}; }

private:
    double kelvin_ = 0.0;
};

inline constexpr Temperature::Unit kelvin{1.0, 0.0};
inline constexpr Temperature::Unit celsius{1.0, 273.15};
inline constexpr Temperature::Unit fahrenheit{1.0 / 1.8, 459.67};

} // namespace loopside::units
