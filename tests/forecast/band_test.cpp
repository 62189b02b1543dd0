// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The band from the drop now to the limit. Its values are computed here: two lives, one exponential shape.

#include "forecast/band.h"

#include <catch2/catch.hpp>

#include <cmath>

namespace loopside::forecast {

namespace {

/// From 0.1 at the start to 1 at the limit, a straight line of the logarithm.
Family exponential()
{
    Family family;
    family.drops.resize(1, phaseSteps + 1);
    for (int k = 0; k <= phaseSteps; ++k) {
        family.drops(0, k) = std::pow(10.0, static_cast<double>(k) / phaseSteps - 1.0);
    }
    return family;
}

const Posterior twoLives = {{100.0, 200.0}, {0.5, 0.5}};

} // namespace

TEST_CASE("the band begins at the drop now and ends at the limit")
{
    const std::vector<double> loads = {50.0, 100.0, 200.0};
    const auto band = bandAhead(twoLives, exponential(), 50.0, 0.3, loads);
    REQUIRE(band.size() == 3);
    CHECK(band[0].low == Approx(0.3));
    CHECK(band[0].high == Approx(0.3));
    CHECK(band[1].high == 1.0); // the shorter life is over
    CHECK(band[2].low == 1.0);
}

TEST_CASE("the band follows the shape between a long and a short life")
{
    // Both lives agree with their shape now where the drop is 10^(50/L - 1); take the longer: 10^-0.75.
    const std::vector<double> loads = {75.0};
    const auto band = bandAhead(twoLives, exponential(), 50.0, std::pow(10.0, -0.75), loads);
    CHECK(band[0].low == Approx(std::pow(10.0, 75.0 / 200.0 - 1.0)));
    // The shorter one starts 10^-0.25 below its shape; half of that shift is left halfway to its end.
    CHECK(band[0].high == Approx(std::pow(10.0, 75.0 / 100.0 - 1.0 - 0.125)));
}

TEST_CASE("the band never falls where the shape does not, and low is never above high")
{
    std::vector<double> loads;
    for (int i = 0; i <= 40; ++i) {
        loads.push_back(20.0 + 4.0 * i);
    }
    for (const double now : {0.01, 0.1, 0.5, 0.99}) {
        const auto band = bandAhead(twoLives, exponential(), 20.0, now, loads);
        for (std::size_t i = 0; i < band.size(); ++i) {
            CAPTURE(now, i);
            CHECK(band[i].low <= band[i].middle);
            CHECK(band[i].middle <= band[i].high);
            CHECK(band[i].high <= 1.0);
            CHECK((i == 0 || band[i].middle >= band[i - 1].middle - 1e-12));
        }
    }
}

} // namespace loopside::forecast
