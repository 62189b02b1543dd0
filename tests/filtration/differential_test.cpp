// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/differential.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside::filtration;
using namespace loopside::units;

namespace {

GaugeValue known(double value, double standing, double reading)
{
    return {value * psi, standing * psi, reading * psi};
}

} // namespace

TEST_CASE("each stage's difference is taken between its two gauges")
{
    const std::array<std::optional<GaugeValue>, 4> gauges{known(43.0, 1.0, 0.3), known(17.0, 1.0, 0.3),
                                                          known(5.0, 1.0, 0.3), known(6.0, 1.0, 0.3)};
    const auto stages = differences(gauges);
    REQUIRE(stages.size() == 3);
    CHECK_THAT(stages[0].value().value.in(psi), WithinRel(26.0, 1e-12));
    CHECK_THAT(stages[1].value().value.in(psi), WithinRel(12.0, 1e-12));
    CHECK_THAT(stages[2].value().value.in(psi), WithinRel(-1.0, 1e-12)); // as the gauges say
}

TEST_CASE("the two errors of a difference are expanded apart")
{
    // JCGM 100: twice the root of the sum of squares. 3-4-5 and 5-12-13 triangles.
    const std::array<std::optional<GaugeValue>, 2> gauges{known(40.0, 3.0, 0.5), known(20.0, 4.0, 1.2)};
    const auto stage = differences(gauges).at(0);
    REQUIRE(stage.has_value());
    CHECK_THAT(stage->standing.value().in(psi), WithinRel(10.0, 1e-12));
    CHECK_THAT(stage->reading.value().in(psi), WithinRel(2.6, 1e-12));
}

TEST_CASE("a gauge that could not be read takes away the stages beside it and no other")
{
    const std::array<std::optional<GaugeValue>, 4> gauges{known(43.0, 1.0, 0.3), std::nullopt, known(5.0, 1.0, 0.3),
                                                          known(4.0, 1.0, 0.3)};
    const auto stages = differences(gauges);
    REQUIRE(stages.size() == 3);
    CHECK_FALSE(stages[0].has_value());
    CHECK_FALSE(stages[1].has_value());
    CHECK(stages[2].has_value());
}

TEST_CASE("an error that is not known of one gauge is not known of the difference")
{
    const std::array<std::optional<GaugeValue>, 2> gauges{GaugeValue{40.0 * psi, std::nullopt, 0.3 * psi},
                                                          GaugeValue{20.0 * psi, 1.0 * psi, std::nullopt}};
    const auto stage = differences(gauges).at(0);
    REQUIRE(stage.has_value());
    CHECK_THAT(stage->value.in(psi), WithinRel(20.0, 1e-12));
    CHECK_FALSE(stage->standing.has_value());
    CHECK_FALSE(stage->reading.has_value());
}

TEST_CASE("fewer than two gauges make no stage")
{
    CHECK(differences({}).empty());
    const std::array<std::optional<GaugeValue>, 1> one{known(40.0, 1.0, 0.3)};
    CHECK(differences(one).empty());
}

TEST_CASE("three gauges alike correlate their two stages by minus one half")
{
    // Algebra: −u² / (√2u · √2u).
    const auto gauge = known(40.0, 1.2, 0.3);
    CHECK_THAT(correlation(gauge, gauge, gauge).value(), WithinRel(-0.5, 1e-12));
}

TEST_CASE("the shared gauge's error cancels in the sum of the two stages")
{
    // The sum of both drops is first less last gauge, so its variance must be u₁² + u₃², whatever the middle gauge is.
    const double middle = GENERATE(0.0, 0.4, 1.0, 5.0);
    CAPTURE(middle);
    const std::array<std::optional<GaugeValue>, 3> gauges{known(40.0, 1.5, 0.3), known(20.0, middle, 0.3),
                                                          known(5.0, 0.7, 0.3)};
    const auto stages = differences(gauges);
    const double first = stages.at(0).value().standing.value().in(psi) / 2.0;
    const double second = stages.at(1).value().standing.value().in(psi) / 2.0;
    const double between = correlation(gauges[0], gauges[1], gauges[2]).value();
    CHECK_THAT(first * first + second * second + 2.0 * between * first * second,
               WithinRel(1.5 * 1.5 + 0.7 * 0.7, 1e-9));
}

TEST_CASE("a correlation stays between minus one and none")
{
    CHECK_THAT(correlation(known(40.0, 0.0, 0.3), known(20.0, 1.0, 0.3), known(5.0, 0.0, 0.3)).value(),
               WithinAbs(-1.0, 1e-12));
    CHECK(correlation(known(40.0, 1.0, 0.3), known(20.0, 0.0, 0.3), known(5.0, 1.0, 0.3)).value() == 0.0);
}

TEST_CASE("a correlation is told only where all three standing errors are known and there are any")
{
    const auto gauge = known(40.0, 1.0, 0.3);
    const GaugeValue ungraded{20.0 * psi, std::nullopt, 0.3 * psi};
    const auto perfect = known(20.0, 0.0, 0.3);
    CHECK_FALSE(correlation(std::nullopt, gauge, gauge).has_value());
    CHECK_FALSE(correlation(gauge, std::nullopt, gauge).has_value());
    CHECK_FALSE(correlation(gauge, gauge, ungraded).has_value());
    CHECK_FALSE(correlation(gauge, ungraded, gauge).has_value());
    CHECK_FALSE(correlation(perfect, perfect, gauge).has_value());
}
