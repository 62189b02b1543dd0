// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What is checked here follows from the model in kin_laws.h; the figures are computed here.

#include "forecast/kin_laws.h"

#include "forecast/forecast.h"
#include "loadings.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace loopside;
using namespace loopside::forecast;
using namespace loopside::forecast::test;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

/// A loading of `life` that was stopped at `phase`.
PastLoading cutAt(double phase, double life = 1000.0, Kinship kinship = Kinship::SameTank)
{
    PastLoading past{kinship, {}, phase * life, limit, true};
    for (int i = 1; i <= 20; ++i) {
        past.curve.push_back({phase * life * i / 20.0, dropAtPhase(phase * i / 20.0)});
    }
    return past;
}

/// The middle and the spread of ln(usual life), whatever the law.
struct Middle
{
    double lnLife, sd;
};

Middle middleOf(const Family& laws)
{
    const Eigen::ArrayXd densities = laws.lives.densities.colwise().sum().transpose();
    double mean = 0.0;
    double squares = 0.0;
    for (Eigen::Index i = 0; i < densities.size(); ++i) {
        const double ln = laws.lives.lnFirst + laws.lives.lnStep * static_cast<double>(i);
        mean += densities(i) / densities.sum() * ln;
        squares += densities(i) / densities.sum() * ln * ln;
    }
    return {mean, std::sqrt(squares - mean * mean)};
}

} // namespace

TEST_CASE("loadings that were all cut short tell how long elements live")
{
    const std::vector<PastLoading> past = {cutAt(0.7), cutAt(0.6), cutAt(0.75)};
    const auto laws = kinLaws(past, limit, 0.1);
    REQUIRE(laws.has_value());
    const Middle middle = middleOf(*laws);
    CHECK(std::abs(middle.lnLife - std::log(1000.0)) < 2.0 * middle.sd); // 95 %
    CHECK(middle.sd < 0.6);                                              // 1.1 before any loading
}

TEST_CASE("the farther loadings got, and the less their unit differs, the surer the life")
{
    const auto sdOf = [](double phase, double unitError) {
        return middleOf(kinLaws(std::vector(4, cutAt(phase)), limit, unitError).value()).sd;
    };
    CHECK(sdOf(0.8, 0.1) < sdOf(0.3, 0.1));
    CHECK(sdOf(0.8, 0.1) < sdOf(0.8, 0.7));
}

TEST_CASE("a loading with used elements tells as a new one does that got as far")
{
    PastLoading used{Kinship::SameTank, {}, 500.0, limit, true};
    used.isUsed = true;
    for (int i = 1; i <= 20; ++i) { // from a phase of 0.3 to one of 0.8
        used.curve.push_back({25.0 * i, dropAtPhase(0.3 + 0.025 * i)});
    }
    const Middle middle = middleOf(kinLaws(std::vector{cutAt(0.3), used}, limit, 0.1).value());
    CHECK(std::abs(middle.lnLife - std::log(1000.0)) < 2.0 * middle.sd);
}

TEST_CASE("another kind of element, no loading and no curve teach no law")
{
    CHECK_FALSE(kinLaws({}, limit, 0.5).has_value());
    CHECK_FALSE(kinLaws(std::vector{cutAt(0.5, 1000.0, Kinship::SameKind)}, limit, 0.5).has_value());
    PastLoading empty = cutAt(0.5);
    empty.curve.clear();
    CHECK_FALSE(kinLaws(std::vector{empty}, limit, 0.5).has_value());
}

TEST_CASE("with loadings cut short an early forecast is nearer than with none")
{
    const std::vector<PastLoading> past = {cutAt(0.7), cutAt(0.6), cutAt(0.75)};
    const auto readings = readingsOf(1000.0, 0.4, 8);
    const auto with = forecast::forecast(readings, question(400.0), learn(past, limit).value()).value();
    const auto without = forecast::forecast(readings, question(400.0), learn({}, limit).value()).value();
    REQUIRE(with.loads.p50.has_value());
    REQUIRE(without.loads.p50.has_value());
    CHECK(std::abs(std::log(*with.loads.p50 / 1000.0)) < std::abs(std::log(*without.loads.p50 / 1000.0)));
    CHECK(*with.loads.p10 < 1000.0);
    CHECK(*with.loads.p90 > 1000.0);
}
