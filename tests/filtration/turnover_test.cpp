// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/turnover.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

using Catch::Contains;
using Catch::WithinRel;
using namespace loopside::filtration;
using namespace loopside::units;

TEST_CASE("a run of n turnovers passes n tanks of oil")
{
    const double turnovers = GENERATE(0.0, 0.5, 1.0, 7.0, 12.0);
    const Volume tank = 400.0 * litre;
    const Flow flow = 19.0 * litrePerMinute;
    const auto time = runTime(turnovers, tank, flow);
    REQUIRE(time.has_value());
    CHECK_THAT((flow * *time).in(litre), WithinRel(turnovers * 400.0, 1e-12));
}

TEST_CASE("one turnover takes the turnover time")
{
    CHECK(runTime(1.0, 300.0 * litre, 19.0 * litrePerMinute).value()
          == turnoverTime(300.0 * litre, 19.0 * litrePerMinute).value());
}

TEST_CASE("a tank, a flow or a count that cannot be is refused with the fault named")
{
    const double number = GENERATE(0.0, -1.0, std::nan(""));
    CAPTURE(number);
    const auto noTank = turnoverTime(number * litre, 19.0 * litrePerMinute);
    REQUIRE_FALSE(noTank.has_value());
    CHECK(noTank.error().code == loopside::Errc::OutOfRange);
    CHECK_THAT(noTank.error().sentence, Contains("tank volume"));

    const auto noFlow = runTime(7.0, 400.0 * litre, number * litrePerMinute);
    REQUIRE_FALSE(noFlow.has_value());
    CHECK(noFlow.error().code == loopside::Errc::OutOfRange);
    CHECK_THAT(noFlow.error().sentence, Contains("flow"));
}

TEST_CASE("a number of turnovers that cannot be is refused with the fault named")
{
    const double turnovers = GENERATE(-1.0, std::nan(""), std::numeric_limits<double>::infinity());
    CAPTURE(turnovers);
    const auto time = runTime(turnovers, 400.0 * litre, 19.0 * litrePerMinute);
    REQUIRE_FALSE(time.has_value());
    CHECK(time.error().code == loopside::Errc::OutOfRange);
    CHECK_THAT(time.error().sentence, Contains("number of turnovers"));
}

TEST_CASE("what is left behind falls with every turnover, and shares multiply")
{
    const double captureTimesMixing = GENERATE(0.5, 0.7, 1.0);
    CHECK(leftBehind(0.0, captureTimesMixing) == 1.0);
    CHECK(leftBehind(3.0, captureTimesMixing) < leftBehind(2.0, captureTimesMixing));
    CHECK_THAT(leftBehind(2.0, captureTimesMixing) * leftBehind(3.0, captureTimesMixing),
               WithinRel(leftBehind(5.0, captureTimesMixing), 1e-12));
    CHECK(leftBehind(7.0, 0.0) == 1.0);
}
