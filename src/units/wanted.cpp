// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "units/wanted.h"

#include <cmath>

namespace loopside::units {

namespace {

/// Three digits that say something.
template<class Q>
int threeDigits(Q quantity, const NamedUnit<Q>& unit)
{
    const double number = std::abs(quantity.in(unit.unit));
    return number >= 100.0 ? 0 : number >= 10.0 ? 1 : 2;
}

std::string printed(Pressure pressure, const NamedUnit<Pressure>& unit)
{
    return printComputed(pressure, unit);
}

std::string printed(Volume volume, const NamedUnit<Volume>& unit)
{
    return print(volume, unit, threeDigits(volume, unit));
}

std::string printed(Flow flow, const NamedUnit<Flow>& unit)
{
    return print(flow, unit, threeDigits(flow, unit));
}

/// The flow that goes with a unit of volume.
const NamedUnit<Flow>* flowUnit(const Wanted& wanted)
{
    if (wanted.volume == nullptr) {
        return nullptr;
    }
    const std::string_view volume = wanted.volume->symbol;
    const auto flow = unitNamed<Flow>(volume == "gal" ? "gpm" : volume == "m³" ? "m³/h" : "L/min");
    return flow ? *flow : nullptr;
}

template<class Q>
std::string shownIn(const Typed<Q>& typed, const NamedUnit<Q>* unit)
{
    return unit == nullptr || unit == &typed.unit() ? typed.toText() : printed(typed.value(), *unit);
}

template<class Q>
std::optional<std::string> shownAs(std::string_view text, const Wanted& wanted)
{
    const auto typed = Typed<Q>::parse(text);
    return typed ? std::optional(shown(*typed, wanted)) : std::nullopt;
}

} // namespace

std::string shown(const Typed<Pressure>& pressure, const Wanted& wanted)
{
    return shownIn(pressure, wanted.pressure);
}

std::string shown(const Typed<Volume>& volume, const Wanted& wanted)
{
    return shownIn(volume, wanted.volume);
}

std::string shown(const Typed<Flow>& flow, const Wanted& wanted)
{
    return shownIn(flow, flowUnit(wanted));
}

/// With as many digits as were typed: a degree of one scale is not far from one of the other.
std::string shown(const Typed<Temperature>& temperature, const Wanted& wanted)
{
    if (wanted.temperature == nullptr || wanted.temperature == &temperature.unit()) {
        return temperature.toText();
    }
    return print(temperature.value(), *wanted.temperature, temperature.number().places() > 0 ? 1 : 0);
}

std::string shown(Pressure pressure, const NamedUnit<Pressure>& otherwise, const Wanted& wanted)
{
    return printed(pressure, unitOf(otherwise, wanted));
}

std::string shown(Volume volume, const NamedUnit<Volume>& otherwise, const Wanted& wanted)
{
    return printed(volume, wanted.volume != nullptr ? *wanted.volume : otherwise);
}

const NamedUnit<Pressure>& unitOf(const NamedUnit<Pressure>& otherwise, const Wanted& wanted)
{
    return wanted.pressure != nullptr ? *wanted.pressure : otherwise;
}

std::string shown(std::string_view text, const Wanted& wanted)
{
    if (wanted == Wanted{}) {
        return std::string(text);
    }
    for (const auto as : {&shownAs<Pressure>, &shownAs<Volume>, &shownAs<Temperature>, &shownAs<Flow>}) {
        if (const auto told = as(text, wanted)) {
            return *told;
        }
    }
    return std::string(text);
}

} // namespace loopside::units
