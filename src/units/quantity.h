// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Quantities that cannot lose their unit.
//
// A quantity is kept in the coherent SI unit of its kind and there is no way in or out without naming a unit: write
// `3.2 * bar`, read `drop.in(bar)`. Kinds do not mix: a pressure plus a volume does not compile, nor does a pressure
// plus a bare number (tests/units/must_not_compile_test.cpp). Temperatures are points, not amounts: see temperature.h.
//
// Factors. Exact by definition: in = 25.4 mm, lb = 0.45359237 kg, g0 = 9.80665 m/s², US gallon = 231 in³, bar = 100 000
// Pa. psi = lb·g0/in². Source: the definitions file of GNU Units, against which tests/units/gnu_units_test.cpp checks
// every pair.

#pragma once

#include <compare>

namespace loopside::units {

/// A size of one kind of quantity.
template<class Kind>
class Quantity
{
public:
    /// What one of something is, in the coherent SI unit of the kind.
    struct Unit
    {
        double si;
    };

    constexpr Quantity() = default;
    constexpr Quantity(double number, Unit unit) : si_{number * unit.si} {}

    /// The number that stands before `unit`.
    [[nodiscard]] constexpr double in(Unit unit) const { return si_ / unit.si; }

    friend constexpr auto operator<=>(Quantity, Quantity) = default;

    friend constexpr Quantity operator+(Quantity a, Quantity b) { return fromSi(a.si_ + b.si_); }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return fromSi(a.si_ - b.si_); }
    friend constexpr Quantity operator-(Quantity a) { return fromSi(-a.si_); }
    friend constexpr Quantity operator*(Quantity a, double times) { return fromSi(a.si_ * times); }
    friend constexpr Quantity operator*(double times, Quantity a) { return fromSi(a.si_ * times); }
    friend constexpr Quantity operator/(Quantity a, double by) { return fromSi(a.si_ / by); }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.si_ / b.si_; }
    constexpr Quantity& operator+=(Quantity b) { return *this = *this + b; }
    constexpr Quantity& operator-=(Quantity b) { return *this = *this - b; }

    friend constexpr Quantity operator*(double number, Unit unit) { return {number, unit}; }

private:
    static constexpr Quantity fromSi(double si) { return {si, Unit{1.0}}; }

    double si_ = 0.0;
};

using Pressure = Quantity<struct PressureKind>;                     ///< SI: Pa. A difference or a gauge pressure.
using Volume = Quantity<struct VolumeKind>;                         ///< SI: m³.
using Flow = Quantity<struct FlowKind>;                             ///< SI: m³/s.
using Duration = Quantity<struct DurationKind>;                     ///< SI: s.
using Length = Quantity<struct LengthKind>;                         ///< SI: m.
using Density = Quantity<struct DensityKind>;                       ///< SI: kg/m³.
using KinematicViscosity = Quantity<struct KinematicViscosityKind>; ///< SI: m²/s.
using DynamicViscosity = Quantity<struct DynamicViscosityKind>;     ///< SI: Pa·s.
using Power = Quantity<struct PowerKind>;                           ///< SI: W.
using Current = Quantity<struct CurrentKind>;                       ///< SI: A, effective value.
using Voltage = Quantity<struct VoltageKind>;                       ///< SI: V, effective value.
using Fraction = Quantity<struct FractionKind>;                     ///< SI: 1. A part of a whole, such as ppm of water.

inline constexpr double litreSi = 1e-3;
inline constexpr double gallonSi = 231.0 * 0.0254 * 0.0254 * 0.0254;
inline constexpr double minuteSi = 60.0;

inline constexpr Pressure::Unit pascal{1.0};
inline constexpr Pressure::Unit kilopascal{1e3};
inline constexpr Pressure::Unit megapascal{1e6};
inline constexpr Pressure::Unit millibar{1e2};
inline constexpr Pressure::Unit bar{1e5};
inline constexpr Pressure::Unit psi{0.45359237 * 9.80665 / (0.0254 * 0.0254)};
inline constexpr Pressure::Unit kgfPerCm2{98066.5};
inline constexpr Pressure::Unit inchOfMercury{13595.1 * 9.80665 * 0.0254}; ///< Conventional.

inline constexpr Volume::Unit cubicMetre{1.0};
inline constexpr Volume::Unit litre{litreSi};
inline constexpr Volume::Unit millilitre{1e-6};
inline constexpr Volume::Unit gallon{gallonSi}; ///< US gallon.

inline constexpr Flow::Unit cubicMetrePerSecond{1.0};
inline constexpr Flow::Unit cubicMetrePerHour{1.0 / 3600.0};
inline constexpr Flow::Unit litrePerMinute{litreSi / minuteSi};
inline constexpr Flow::Unit litrePerHour{litreSi / 3600.0};
inline constexpr Flow::Unit gallonPerMinute{gallonSi / minuteSi}; ///< US gallons.

inline constexpr Duration::Unit second{1.0};
inline constexpr Duration::Unit minute{minuteSi};
inline constexpr Duration::Unit hour{3600.0};

inline constexpr Length::Unit metre{1.0};
inline constexpr Length::Unit centimetre{1e-2};
inline constexpr Length::Unit millimetre{1e-3};
inline constexpr Length::Unit inch{0.0254};
inline constexpr Length::Unit foot{0.3048};

inline constexpr Density::Unit kilogramPerCubicMetre{1.0};
inline constexpr Density::Unit gramPerMillilitre{1e3};

inline constexpr KinematicViscosity::Unit squareMetrePerSecond{1.0};
inline constexpr KinematicViscosity::Unit centistokes{1e-6}; ///< 1 mm²/s.

inline constexpr DynamicViscosity::Unit pascalSecond{1.0};
inline constexpr DynamicViscosity::Unit centipoise{1e-3};

inline constexpr Power::Unit watt{1.0};
inline constexpr Power::Unit kilowatt{1e3};
inline constexpr Power::Unit horsepower{550.0 * 0.3048 * 0.45359237 * 9.80665}; ///< 550 foot pounds-force a second.

inline constexpr Current::Unit ampere{1.0};
inline constexpr Voltage::Unit volt{1.0};

inline constexpr Fraction::Unit one{1.0};
inline constexpr Fraction::Unit percent{1e-2};
inline constexpr Fraction::Unit partPerMillion{1e-6};

constexpr Volume operator*(Flow flow, Duration time)
{
    return flow.in(cubicMetrePerSecond)*time.in(second)*cubicMetre;
}

constexpr Duration operator/(Volume volume, Flow flow)
{
    return volume.in(cubicMetre) / flow.in(cubicMetrePerSecond)*second;
}

constexpr DynamicViscosity operator*(KinematicViscosity viscosity, Density density)
{
    return viscosity.in(squareMetrePerSecond)*density.in(kilogramPerCubicMetre)*pascalSecond;
}

} // namespace loopside::units
