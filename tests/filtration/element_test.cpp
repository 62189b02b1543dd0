// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/element.h"

#include "filtration/refusal.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <limits>
#include <vector>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using loopside::test::refusal;
using namespace loopside::filtration;
using namespace loopside::units;

TEST_CASE("efficiencies of filtration ratios are those of a handbook, and back")
{
    // A handbook extract and a calculator page on the beta ratio, read; to the digits printed.
    const auto [beta, efficiencyPct, digits] = GENERATE(table<double, double, double>({{2, 50, 0.0},
                                                                                       {5, 80, 0.0},
                                                                                       {10, 90, 0.0},
                                                                                       {20, 95, 0.0},
                                                                                       {75, 98.667, 5e-4},
                                                                                       {100, 99, 0.0},
                                                                                       {200, 99.5, 0.0},
                                                                                       {1000, 99.9, 0.0},
                                                                                       {2000, 99.95, 0.0},
                                                                                       {5000, 99.98, 0.0}}));
    CAPTURE(beta);
    const Fraction efficiency = efficiencyOf(beta).value();
    CHECK_THAT(efficiency.in(percent), WithinAbs(efficiencyPct, digits + 1e-9));
    CHECK_THAT(betaOf(efficiency).value(), WithinRel(beta, 1e-9));
}

TEST_CASE("an element that holds nothing back has a ratio of one")
{
    CHECK(efficiencyOf(1.0).value() == Fraction{});
    CHECK(betaOf(Fraction{}).value() == 1.0);
}

TEST_CASE("stages in series multiply, and what each lets through multiplies")
{
    const std::vector<double> stages{10.0, 200.0};
    CHECK_THAT(betaInSeries(stages).value(), WithinRel(2000.0, 1e-12));
    const double through = (1.0 - efficiencyOf(10.0).value().in(one)) * (1.0 - efficiencyOf(200.0).value().in(one));
    CHECK_THAT(1.0 / betaInSeries(stages).value(), WithinRel(through, 1e-9));
    CHECK_THAT(betaInSeries(std::array{75.0}).value(), WithinRel(75.0, 1e-12));
}

TEST_CASE("a leak decides what an element is worth")
{
    // Computed outside this program.
    CHECK_THAT(betaWithLeak(200.0, 5.0 * percent).value(), WithinAbs(18.265, 5e-4));
    CHECK_THAT(betaWithLeak(200.0, 10.0 * percent).value(), WithinAbs(9.57, 5e-3));
    CHECK_THAT(betaWithLeak(200.0, Fraction{}).value(), WithinRel(200.0, 1e-12));
    CHECK_THAT(betaWithLeak(200.0, 100.0 * percent).value(), WithinRel(1.0, 1e-12));
}

TEST_CASE("the more leaks the less is held, and never more than 1/leak whatever the element")
{
    double last = std::numeric_limits<double>::infinity();
    for (double leakPct = 0.5; leakPct < 100.0; leakPct *= 1.5) {
        const double beta = betaWithLeak(1000.0, leakPct * percent).value();
        INFO(leakPct);
        CHECK(beta < last);
        CHECK(beta < 100.0 / leakPct);
        CHECK(beta < betaWithLeak(5000.0, leakPct * percent).value());
        last = beta;
    }
}

TEST_CASE("ratios that cannot be are refused with the fault named")
{
    const double beta = GENERATE(0.99, 0.0, -1.0, std::nan(""), std::numeric_limits<double>::infinity());
    CAPTURE(beta);
    CHECK_THAT(refusal(efficiencyOf(beta)), Contains("at least 1"));
    CHECK_THAT(refusal(betaInSeries(std::array{10.0, beta})), Contains("at least 1"));
    CHECK_THAT(refusal(betaWithLeak(beta, 5.0 * percent)), Contains("at least 1"));
}

TEST_CASE("parts that cannot be are refused with the fault named")
{
    CHECK_THAT(refusal(betaInSeries({})), Contains("at least one stage"));
    CHECK_THAT(refusal(betaOf(100.0 * percent)), Contains("below 100 %"));
    const double part = GENERATE(-0.01, 1.01, std::nan(""));
    CHECK_THAT(refusal(betaOf(part * one)), Contains("efficiency of an element"));
    CHECK_THAT(refusal(betaWithLeak(200.0, part * one)), Contains("leaks past an element"));
}

TEST_CASE("a refused efficiency is told in per cent, with two digits")
{
    CHECK(refusal(betaOf(1.2 * one)) == "The efficiency of an element must be from 0 to below 100 %; it is 120.00 %.");
    CHECK(refusal(betaOf(-0.5 * one)) == "The efficiency of an element must be from 0 to below 100 %; it is -50.00 %.");
}
