// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How loaded a stage is by all that is known of it, against numerical integration (Boost.Math quadrature) of the model
// as loading_seen.h states it, and against lines computed by hand.

#include "run/loading_seen.h"

#include "run/oil_fit.h"

#include <boost/math/distributions/exponential.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace loopside::run;

namespace {

/// ∫ from `from`: the chance that a loading is so much and that `read` was read of it, `more` expected over `told`.
double integral(const Uncertain& read, double told, double more, double from)
{
    const boost::math::normal reading(read.value, read.sd);
    const boost::math::exponential grown(1.0 / more);
    const auto density = [&](double loading) {
        return boost::math::pdf(reading, loading) * boost::math::pdf(grown, loading - told);
    };
    return boost::math::quadrature::gauss_kronrod<double, 61>::integrate(density, std::max(from, told), told + 40.0, 15,
                                                                         1e-12);
}

double chanceByIntegration(const LoadingSeen& seen, double more, double moreIfUsed, double bound)
{
    const Uncertain read{seen.loading, std::hypot(seen.ofDials, bound * seen.ofOil)};
    const auto both = [&](double from) {
        return (1.0 - usedUntold) * integral(read, seen.asFitted, more, from)
            + usedUntold * integral(read, seen.asFitted, moreIfUsed, from);
    };
    return both(bound) / both(seen.asFitted);
}

} // namespace

TEST_CASE("the chance that a stage is loaded is that of the model it is stated by")
{
    const double loading = GENERATE(0.8, 1.2, 1.6, 2.0, 3.5);
    const double hours = GENERATE(0.05, 1.0);
    const double told = GENERATE(1.0, 1.3);
    const LoadingSeen seen{.loading = loading, .ofDials = 0.15, .ofOil = 0.08, .asFitted = told, .hours = hours};
    // The two means are those of loading_seen.cpp: 0.1 at once and 4 an hour, 2 of elements that are used.
    CAPTURE(loading, hours, told);
    CHECK_THAT(seen.chanceAbove(1.5), Catch::WithinAbs(chanceByIntegration(seen, 0.1 + 4.0 * hours, 2.0, 1.5), 1e-6));
}

TEST_CASE("dials that err by many clean drops say next to nothing, and no more than the model does")
{
    const double ofDials = GENERATE(1.0, 3.0, 4.0, 12.0);
    const double loading = GENERATE(-2.0, 1.2, 6.0);
    const LoadingSeen seen{.loading = loading, .ofDials = ofDials, .hours = 0.02};
    CAPTURE(ofDials, loading);
    CHECK_THAT(seen.chanceAbove(1.5), Catch::WithinAbs(chanceByIntegration(seen, 0.1 + 4.0 * 0.02, 2.0, 1.5), 1e-6));
    const LoadingSeen wild{.loading = loading, .ofDials = 1e4};
    CHECK((wild.chanceAbove(1.5) >= 0.0 && wild.chanceAbove(1.5) <= 1.0));
}

TEST_CASE("a stage is likelier loaded the more it reads, the longer oil has flowed and the better the dials are")
{
    const auto chance = [](double loading, double hours, double ofDials) {
        return LoadingSeen{.loading = loading, .ofDials = ofDials, .ofOil = 0.08, .hours = hours}.chanceAbove(1.5);
    };
    CHECK(chance(1.8, 1.0, 0.2) > chance(1.6, 1.0, 0.2));
    CHECK(chance(1.8, 1.0, 0.2) > chance(1.8, 0.05, 0.2));
    CHECK(chance(1.8, 1.0, 0.1) > chance(1.8, 1.0, 0.3));
}

TEST_CASE("elements that were told to be loaded more than the bound are")
{
    CHECK_THAT((LoadingSeen{.loading = 1.7, .ofDials = 0.1, .asFitted = 1.6, .hours = 0.1}.chanceAbove(1.5)),
               Catch::WithinAbs(1.0, 1e-12));
}

TEST_CASE("what three sets say of the last of them is where the line through them stands there")
{
    // Least squares through (0, 1), (1/2, 2), (1, 2) by hand: slope 1, middle 5/3, so 13/6 at the end; of the variance
    // of one set 5/6 is left there.
    using std::chrono::minutes;
    LoadingLine line;
    line.add(minutes(0), 1.0);
    line.add(minutes(30), 2.0);
    CHECK(line.atLast() == 2.0);
    CHECK(line.varianceLeft() == 1.0);
    line.add(minutes(60), 2.0);
    CHECK_THAT(line.atLast(), Catch::WithinAbs(13.0 / 6.0, 1e-12));
    CHECK_THAT(line.varianceLeft(), Catch::WithinAbs(5.0 / 6.0, 1e-12));
}

TEST_CASE("three sets of one moment say what the last one does")
{
    LoadingLine line;
    for (const double loading : {1.0, 1.4, 1.2}) {
        line.add(std::chrono::minutes(10), loading);
    }
    CHECK(line.atLast() == 1.2);
    CHECK(line.varianceLeft() == 1.0);
}
