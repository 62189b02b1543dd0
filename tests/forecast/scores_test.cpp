// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The figures by which the forecast is judged, against examples worked by hand.

#include "scores.h"

#include "baselines.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace loopside::evaluation;
using Catch::WithinAbs;
using loopside::forecast::Posterior;

TEST_CASE("the Brier score and its skill")
{
    // (0.9−1)² + (0.2−0)² + (0.6−1)² + (0.5−0)² = 0.01 + 0.04 + 0.16 + 0.25 = 0.46, ÷ 4; base 0.5·0.5.
    const std::vector<Told> told = {{0.9, true}, {0.2, false}, {0.6, true}, {0.5, false}};
    CHECK_THAT(brierScore(told), WithinAbs(0.115, 1e-12));
    CHECK_THAT(brierSkill(told), WithinAbs(1.0 - 0.115 / 0.25, 1e-12));
    const std::vector<Told> always = {{0.3, true}, {0.3, true}};
    CHECK(brierSkill(always) == 0.0);
}

TEST_CASE("a reliability table counts each probability in its bin")
{
    const std::vector<Told> told = {{0.0, false}, {0.05, true}, {0.55, true}, {1.0, true}};
    const auto bins = reliability(told, 10);
    REQUIRE(bins.size() == 10);
    CHECK(bins[0].count == 2);
    CHECK_THAT(bins[0].told, WithinAbs(0.025, 1e-12));
    CHECK_THAT(bins[0].came, WithinAbs(0.5, 1e-12));
    CHECK(bins[5].count == 1);
    CHECK(bins[9].count == 1); // 1 belongs to the last
}

TEST_CASE("the ranked probability score of a forecast that is sure is how far it is off, and of an even one less")
{
    // All at 10: F is a half at the middle and steps within nothing, so what is left is the distance.
    CHECK_THAT(crps(Posterior{{10.0, 10.0}, {0.5, 0.5}}, 14.0), WithinAbs(4.0, 1e-9));
    // Masses 0.25 and 0.75 at 0 and 1: F goes from 0.125 to 0.625 in a straight line. Truth at 0:
    // ∫ (F−1)² = (0.875³ − 0.375³)/(3·0.5) = (0.669922 − 0.052734)/1.5 = 0.411458.
    CHECK_THAT(crps(Posterior{{0.0, 1.0}, {0.25, 0.75}}, 0.0), WithinAbs(0.4114583, 1e-6));
    // Truth at 0.5, F(0.5) = 0.375: ∫ F² over the first half + ∫ (1−F)² over the second
    // = (0.375³ − 0.125³)/1.5 + (0.625³ − 0.375³)/1.5 = (0.050781 + 0.191406)/1.5 = 0.161458.
    CHECK_THAT(crps(Posterior{{0.0, 1.0}, {0.25, 0.75}}, 0.5), WithinAbs(0.1614583, 1e-6));
}

TEST_CASE("the band of a share is that of the binomial distribution")
{
    // Of 20 fair coins 6 to 14 heads are the middle 95 %: P(X ≤ 5) = 0.0207, P(X ≤ 6) = 0.0577 (any table).
    const Band band = binomialBand(20, 0.5);
    CHECK_THAT(band.low, WithinAbs(5.0 / 20.0, 0.051)); // one step to either side, by how ties are counted
    CHECK_THAT(band.high, WithinAbs(14.0 / 20.0, 0.051));
}

TEST_CASE("an interval covers what lies between its quantiles")
{
    Posterior even;
    for (int i = 0; i < 100; ++i) {
        even.loads.push_back(i + 0.5);
        even.masses.push_back(0.01);
    }
    CHECK(covers(even, 0.8, 11.0));
    CHECK(covers(even, 0.8, 89.0));
    CHECK_FALSE(covers(even, 0.8, 9.0));
    CHECK_FALSE(covers(even, 0.8, 91.0));
    CHECK_THAT(quantile(even, 0.25), WithinAbs(25.0, 1e-9));
    CHECK_THAT(probabilityBy(even, 25.0), WithinAbs(0.25, 1e-9));
}

TEST_CASE("the yardsticks find a line on a line and an exponential on an exponential")
{
    std::vector<Point> line;
    std::vector<Point> exponentials;
    for (int i = 0; i < 10; ++i) {
        line.push_back({1.0 * i, 0.1 + 0.05 * i});
        exponentials.push_back({1.0 * i, 0.1 * std::exp(0.1 * i)});
    }
    CHECK_THAT(straightLine(line, 5), WithinAbs(18.0, 1e-9));             // (1 − 0.1)/0.05
    CHECK_THAT(exponential(exponentials, 8), WithinAbs(23.025851, 1e-6)); // ln 10 ÷ 0.1
    CHECK(std::isinf(straightLine(std::vector<Point>{{0.0, 0.5}, {1.0, 0.4}}, 5)));
}

TEST_CASE("the median of an even number of values is the mean of the middle two")
{
    CHECK(median({4.0, 1.0, 3.0, 2.0}) == 2.5);
    CHECK(median({3.0, 1.0, 2.0}) == 2.0);
    CHECK(std::isnan(median({})));
}
