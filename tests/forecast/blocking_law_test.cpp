// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/blocking_law.h"

#include <catch2/catch.hpp>
#include <gsl/gsl_multifit_nlinear.h>

#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

using namespace loopside::forecast;
using Catch::WithinAbs;
using Catch::WithinRel;

namespace {

/// The law through 5 psi at nothing and 10 psi at 1000 gal.
BlockingLaw through(double exponent, double slope)
{
    return {exponent, 5.0, slope};
}

/// Points of a law with a wave of ±2 % on it, so that no law goes through them.
std::vector<LawPoint> waved(const BlockingLaw& law)
{
    std::vector<LawPoint> points;
    for (int i = 0; i <= 12; ++i) {
        const double load = 100.0 * i;
        points.push_back({load, dropAt(law, load).value() * (1.0 + 0.02 * std::sin(2.3 * i))});
    }
    return points;
}

struct Fit
{
    const std::vector<LawPoint>* points;
    double exponent;
};

int residuals(const gsl_vector* at, void* data, gsl_vector* rest)
{
    const auto& fit = *static_cast<const Fit*>(data);
    const BlockingLaw law{fit.exponent, std::exp(gsl_vector_get(at, 0)), std::exp(gsl_vector_get(at, 1))};
    for (std::size_t i = 0; i < fit.points->size(); ++i) {
        const LawPoint& point = (*fit.points)[i];
        gsl_vector_set(rest, i, dropAt(law, point.load).value_or(1e6) - point.drop);
    }
    return GSL_SUCCESS;
}

/// The same least squares by the GNU Scientific Library (Levenberg-Marquardt, derivatives by differences).
BlockingLaw gslFit(const std::vector<LawPoint>& points, double exponent, const BlockingLaw& start)
{
    Fit fit{&points, exponent};
    gsl_multifit_nlinear_fdf problem{};
    problem.f = residuals;
    problem.n = points.size();
    problem.p = 2;
    problem.params = &fit;
    const gsl_multifit_nlinear_parameters parameters = gsl_multifit_nlinear_default_parameters();
    gsl_multifit_nlinear_workspace* work = gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &parameters,
                                                                      points.size(), 2);
    gsl_vector* at = gsl_vector_alloc(2);
    gsl_vector_set(at, 0, std::log(start.cleanDrop));
    gsl_vector_set(at, 1, std::log(start.slope));
    gsl_multifit_nlinear_init(at, &problem, work);
    int info = 0;
    gsl_multifit_nlinear_driver(500, 1e-14, 1e-14, 0.0, nullptr, nullptr, &info, work);
    const gsl_vector* found = gsl_multifit_nlinear_position(work);
    const BlockingLaw law{exponent, std::exp(gsl_vector_get(found, 0)), std::exp(gsl_vector_get(found, 1))};
    gsl_vector_free(at);
    gsl_multifit_nlinear_free(work);
    return law;
}

} // namespace

TEST_CASE("blocking laws through 5 psi at nothing and 10 psi at 1000 gal reach 25 psi where the closed forms say")
{
    struct Row
    {
        double exponent, slope, at500, at1500, atLimit;
    };
    // Computed from the closed forms of Hermia's laws at constant rate, four and more digits.
    const Row row = GENERATE(Row{0.0, 0.005, 7.5, 12.5, 4000.0},
                             Row{1.0, std::numbers::ln2 / 1000.0, 7.0711, 14.1421, 2321.93},
                             Row{1.5, 2.6197166e-4, 6.8629, 15.9064, 1887.33}, Row{2.0, 1e-4, 6.6667, 20.0, 1600.0});
    const BlockingLaw law = through(row.exponent, row.slope);
    CAPTURE(row.exponent);
    CHECK_THAT(dropAt(law, 500.0).value(), WithinAbs(row.at500, 6e-5));
    CHECK_THAT(dropAt(law, 1500.0).value(), WithinAbs(row.at1500, 6e-5));
    CHECK_THAT(loadAt(law, 25.0).value(), WithinAbs(row.atLimit, 6e-3));
    CHECK_THAT(loadAt(law, 25.0).value() - loadAt(law, 10.0).value(), WithinAbs(row.atLimit - 1000.0, 1e-2));
}

TEST_CASE("beyond the load where complete and standard blocking go to infinity there is no drop")
{
    CHECK(dropAt(through(2.0, 1e-4), 1999.0).has_value()); // 1/(1/5 − 1e-4·x): the pole is at 2000, computed
    CHECK_FALSE(dropAt(through(2.0, 1e-4), 2000.0).has_value());
    CHECK_FALSE(dropAt(through(2.0, 1e-4), 5000.0).has_value());
    CHECK_FALSE(dropAt(through(1.5, 2.6197166e-4), 3414.3).has_value()); // pole at 3414.21, computed
}

