// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The law of propagation against the figures of NIST TN 1297 (1994) and against drawn numbers.

#include "run/uncertain.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace loopside;
using namespace loopside::run;
using units::pascal;

namespace {

Measured measured(double value_pa, double reading_pa, double standing_pa = 0.0)
{
    return {value_pa * pascal, reading_pa * pascal, standing_pa * pascal};
}

} // namespace

TEST_CASE("two times the combined uncertainty of the worked mass of TN 1297 is its expanded one")
{
    // NIST TN 1297, 7.4 (from memory): m = 100.02147 g, u = 0.35 mg, U = 2u = 0.70 mg. The bound is then two u away.
    const Uncertain mass = {100.02147, 0.00035};
    CHECK_THAT(mass.above(100.02147 - 0.00070), Catch::WithinAbs(2.0, 1e-6));
    CHECK_THAT(mass.below(100.02147 + 0.00070), Catch::WithinAbs(2.0, 1e-6));
}

TEST_CASE("a limit with no other knowledge is a rectangular distribution")
{
    // NIST TN 1297, 4.6 (from memory): α = 16.52e-6 /°C, not off by more than 0.40e-6: u = 0.40e-6/√3 = 0.23e-6.
    CHECK_THAT(0.40 / std::sqrt(3.0), Catch::WithinAbs(0.23, 0.005));
    // The same rule for a dial read to its nearest division of 1: half a division /√3 = 1/√12, computed here.
    CHECK_THAT(0.5 / std::sqrt(3.0), Catch::WithinAbs(1.0 / std::sqrt(12.0), 1e-12));
}

TEST_CASE("independent parts of a difference add in quadrature")
{
    // NIST TN 1297, appendix A, for y = x1 − x2: u² = u1² + u2². 3, 4, 5: computed here.
    const Measured difference = measured(100, 3, 6) - measured(40, 4, 8);
    CHECK(difference.value == 60.0 * pascal);
    CHECK_THAT(difference.reading.in(pascal), Catch::WithinAbs(5.0, 1e-12));
    CHECK_THAT(difference.standing.in(pascal), Catch::WithinAbs(10.0, 1e-12));
}

TEST_CASE("the relative uncertainty of a quotient is the root of the sum of the relative squares")
{
    // NIST TN 1297, appendix A, applied to y = a/b: (u/y)² = (ua/a)² + (ub/b)². 3 % and 4 % make 5 %: computed here.
    const Uncertain ratio = quotient({50.0, 1.5}, {100.0, 4.0});
    CHECK_THAT(ratio.value, Catch::WithinAbs(0.5, 1e-12));
    CHECK_THAT(ratio.sd, Catch::WithinAbs(0.025, 1e-12));
}

TEST_CASE("what drawn readings scatter by is what is told of a move")
{
    // Computed here: 200 000 pairs of readings with normal errors, against the law of propagation; 2 % for the draw.
    std::mt19937_64 random(7);
    std::normal_distribution<double> normal;
    const double factor = 0.6;
    const Uncertain told = moved(measured(70, 3), measured(100, 3), {factor, 0.03}).toFirstOrder();
    double sum = 0.0;
    double squares = 0.0;
    constexpr int draws = 200'000;
    for (int i = 0; i < draws; ++i) {
        const double now = 70.0 + 3.0 * normal(random);
        const double then = 100.0 + 3.0 * normal(random);
        const double ratio = now / ((factor + 0.03 * normal(random)) * then);
        sum += ratio;
        squares += ratio * ratio;
    }
    const double mean = sum / draws;
    CHECK_THAT(told.value, Catch::WithinRel(mean, 0.01));
    CHECK_THAT(told.sd, Catch::WithinRel(std::sqrt(squares / draws - mean * mean), 0.02));
}

TEST_CASE("a standing error cancels between two readings that ought to be alike, and only there")
{
    // now − k·then holds 1 − k of it: nothing against k = 1, three tenths against 0.7. Computed here.
    const Ratio with = moved(measured(70, 1, 20), measured(100, 1, 20), {1.0, 0.0});
    const Ratio without = moved(measured(70, 1, 0), measured(100, 1, 0), {1.0, 0.0});
    CHECK_THAT(with.below(1.0), Catch::WithinRel(without.below(1.0), 1e-9));
    CHECK_THAT(with.above(0.5), Catch::WithinRel(20.0 / std::hypot(1.0, 0.5, 10.0), 1e-9));
    CHECK(against(measured(70, 1, 20), 100.0 * pascal, 0.0).sd > 0.19); // a catalogue shares no gauge
}

TEST_CASE("a number without uncertainty is above or below beyond doubt")
{
    CHECK(Uncertain{1.0, 0.0}.above(0.9) > sure);
    CHECK(Uncertain{1.0, 0.0}.below(0.9) < impossible / 100.0);
    CHECK(Uncertain{1.0, 0.0}.above(1.0) == even);
}
