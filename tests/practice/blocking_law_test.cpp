// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/blocking_law.h"

#include <boost/numeric/odeint.hpp>
#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace loopside;
using practice::BlockingLaw;

namespace {

/// dL/dm = k·Lⁿ, integrated step by step by Boost.Odeint: the witness of the closed forms.
double integrated(double exponent, double perGram, double from, double grams)
{
    double loading = from;
    const auto slope = [&](const double& now, double& change, double) { change = perGram * std::pow(now, exponent); };
    auto stepper = boost::numeric::odeint::make_controlled<boost::numeric::odeint::runge_kutta_dopri5<double>>(1e-12,
                                                                                                               1e-12);
    boost::numeric::odeint::integrate_adaptive(stepper, slope, loading, 0.0, grams, grams / 100.0);
    return loading;
}

BlockingLaw lawWithKnee()
{
    return BlockingLaw::throughKnee(0.5, {70.0, 1.8}, 1.7, {100.0, 9.0}).value();
}

} // namespace

// Computed from the laws for constant rate (Hermia; Hlavacek and Bouchet 1993): 5 psi clean, 10 psi after 1000 US gal,
// limit 25 psi. Volume stands for dirt, as the feed is constant.
TEST_CASE("each blocking law through 5 and 10 psi meets its printed values")
{
    struct Row
    {
        double n, k, at500, at1500, toLimit;
    };
    const auto row = GENERATE(values<Row>({{0.0, 0.005, 7.5, 12.5, 4000.0},
                                           {1.0, 6.9314718e-4, 7.0711, 14.1421, 2321.93},
                                           {1.5, 2.6197166e-4, 6.8629, 15.9064, 1887.33},
                                           {2.0, 1.0e-4, 6.6667, 20.0, 1600.0}}));
    CAPTURE(row.n);
    constexpr double cleanPsi = 5.0;
    const BlockingLaw law = BlockingLaw::through(row.n, 1000.0, 2.0).value();
    CHECK_THAT(law.perGram * std::pow(cleanPsi, 1.0 - row.n), Catch::WithinRel(row.k, 1e-7));
    CHECK_THAT(cleanPsi * loadingAt(law, 500.0), Catch::WithinAbs(row.at500, 5e-5));
    CHECK_THAT(cleanPsi * loadingAt(law, 1500.0), Catch::WithinAbs(row.at1500, 5e-5));
    CHECK_THAT(gramsAt(law, 25.0 / cleanPsi), Catch::WithinAbs(row.toLimit, 5e-3));
}

TEST_CASE("the closed forms agree with the differential equation at any exponent")
{
    const double n = GENERATE(0.0, 0.3, 0.999, 1.0, 1.001, 1.7, 2.5);
    CAPTURE(n);
    const BlockingLaw law{n, 0.01, std::nullopt};
    CHECK_THAT(loadingAt(law, 50.0), Catch::WithinRel(integrated(n, 0.01, 1.0, 50.0), 1e-9));
}

TEST_CASE("behind the knee the differential equation goes on with the other exponent and slope")
{
    const BlockingLaw law = lawWithKnee();
    CHECK_THAT(loadingAt(law, 70.0), Catch::WithinRel(1.8, 1e-12));
    CHECK_THAT(loadingAt(law, 100.0), Catch::WithinRel(9.0, 1e-12));
    const double slopeAtKnee = law.knee->steeper * law.perGram * std::pow(1.8, 0.5);
    const double perGram = slopeAtKnee / std::pow(1.8, 1.7);
    CHECK_THAT(loadingAt(law, 90.0), Catch::WithinRel(integrated(1.7, perGram, 1.8, 20.0), 1e-8));
}

TEST_CASE("grams and loading are inverse, and loading never falls")
{
    const BlockingLaw law = GENERATE(lawWithKnee(), BlockingLaw{0.0, 0.05, std::nullopt},
                                     BlockingLaw{1.0, 0.02, std::nullopt}, BlockingLaw{2.5, 0.004, std::nullopt});
    double before = 1.0;
    for (double grams = 1.0; grams < 120.0; grams += 1.0) {
        const double loading = loadingAt(law, grams);
        CAPTURE(grams, loading);
        CHECK(loading >= before);
        if (loading < practice::loadingMax) {
            CHECK_THAT(gramsAt(law, loading), Catch::WithinRel(grams, 1e-9));
        }
        before = loading;
    }
}

TEST_CASE("a law that goes to infinity is held, not left")
{
    const BlockingLaw complete{2.0, 0.01, std::nullopt}; // infinite at 100 g
    CHECK(loadingAt(complete, 100.0) == practice::loadingMax);
    CHECK(loadingAt(complete, 1e9) == practice::loadingMax);
    CHECK(loadingAt(BlockingLaw{1.0, 1.0, std::nullopt}, 1e6) <= practice::loadingMax);
}

TEST_CASE("a law that cannot be is refused by name")
{
    const auto sentence = [](const auto& result) { return result ? std::string() : result.error().sentence; };
    CHECK_THAT(sentence(BlockingLaw::through(-0.1, 1.0, 2.0)), Catch::Contains("exponent"));
    CHECK_THAT(sentence(BlockingLaw::through(1.0, 0.0, 2.0)), Catch::Contains("dirt"));
    CHECK_THAT(sentence(BlockingLaw::through(1.0, std::nan(""), 2.0)), Catch::Contains("dirt"));
    CHECK_THAT(sentence(BlockingLaw::through(1.0, 1.0, 1.0)), Catch::Contains("loading"));
    CHECK_THAT(sentence(BlockingLaw::throughKnee(1.0, {2.0, 2.0}, 1.0, {1.0, 5.0})),
               Catch::Contains("behind the knee"));
    CHECK_THAT(sentence(BlockingLaw::throughKnee(1.0, {2.0, 2.0}, 1.0, {3.0, 1.5})), Catch::Contains("loading"));
    CHECK_THAT(sentence(practice::checkLaw({1.0, 0.1, BlockingLaw::Knee{1.0, 4.0, 1.0}})),
               Catch::Contains("behind the knee"));
    CHECK(practice::checkLaw({1.0, 0.1, std::nullopt}).has_value());
}
