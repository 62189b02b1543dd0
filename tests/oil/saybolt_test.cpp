// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/saybolt.h"

#include <catch2/catch.hpp>

#include <limits>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside::oil;
using namespace loopside::units;

namespace {

constexpr double notANumber = std::numeric_limits<double>::quiet_NaN();

double susOf(double cSt, Temperature at = sayboltTemperature)
{
    return sayboltSeconds(cSt * centistokes, at).value().in(second);
}

} // namespace

TEST_CASE("700 Saybolt seconds are 151.089 cSt")
{
    // The chemicals library's worked value of ASTM D2161.
    CHECK_THAT(viscosityFromSaybolt(700.0 * second).value().in(centistokes), WithinAbs(151.089, 0.0005));
}

TEST_CASE("thick oil has 4.632 seconds a cSt")
{
    // The Hydraulic Institute's short cut from 70 cSt up; D2161's own equation tends to 4.6324.
    CHECK_THAT(susOf(75.0), WithinRel(4.632 * 75.0, 0.002));
    CHECK_THAT(susOf(1e5), WithinRel(4.6324 * 1e5, 1e-6));
}

TEST_CASE("a viscosity turned into seconds and back is what it was")
{
    for (double cSt = 1.81; cSt < 2e7; cSt *= 1.37) {
        for (const double at : {-40.0, 20.0, 37.7, 98.9, 150.0}) {
            CAPTURE(cSt, at);
            const auto seconds = sayboltSeconds(cSt * centistokes, at * celsius).value();
            CHECK_THAT(viscosityFromSaybolt(seconds, at * celsius).value().in(centistokes), WithinRel(cSt, 1e-9));
        }
    }
}

TEST_CASE("thicker oil takes more seconds, and as many take a little more where it is warmer")
{
    for (double cSt = 1.82; cSt < 2e7; cSt *= 1.05) {
        CAPTURE(cSt);
        CHECK(susOf(cSt) > susOf(cSt / 1.005));
    }
    // The factor of D2161 from memory: 0.61 % from 100 to 200 °F.
    CHECK_THAT(susOf(50.0, 200.0 * fahrenheit) / susOf(50.0), WithinRel(1.0061, 1e-9));
}

TEST_CASE("what Saybolt seconds are not told for is refused with the range")
{
    const double cSt = GENERATE(0.0, -1.0, 1.80, 2.1e7, notANumber);
    CAPTURE(cSt);
    CHECK_THAT(sayboltSeconds(cSt * centistokes).error().sentence, Contains("from 1.81 to 20000000 cSt"));
    const double seconds = GENERATE(0.0, -700.0, 31.9, 1e9, notANumber);
    CAPTURE(seconds);
    CHECK_THAT(viscosityFromSaybolt(seconds * second).error().sentence, Contains("go from 32.0 to"));
    CHECK_THAT(sayboltSeconds(46.0 * centistokes, 400.0 * celsius).error().sentence, Contains("Saybolt"));
    CHECK_FALSE(viscosityFromSaybolt(700.0 * second, -41.0 * celsius).has_value());
}
