// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/tank.h"

#include "base/text.h"
#include "filtration/checks.h"

#include <boost/math/tools/toms748_solve.hpp>

#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <string>
#include <utility>

namespace loopside::filtration {

using units::centimetre;
using units::cubicMetre;
using units::Length;
using units::litre;
using units::metre;
using units::Volume;

namespace {

template<class... F>
struct Overloaded : F...
{
    using F::operator()...;
};
template<class... F>
Overloaded(F...) -> Overloaded<F...>;

Done checkDimensions(const TankShape& shape)
{
    const auto check = [](Length length, std::string_view what) {
        return checkAboveZero(length.in(centimetre), std::string(what) + " of the tank", "cm");
    };
    const auto checkTwo = [&](Length first, std::string_view what, Length second, std::string_view other) {
        return check(first, what).and_then([&] { return check(second, other); });
    };
    return std::visit(Overloaded{[&](const BoxTank& box) {
                                     return check(box.length, "length").and_then([&] {
                                         return checkTwo(box.width, "width", box.height, "height");
                                     });
                                 },
                                 [&](const UprightCylinder& upright) {
                                     return checkTwo(upright.diameter, "diameter", upright.height, "height");
                                 },
                                 [&](const LyingCylinder& lying) {
                                     return checkTwo(lying.diameter, "diameter", lying.length, "length");
                                 }},
                      shape);
}

double discM2(Length diameter)
{
    const double radius = diameter.in(metre) / 2.0;
    return std::numbers::pi * radius * radius;
}

/// The part (0 to 1) of a disc below a chord that is `part` (0 to 1) of the diameter above its lowest point.
double discPartBelow(double part)
{
    const double angle = 2.0 * std::acos(1.0 - 2.0 * part);
    return (angle - std::sin(angle)) / (2.0 * std::numbers::pi);
}

/// The inverse of `discPartBelow`.
double chordFor(double discPart)
{
    if (discPart <= 0.0 || discPart >= 1.0) {
        return discPart <= 0.0 ? 0.0 : 1.0;
    }
    std::uintmax_t rounds = 100;
    const auto [low, high] = boost::math::tools::toms748_solve(
        [&](double part) { return discPartBelow(part) - discPart; }, 0.0, 1.0, -discPart, 1.0 - discPart,
        boost::math::tools::eps_tolerance<double>(), rounds);
    return (low + high) / 2.0;
}

/// The part of the capacity below a level that is `part` of the height.
double filledPart(const TankShape& shape, double part)
{
    return std::holds_alternative<LyingCylinder>(shape) ? discPartBelow(part) : part;
}

double levelPart(const TankShape& shape, double filled)
{
    return std::holds_alternative<LyingCylinder>(shape) ? chordFor(filled) : filled;
}

std::string litres(Volume volume)
{
    return fixed(volume.in(litre), 1) + " L";
}

} // namespace

Length heightOf(const TankShape& shape)
{
    return std::visit(Overloaded{[](const BoxTank& box) { return box.height; },
                                 [](const UprightCylinder& upright) { return upright.height; },
                                 [](const LyingCylinder& lying) { return lying.diameter; }},
                      shape);
}

Result<Volume> capacityOf(const TankShape& shape)
{
    return checkDimensions(shape).transform([&] {
        const double cubicMetres = std::visit(
            Overloaded{
                [](const BoxTank& box) { return box.length.in(metre)*box.width.in(metre)*box.height.in(metre); },
                [](const UprightCylinder& upright) { return discM2(upright.diameter) * upright.height.in(metre); },
                [](const LyingCylinder& lying) { return discM2(lying.diameter) * lying.length.in(metre); }},
            shape);
        return cubicMetres * cubicMetre;
    });
}

Result<Volume> volumeAt(const TankShape& shape, Length level)
{
    const auto capacity = capacityOf(shape);
    if (capacity && !(level >= Length{} && level <= heightOf(shape))) {
        return fail(Errc::OutOfRange,
                    "The level must be from zero to the height of the tank, " + fixed(heightOf(shape).in(centimetre), 1)
                        + " cm; it is " + fixed(level.in(centimetre), 1) + " cm.");
    }
    return capacity.transform([&](Volume all) { return filledPart(shape, level / heightOf(shape)) * all; });
}

Result<Length> levelFor(const TankShape& shape, Volume volume)
{
    const auto capacity = capacityOf(shape);
    if (capacity && !(volume >= Volume{} && volume <= *capacity)) {
        return fail(Errc::OutOfRange,
                    "The oil must be from zero to what the tank holds, " + litres(*capacity) + "; it is "
                        + litres(volume) + ".");
    }
    return capacity.transform([&](Volume all) { return levelPart(shape, volume / all) * heightOf(shape); });
}

Result<Length> levelFall(const TankShape& shape, Length level, Volume drawn)
{
    const auto before = volumeAt(shape, level);
    if (before && drawn > *before) {
        return fail(Errc::OutOfRange,
                    "The cart draws " + litres(drawn) + ", and the tank holds " + litres(*before) + " at this level.");
    }
    return before.and_then([&](Volume oil) { return levelFor(shape, oil - drawn); }).transform([&](Length after) {
        return level - after;
    });
}

Result<Length> levelFall(Length length, Length width, Volume drawn)
{
    return checkAboveZero(length.in(centimetre), "length of the oil's surface", "cm")
        .and_then([&] { return checkAboveZero(width.in(centimetre), "width of the oil's surface", "cm"); })
        .transform([&] { return drawn.in(cubicMetre) / (length.in(metre)*width.in(metre)) * metre; });
}

Result<HeadSpace> headSpace(Volume capacity, Volume oil)
{
    if (auto checked = checkAboveZero(capacity.in(litre), "capacity", "L"); !checked) {
        return fail(checked.error());
    }
    if (!(oil >= Volume{} && oil <= capacity)) {
        return fail(Errc::OutOfRange,
                    "The oil must be from zero to the capacity, " + litres(capacity) + "; it is " + litres(oil) + ".");
    }
    return HeadSpace{capacity - oil, 0.02 * oil, 0.03 * oil};
}

Mixing mixingOf(HosePlacement placement)
{
    switch (placement) {
    case HosePlacement::OppositeEnds:
        return {0.9,
                "Suction and return are at opposite ends and the return is below the surface: good mixing, "
                "counted as 0.9."};
    case HosePlacement::SameSideApart:
        return {0.7,
                "Suction and return are on the same side, more than half a tank apart: fair mixing, counted as "
                "0.7."};
    case HosePlacement::Adjacent:
        return {0.5, "Suction and return are close together: part of the oil goes round and round, counted as 0.5."};
    case HosePlacement::BothAtTop:
        return {0.5, "Suction and return are both at the top: the oil below is hardly moved, counted as 0.5."};
    case HosePlacement::OneBung:
        return {0.5, "Suction and return are in one bung: part of the oil goes round and round, counted as 0.5."};
    case HosePlacement::Unknown:
        break;
    }
    return {0.7, "Where suction and return stand is not known: 0.7 is assumed."};
}

Result<units::TemperatureDifference> warmingPerHour(units::Power power, Volume oil)
{
    constexpr double densityKgPerM3 = 870.0;
    constexpr double heatJPerKgK = 1900.0;
    return checkZeroOrMore(power.in(units::watt), "power", "W")
        .and_then([&] { return checkAboveZero(oil.in(litre), "oil in the tank", "L"); })
        .transform([&] {
            const double heatJPerK = oil.in(cubicMetre)*densityKgPerM3 * heatJPerKgK;
            return power.in(units::watt) * (1.0 * units::hour).in(units::second) / heatJPerK * units::kelvins;
        });
}

Result<units::Duration> timeToWarm(units::Power power, Volume oil, units::TemperatureDifference warmer)
{
    return checkAboveZero(power.in(units::watt), "power", "W")
        .and_then([&] { return checkAboveZero(warmer.in(units::kelvins), "warming", "°C"); })
        .and_then([&] { return warmingPerHour(power, oil); })
        .transform([&](units::TemperatureDifference anHour) { return warmer / anHour * units::hour; });
}

} // namespace loopside::filtration
