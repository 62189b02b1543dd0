// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/motor.h"

#include "filtration/refusal.h"

#include <catch2/catch.hpp>

#include <cmath>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using loopside::test::refusal;
using namespace loopside::filtration;
using namespace loopside::units;

namespace {

double amperesOf(double hp, double volts)
{
    return fullLoadCurrent(hp * horsepower, volts * volt).value().in(ampere);
}

} // namespace

TEST_CASE("full-load currents are those of NEC table 430.248")
{
    // Two agreeing copies of the table, read.
    const auto [hp, at115, at200, at208,
                at230] = GENERATE(table<double, double, double, double, double>({{1.0 / 6.0, 4.4, 2.5, 2.4, 2.2},
                                                                                 {0.25, 5.8, 3.3, 3.2, 2.9},
                                                                                 {1.0 / 3.0, 7.2, 4.1, 4.0, 3.6},
                                                                                 {0.5, 9.8, 5.6, 5.4, 4.9},
                                                                                 {0.75, 13.8, 7.9, 7.6, 6.9},
                                                                                 {1.0, 16.0, 9.2, 8.8, 8.0},
                                                                                 {1.5, 20.0, 11.5, 11.0, 10.0},
                                                                                 {2.0, 24.0, 13.8, 13.2, 12.0},
                                                                                 {3.0, 34.0, 19.6, 18.7, 17.0},
                                                                                 {5.0, 56.0, 32.2, 30.8, 28.0}}));
    CAPTURE(hp);
    CHECK_THAT(amperesOf(hp, 115.0), WithinRel(at115, 1e-12));
    CHECK_THAT(amperesOf(hp, 200.0), WithinRel(at200, 1e-12));
    CHECK_THAT(amperesOf(hp, 208.0), WithinRel(at208, 1e-12));
    CHECK_THAT(amperesOf(hp, 230.0), WithinRel(at230, 1e-12));
}

TEST_CASE("the table holds at the supply voltages around those of the motors, and for kilowatts near a rating")
{
    CHECK(amperesOf(1.0, 110.0) == amperesOf(1.0, 115.0));
    CHECK(amperesOf(1.0, 120.0) == amperesOf(1.0, 115.0));
    CHECK(amperesOf(1.0, 220.0) == amperesOf(1.0, 230.0));
    CHECK(amperesOf(1.0, 240.0) == amperesOf(1.0, 230.0));
    CHECK(fullLoadCurrent(0.75 * kilowatt, 230.0 * volt).value().in(ampere) == 8.0);
}

TEST_CASE("a motor or supply that the table does not have is told with what it has")
{
    const double hp = GENERATE(0.6, 7.5, 0.0, -1.0, std::nan(""));
    CHECK_THAT(refusal(fullLoadCurrent(hp * horsepower, 115.0 * volt), loopside::Errc::NotFound),
               Contains("has no motor of") && Contains("it has 1/6, 1/4, 1/3, 1/2, 3/4, 1, 1 1/2, 2, 3, 5 hp"));
    const double volts = GENERATE(100.0, 121.0, 204.0, 400.0, std::nan(""));
    CHECK_THAT(refusal(fullLoadCurrent(1.0 * horsepower, volts * volt), loopside::Errc::NotFound),
               Contains("has no supply of") && Contains("110 to 120, 200, 208 and 220 to 240 V"));
}

TEST_CASE("the current of a motor follows from its electrical power")
{
    // 10 kW at 120 V and a power factor of 1: tests of the library fluids, read.
    CHECK_THAT(motorCurrent(10.0 * kilowatt, 120.0 * volt, 1.0, 1).value().in(ampere), WithinAbs(83.3333, 5e-5));
    // A shaft power of ½ hp at 0.6 of efficiency: computed outside this program.
    CHECK_THAT(motorCurrent(0.5 / 0.6 * horsepower, 115.0 * volt, 0.7, 1).value().in(ampere), WithinAbs(7.72, 5e-3));
}

TEST_CASE("three lines share the current of one")
{
    const double single = motorCurrent(2.0 * kilowatt, 230.0 * volt, 0.8, 1).value().in(ampere);
    const double three = motorCurrent(2.0 * kilowatt, 230.0 * volt, 0.8, 3).value().in(ampere);
    CHECK_THAT(single / three, WithinRel(std::sqrt(3.0), 1e-12));
    CHECK_THAT(three * std::sqrt(3.0) * 230.0 * 0.8, WithinRel(2000.0, 1e-12)); // back to the power
}

TEST_CASE("four fifths of a circuit are for continuous loads")
{
    // NEC 210.20(A), read at second hand.
    CHECK_THAT(continuousCapacity(15.0 * ampere).in(ampere), WithinRel(12.0, 1e-12));
    CHECK_THAT(continuousCapacity(20.0 * ampere).in(ampere), WithinRel(16.0, 1e-12));
}

TEST_CASE("a motor of 1 hp at 115 V is the most for a circuit of 20 A and too much for one of 15 A")
{
    const Current drawn = fullLoadCurrent(1.0 * horsepower, 115.0 * volt).value();
    const CircuitCheck on20 = checkCircuit(drawn, 20.0 * ampere).value();
    CHECK(on20.fits);
    CHECK_THAT(on20.sentence,
               Contains("draws 16.0 A, within 16.0 A, 80 % of a circuit of 20.0 A")
                   && Contains("local code and a qualified electrician decide"));
    const CircuitCheck on15 = checkCircuit(drawn, 15.0 * ampere).value();
    CHECK_FALSE(on15.fits);
    CHECK(on15.drawn == drawn);
    CHECK_THAT(on15.continuousCapacity.in(ampere), WithinRel(12.0, 1e-12));
    CHECK_THAT(on15.sentence,
               Contains("draws 16.0 A, more than 12.0 A") && Contains("local code and a qualified electrician decide"));
}

TEST_CASE("a motor or circuit that cannot be is refused with the fault named")
{
    using loopside::Errc;
    const double number = GENERATE(0.0, -1.0, std::nan(""));
    CAPTURE(number);
    CHECK_THAT(refusal(motorCurrent(number * watt, 115.0 * volt, 0.7, 1), Errc::OutOfRange),
               Contains("electrical power of the motor"));
    CHECK_THAT(refusal(motorCurrent(1.0 * kilowatt, number * volt, 0.7, 1), Errc::OutOfRange), Contains("voltage"));
    CHECK_THAT(refusal(motorCurrent(1.0 * kilowatt, 115.0 * volt, number, 1), Errc::OutOfRange),
               Contains("power factor"));
    CHECK_THAT(refusal(motorCurrent(1.0 * kilowatt, 115.0 * volt, 1.1, 1), Errc::OutOfRange),
               Contains("at most 1; it is 1.10"));
    CHECK_THAT(refusal(motorCurrent(1.0 * kilowatt, 115.0 * volt, 0.7, 2), Errc::OutOfRange), Contains("1 or 3"));
    CHECK_THAT(refusal(checkCircuit(number * ampere, 15.0 * ampere), Errc::OutOfRange),
               Contains("current of the motor"));
    CHECK_THAT(refusal(checkCircuit(12.0 * ampere, number * ampere), Errc::OutOfRange),
               Contains("rating of the circuit"));
}
