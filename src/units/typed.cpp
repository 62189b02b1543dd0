// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "units/typed.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace loopside::units {

namespace {

template<class Q>
struct Table;

template<>
struct Table<Pressure>
{
    static constexpr std::string_view name = "a pressure";
    static constexpr std::string_view example = "38 psi";
    static constexpr std::array<NamedUnit<Pressure>, 8> units = {{
        {"Pa", "", pascal},
        {"kPa", "", kilopascal},
        {"MPa", "", megapascal},
        {"mbar", "", millibar},
        {"bar", "", bar},
        {"psi", "psid psig PSI", psi},
        {"kgf/cm²", "kgf/cm2 kg/cm2 kg/cm²", kgfPerCm2},
        {"inHg", "", inchOfMercury},
    }};
};

template<>
struct Table<Volume>
{
    static constexpr std::string_view name = "a volume";
    static constexpr std::string_view example = "400 L";
    static constexpr std::array<NamedUnit<Volume>, 4> units = {{
        {"m³", "m3", cubicMetre},
        {"L", "l litre litres liter liters", litre},
        {"mL", "ml", millilitre},
        {"gal", "gallon gallons", gallon},
    }};
};

template<>
struct Table<Flow>
{
    static constexpr std::string_view name = "a flow";
    static constexpr std::string_view example = "19 L/min";
    static constexpr std::array<NamedUnit<Flow>, 5> units = {{
        {"m³/s", "m3/s", cubicMetrePerSecond},
        {"m³/h", "m3/h", cubicMetrePerHour},
        {"L/min", "l/min lpm", litrePerMinute},
        {"L/h", "l/h", litrePerHour},
        {"gpm", "gal/min", gallonPerMinute},
    }};
};

template<>
struct Table<Duration>
{
    static constexpr std::string_view name = "a length of time";
    static constexpr std::string_view example = "20 min";
    static constexpr std::array<NamedUnit<Duration>, 3> units = {{
        {"s", "", second},
        {"min", "", minute},
        {"h", "", hour},
    }};
};

template<>
struct Table<Length>
{
    static constexpr std::string_view name = "a length";
    static constexpr std::string_view example = "32 mm";
    static constexpr std::array<NamedUnit<Length>, 5> units = {{
        {"m", "", metre},
        {"cm", "", centimetre},
        {"mm", "", millimetre},
        {"in", "", inch},
        {"ft", "", foot},
    }};
};

template<>
struct Table<Density>
{
    static constexpr std::string_view name = "a density";
    static constexpr std::string_view example = "870 kg/m³";
    static constexpr std::array<NamedUnit<Density>, 2> units = {{
        {"kg/m³", "kg/m3", kilogramPerCubicMetre},
        {"g/mL", "g/ml g/cm3 g/cm³ kg/L", gramPerMillilitre},
    }};
};

template<>
struct Table<KinematicViscosity>
{
    static constexpr std::string_view name = "a kinematic viscosity";
    static constexpr std::string_view example = "46 cSt";
    static constexpr std::array<NamedUnit<KinematicViscosity>, 2> units = {{
        {"m²/s", "m2/s", squareMetrePerSecond},
        {"cSt", "mm²/s mm2/s", centistokes},
    }};
};

template<>
struct Table<Power>
{
    static constexpr std::string_view name = "a power";
    static constexpr std::string_view example = "0.75 kW";
    static constexpr std::array<NamedUnit<Power>, 3> units = {{
        {"W", "", watt},
        {"kW", "", kilowatt},
        {"hp", "HP", horsepower},
    }};
};

template<>
struct Table<Current>
{
    static constexpr std::string_view name = "a current";
    static constexpr std::string_view example = "16 A";
    static constexpr std::array<NamedUnit<Current>, 1> units = {{{"A", "", ampere}}};
};

template<>
struct Table<Voltage>
{
    static constexpr std::string_view name = "a voltage";
    static constexpr std::string_view example = "230 V";
    static constexpr std::array<NamedUnit<Voltage>, 1> units = {{{"V", "", volt}}};
};

template<>
struct Table<Fraction>
{
    static constexpr std::string_view name = "a part of the whole";
    static constexpr std::string_view example = "1400 ppm";
    static constexpr std::array<NamedUnit<Fraction>, 2> units = {{
        {"%", "percent", percent},
        {"ppm", "mg/kg", partPerMillion},
    }};
};

template<>
struct Table<Temperature>
{
    static constexpr std::string_view name = "a temperature";
    static constexpr std::string_view example = "72 °F";
    static constexpr std::array<NamedUnit<Temperature>, 3> units = {{
        {"K", "", kelvin},
        {"°C", "C degC", celsius},
        {"°F", "F degF", fahrenheit},
    }};
};

bool names(std::string_view spellings, std::string_view symbol)
{
    while (!spellings.empty()) {
        const auto end = std::min(spellings.find(' '), spellings.size());
        if (spellings.substr(0, end) == symbol) {
            return true;
        }
        spellings.remove_prefix(std::min(end + 1, spellings.size()));
    }
    return false;
}

template<class Q>
std::string acceptedSymbols()
{
    std::string list;
    for (const auto& unit : Table<Q>::units) {
        list += (list.empty() ? "" : ", ") + std::string(unit.symbol);
    }
    return list;
}

/// The sentence for text whose number could not be read: too long to be one, or none at all.
template<class Q>
std::string whyNoNumber(std::string_view text, const Error& error)
{
    if (error.code == Errc::OutOfRange || readsInTwoWays(text.substr(0, text.find_first_of(" \t")))) {
        return error.sentence;
    }
    return "\"" + quotable(text) + "\" is not " + std::string(Table<Q>::name)
        + ": a number and a unit are needed, such as \"" + std::string(Table<Q>::example) + "\"";
}

bool partOfNumber(char sign)
{
    return (sign >= '0' && sign <= '9') || sign == '.' || sign == ',' || sign == '-' || sign == '+';
}

} // namespace