TEST_CASE("of laws with one clean drop and one first slope a higher exponent is always above")
{
    // Normalised forms at x = 0.5 and 0.75, computed: 1 + x, e^x, (1 − x/2)^−2, 1/(1 − x).
    struct Row
    {
        double exponent, atHalf, atThreeQuarters;
    };
    const Row row = GENERATE(Row{0.0, 1.5, 1.75}, Row{1.0, 1.6487, 2.1170}, Row{1.5, 1.7778, 2.56}, Row{2.0, 2.0, 4.0});
    const BlockingLaw law{row.exponent, 1.0, 1.0};
    CHECK_THAT(dropAt(law, 0.5).value(), WithinAbs(row.atHalf, 6e-5));
    CHECK_THAT(dropAt(law, 0.75).value(), WithinAbs(row.atThreeQuarters, 6e-5));
}

TEST_CASE("least squares finds the law that points came from")
{
    const double exponent = GENERATE(0.0, 0.5, 1.0, 1.5, 2.0);
    const BlockingLaw law{exponent, 4.0, 0.4 * std::pow(4.0, 1.0 - exponent) / 1200.0};
    std::vector<LawPoint> points;
    for (int i = 0; i <= 12; ++i) {
        points.push_back({100.0 * i, dropAt(law, 100.0 * i).value()});
    }
    const auto found = leastSquares(points, exponent);
    REQUIRE(found.has_value());
    CHECK_THAT(found->cleanDrop, WithinRel(law.cleanDrop, 1e-9)); // exact data: rounding only
    CHECK_THAT(found->slope, WithinRel(law.slope, 1e-9));
}

TEST_CASE("least squares agrees with the GNU Scientific Library on points that no law goes through")
{
    const double exponent = GENERATE(0.0, 0.5, 1.0, 1.5, 2.0);
    const BlockingLaw law{exponent, 4.0, 0.4 * std::pow(4.0, 1.0 - exponent) / 1200.0};
    const std::vector<LawPoint> points = waved(law);
    const auto found = leastSquares(points, exponent);
    REQUIRE(found.has_value());
    const BlockingLaw witness = gslFit(points, exponent, law);
    CHECK_THAT(found->cleanDrop, WithinRel(witness.cleanDrop, 1e-6)); // GSL takes its derivatives by differences
    CHECK_THAT(found->slope, WithinRel(witness.slope, 1e-6));
}

TEST_CASE("the constant-pressure filtration of a textbook gives its line t/V over V")
{
    // Geankoplis, Transport Processes and Unit Operations, example 14.2-1: seconds, 10⁻³ m³ (data read in a copy).
    // t/V = K/2·V + B is the cake law with V as load; slope and intercept computed by hand in least squares.
    const double rows[][2] = {{4.4, 0.498},  {9.5, 1.000},  {16.3, 1.501}, {24.6, 2.000}, {34.7, 2.498},
                              {46.1, 3.002}, {59.0, 3.506}, {73.6, 4.004}, {89.4, 4.502}, {107.3, 5.009}};
    std::vector<LawPoint> points;
    for (const auto& [seconds, litres] : rows) {
        points.push_back({litres * 1e-3, seconds / (litres * 1e-3)});
    }
    const auto found = leastSquares(points, 0.0);
    REQUIRE(found.has_value());
    CHECK_THAT(found->slope, WithinRel(2.885e6, 5e-4)); // four digits
    CHECK_THAT(found->cleanDrop, WithinRel(6784.0, 5e-4));
}

TEST_CASE("points and exponents that cannot be are refused")
{
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const std::vector<LawPoint> good = {{0.0, 1.0}, {1.0, 2.0}, {2.0, 3.0}};
    CHECK_FALSE(leastSquares(good, -0.1).has_value());
    CHECK_FALSE(leastSquares(good, nan).has_value());
    CHECK_FALSE(leastSquares(std::vector<LawPoint>{{0.0, 1.0}, {1.0, nan}}, 1.0).has_value());
    CHECK_FALSE(leastSquares(std::vector<LawPoint>{{0.0, 1.0}, {1.0, 0.0}}, 1.0).has_value());
    CHECK_FALSE(leastSquares(std::vector<LawPoint>{{1.0, 1.0}, {1.0, 2.0}}, 1.0).has_value());
    CHECK_FALSE(leastSquares(std::vector<LawPoint>{{0.0, 2.0}, {1.0, 1.0}}, 1.0).has_value());
    CHECK_FALSE(leastSquares({}, 1.0).has_value());
}
