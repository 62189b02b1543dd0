// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "units/quantity.h"

#include "units/temperature.h"

#include <catch2/catch.hpp>

#include <type_traits>

using namespace loopside::units;

namespace {

template<class A, class B>
concept Addable = requires(A a, B b) { a + b; };
template<class A, class B>
concept Subtractable = requires(A a, B b) { a - b; };
template<class A, class B>
concept Comparable = requires(A a, B b) { a < b; };
template<class A, class B>
concept Multipliable = requires(A a, B b) { a* b; };
template<class Q, class Unit>
concept ReadableIn = requires(Q q, Unit unit) { q.in(unit); };

static_assert(Addable<Pressure, Pressure>);
static_assert(!Addable<Pressure, double>);
static_assert(!Addable<double, Pressure>);
static_assert(!Addable<Pressure, Volume>);
static_assert(!Subtractable<Flow, Volume>);
static_assert(Comparable<Pressure, Pressure>);
static_assert(!Comparable<Pressure, double>);
static_assert(!Comparable<Pressure, DynamicViscosity>);
static_assert(!std::is_convertible_v<Pressure, double>);
static_assert(!std::is_convertible_v<double, Pressure>);
static_assert(!std::is_constructible_v<Pressure, double>);
static_assert(!std::is_constructible_v<Pressure, double, Volume::Unit>);
static_assert(ReadableIn<Pressure, Pressure::Unit>);
static_assert(!ReadableIn<Pressure, Volume::Unit>);
static_assert(!ReadableIn<Temperature, TemperatureDifference::Unit>);
static_assert(Multipliable<Flow, Duration>);
static_assert(!Multipliable<Flow, Volume>);
static_assert(!Multipliable<Pressure, Pressure>);

static_assert(!Addable<Temperature, Temperature>);
static_assert(Addable<Temperature, TemperatureDifference>);
static_assert(!Multipliable<Temperature, double>);
static_assert(std::is_same_v<decltype(Temperature{} - Temperature{}), TemperatureDifference>);

template<class Q>
void checkTrip(double number, typename Q::Unit unit)
{
    CAPTURE(number);
    // One rounding in, one out.
    CHECK_THAT((number * unit).in(unit), Catch::WithinRel(number, 1e-15));
}

} // namespace

TEST_CASE("a quantity survives the trip through any unit")
{
    const double number = GENERATE(3.7, 1e-9, 1e9, -0.3);
    for (const auto unit : {pascal, kilopascal, megapascal, millibar, bar, psi, kgfPerCm2}) {
        checkTrip<Pressure>(number, unit);
    }
    for (const auto unit : {cubicMetrePerSecond, cubicMetrePerHour, litrePerMinute, litrePerHour, gallonPerMinute}) {
        checkTrip<Flow>(number, unit);
    }
    for (const auto unit : {cubicMetre, litre, millilitre, gallon}) {
        checkTrip<Volume>(number, unit);
    }
    for (const auto unit : {pascalSecond, centipoise}) {
        checkTrip<DynamicViscosity>(number, unit);
    }
}

TEST_CASE("quantities of one kind add, scale and compare")
{
    Pressure drop = 3.0 * bar - 50.0 * kilopascal;
    CHECK_THAT(drop.in(bar), Catch::WithinRel(2.5, 1e-15));
    drop += 1.0 * bar;
    drop -= 0.5 * bar;
    CHECK_THAT((2.0 * drop / 4.0).in(bar), Catch::WithinRel(1.5, 1e-15));
    CHECK_THAT(-drop / (1.5 * bar), Catch::WithinRel(-2.0, 1e-15));
    CHECK(2.0 * bar > 199.0 * kilopascal);
    CHECK(1.0 * bar == 1e5 * pascal);
}

TEST_CASE("kinds combine only where the trade does")
{
    // Computed by hand: 19 L/min for 20 min is 380 L; 400 L at 20 L/min takes 20 min; 100 cSt × 870 kg/m³ is 87 cP.
    CHECK_THAT((19.0 * litrePerMinute * (20.0 * minute)).in(litre), Catch::WithinRel(380.0, 1e-14));
    CHECK_THAT((400.0 * litre / (20.0 * litrePerMinute)).in(minute), Catch::WithinRel(20.0, 1e-14));
    CHECK_THAT((100.0 * centistokes * (870.0 * kilogramPerCubicMetre)).in(centipoise), Catch::WithinRel(87.0, 1e-14));
}

TEST_CASE("temperatures are points, and their differences are amounts")
{
    // Fixed points of the scales, by definition: 0 °C = 273.15 K = 32 °F, 100 °C = 212 °F (1 atm, old definition), −40
    // meet.
    CHECK_THAT((0.0 * celsius).in(kelvin), Catch::WithinRel(273.15, 1e-15));
    CHECK_THAT((32.0 * fahrenheit).in(celsius), Catch::WithinAbs(0.0, 1e-12));
    CHECK_THAT((212.0 * fahrenheit).in(celsius), Catch::WithinRel(100.0, 1e-13));
    CHECK_THAT((-40.0 * celsius).in(fahrenheit), Catch::WithinRel(-40.0, 1e-13));

    const TemperatureDifference warmer = 50.0 * celsius - 40.0 * celsius;
    CHECK_THAT(warmer.in(kelvins), Catch::WithinRel(10.0, 1e-13));
    CHECK_THAT(warmer.in(fahrenheitDegrees), Catch::WithinRel(18.0, 1e-13));
    CHECK_THAT((40.0 * celsius + warmer).in(celsius), Catch::WithinRel(50.0, 1e-13));
    CHECK_THAT((40.0 * celsius - warmer).in(celsius), Catch::WithinRel(30.0, 1e-13));
    CHECK(71.0 * fahrenheit < 22.0 * celsius);
}