template<class Q>
std::span<const NamedUnit<Q>> namedUnits()
{
    return Table<Q>::units;
}

template<class Q>
std::string_view kindName()
{
    return Table<Q>::name;
}

template<class Q>
Result<const NamedUnit<Q>*> unitNamed(std::string_view symbol)
{
    for (const auto& unit : Table<Q>::units) {
        if (unit.symbol == symbol || names(unit.otherSymbols, symbol)) {
            return &unit;
        }
    }
    return fail(Errc::NotFound,
                "\"" + quotable(symbol) + "\" is not a unit of " + std::string(kindName<Q>()) + "; known are "
                    + acceptedSymbols<Q>());
}

template<class Q>
Result<Typed<Q>> Typed<Q>::parse(std::string_view text)
{
    const std::string_view all = trimmed(text);
    std::size_t digits = 0;
    while (digits < all.size() && partOfNumber(all[digits])) {
        ++digits;
    }
    const std::string_view symbol = trimmed(all.substr(digits));
    const auto number = Decimal::parse(all.substr(0, digits));
    if (!number) {
        return fail(number.error().code, whyNoNumber<Q>(text, number.error()));
    }
    if (symbol.empty()) {
        return fail(Errc::Malformed,
                    "\"" + quotable(text) + "\" has no unit; " + std::string(kindName<Q>()) + " needs one of "
                        + acceptedSymbols<Q>());
    }
    const auto unit = unitNamed<Q>(symbol);
    if (!unit) {
        return fail(unit.error());
    }
    return Typed(*number, **unit);
}

template<class Q>
std::string print(Q quantity, const NamedUnit<Q>& unit, int decimals)
{
    return fixed(quantity.in(unit.unit), decimals) + " " + std::string(unit.symbol);
}

int computedDecimals(const NamedUnit<Pressure>& unit)
{
    const double step_kpa = Pressure(1.0, unit.unit).in(kilopascal);
    return step_kpa >= 50.0 ? 2 : step_kpa >= 2.0 ? 1 : 0;
}

std::string printComputed(Pressure pressure, const NamedUnit<Pressure>& unit)
{
    return print(pressure, unit, computedDecimals(unit));
}

std::string printComputed(Pressure pressure, const NamedUnit<Pressure>& unit, Pressure error)
{
    constexpr double stepsOfError = 30.0; // ours: two needles read to their marks keep their digit, swinging ones not
    int decimals = computedDecimals(unit);
    while (decimals > 0 && std::abs(error.in(unit.unit)) > stepsOfError * std::pow(10.0, -decimals)) {
        --decimals;
    }
    return print(pressure, unit, decimals);
}

#define LOOPSIDE_TYPED(Q)                                                                                              \
    template std::span<const NamedUnit<Q>> namedUnits<Q>();                                                            \
    template std::string_view kindName<Q>();                                                                           \
    template Result<const NamedUnit<Q>*> unitNamed<Q>(std::string_view);                                               \
    template class Typed<Q>;                                                                                           \
    template std::string print<Q>(Q, const NamedUnit<Q>&, int);

LOOPSIDE_TYPED(Pressure)
LOOPSIDE_TYPED(Volume)
LOOPSIDE_TYPED(Flow)
LOOPSIDE_TYPED(Duration)
LOOPSIDE_TYPED(Length)
LOOPSIDE_TYPED(Density)
LOOPSIDE_TYPED(KinematicViscosity)
LOOPSIDE_TYPED(Power)
LOOPSIDE_TYPED(Current)
LOOPSIDE_TYPED(Voltage)
LOOPSIDE_TYPED(Fraction)
LOOPSIDE_TYPED(Temperature)

#undef LOOPSIDE_TYPED

} // namespace loopside::units
