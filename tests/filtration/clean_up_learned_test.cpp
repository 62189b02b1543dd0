// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The outside witness is GSL: its nonlinear least squares (Levenberg and Marquardt) of the same model must find the
// same case, and its covariance the same widths where the counts leave no doubt.

#include "filtration/clean_up_learned.h"

#include "base/id.h"

#include <catch2/catch.hpp>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_multifit_nlinear.h>
#include <gsl/gsl_vector.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <numbers>
#include <vector>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside::filtration;
using loopside::Errc;
using loopside::SeededRandom;

namespace {

/// ln C₀, k, ln F and their standard errors.
struct Fit
{
    std::array<double, 3> value;
    std::array<double, 3> error;
};

struct Problem
{
    const std::vector<CountSeen>* counts;
    double scatter;
};

double modelAt(const gsl_vector* x, double turnovers)
{
    const double floor = std::exp(gsl_vector_get(x, 2));
    return std::log(floor + (std::exp(gsl_vector_get(x, 0)) - floor) * std::exp(-gsl_vector_get(x, 1) * turnovers));
}

int residuals(const gsl_vector* x, void* data, gsl_vector* f)
{
    const auto* problem = static_cast<const Problem*>(data);
    for (std::size_t i = 0; i < problem->counts->size(); ++i) {
        const CountSeen& seen = (*problem->counts)[i];
        const double deviation = std::sqrt(problem->scatter * problem->scatter + 1.0 / seen.particles.value());
        gsl_vector_set(f, i, (modelAt(x, seen.turnovers) - std::log(seen.perMl)) / deviation);
    }
    return GSL_SUCCESS;
}

Fit fitByGsl(const std::vector<CountSeen>& counts, double scatter)
{
    Problem problem{&counts, scatter};
    gsl_multifit_nlinear_fdf system{};
    system.f = residuals;
    system.n = counts.size();
    system.p = 3;
    system.params = &problem;
    gsl_multifit_nlinear_parameters options = gsl_multifit_nlinear_default_parameters();
    const std::unique_ptr<gsl_multifit_nlinear_workspace, decltype(&gsl_multifit_nlinear_free)> work(
        gsl_multifit_nlinear_alloc(gsl_multifit_nlinear_trust, &options, system.n, system.p),
        gsl_multifit_nlinear_free);
    const std::unique_ptr<gsl_vector, decltype(&gsl_vector_free)> start(gsl_vector_alloc(3), gsl_vector_free);
    gsl_vector_set(start.get(), 0, std::log(counts.front().perMl));
    gsl_vector_set(start.get(), 1, 0.5);
    gsl_vector_set(start.get(), 2, std::log(counts.back().perMl / 2.0));
    REQUIRE(gsl_multifit_nlinear_init(start.get(), &system, work.get()) == GSL_SUCCESS);
    int info = 0;
    REQUIRE(gsl_multifit_nlinear_driver(200, 1e-10, 1e-10, 0.0, nullptr, nullptr, &info, work.get()) == GSL_SUCCESS);
    const std::unique_ptr<gsl_matrix, decltype(&gsl_matrix_free)> covariance(gsl_matrix_alloc(3, 3), gsl_matrix_free);
    gsl_multifit_nlinear_covar(gsl_multifit_nlinear_jac(work.get()), 0.0, covariance.get());
    Fit fit{};
    for (std::size_t i = 0; i < 3; ++i) {
        fit.value[i] = gsl_vector_get(gsl_multifit_nlinear_position(work.get()), i);
        fit.error[i] = std::sqrt(gsl_matrix_get(covariance.get(), i, i));
    }
    return fit;
}

double normal(SeededRandom& random)
{
    const auto part = [&] { return (static_cast<double>(random.next() >> 11U) + 0.5) * 0x1p-53; };
    const double radius = std::sqrt(-2.0 * std::log(part()));
    return radius * std::cos(2.0 * std::numbers::pi * part());
}

/// Counts of a tank that is known, each off by its scatter.
std::vector<CountSeen> simulated(double startPerMl, const MixedTank& tank, double scatter, SeededRandom& random,
                                 const std::vector<double>& at)
{
    std::vector<CountSeen> counts;
    for (const double turnovers : at) {
        const double truth = countAfter(startPerMl, turnovers, tank).value();
        counts.push_back({turnovers, truth * std::exp(scatter * normal(random))});
    }
    return counts;
}

} // namespace

TEST_CASE("the likeliest case is the fit of GSL, and the bands are as wide as its covariance says")
{
    const double k = GENERATE(0.5, 0.65, 0.85);
    const double floor = GENERATE(20.0, 150.0);
    CAPTURE(k, floor);
    SeededRandom random(7);
    constexpr double scatter = 0.03;
    auto counts = simulated(5000.0, {k, floor}, scatter, random, {0.0, 1.0, 2.0, 3.0, 5.0, 7.0, 9.0, 11.0, 13.0});
    for (CountSeen& seen : counts) {
        seen.particles = 2500.0;
    }
    const Fit fit = fitByGsl(counts, scatter);
    const LearnedTank learned = LearnedTank::from(counts, scatter).value();
    const auto& likeliest = learned.likeliest();
    // The grid has 28 cells over some eight standard errors or more: half a cell is a sixth of one.
    CHECK_THAT(std::log(likeliest.startPerMl), WithinAbs(fit.value[0], 0.4 * fit.error[0]));
    CHECK_THAT(likeliest.tank.captureTimesMixing, WithinAbs(fit.value[1], 0.4 * fit.error[1]));
    CHECK_THAT(std::log(likeliest.tank.floorPerMl), WithinAbs(fit.value[2], 0.4 * fit.error[2]));
    // 90 % of a normal distribution are 1.645 standard errors either way.
    const Band capture = learned.captureTimesMixing();
    CHECK_THAT((capture.high - capture.low) / 2.0, WithinRel(1.645 * fit.error[1], 0.15));
    CHECK_THAT(capture.best, WithinAbs(fit.value[1], 0.3 * fit.error[1]));
    const Band floors = learned.floorPerMl();
    CHECK_THAT(std::log(floors.high / floors.low) / 2.0, WithinRel(1.645 * fit.error[2], 0.15));
    CHECK(learned.isFloorTold());
}

TEST_CASE("the band holds the true tank about as often as it says")
{
    // Nine of ten; 200 rounds scatter by two of a hundred, and the tanks are not drawn quite as the model assumes.
    SeededRandom random(11);
    const auto part = [&] { return (static_cast<double>(random.next() >> 11U) + 0.5) * 0x1p-53; };
    int capture = 0;
    int count = 0;
    constexpr int rounds = 200;
    for (int i = 0; i < rounds; ++i) {
        const MixedTank tank{part(), std::exp(part() * std::log(300.0))};
        const auto counts = simulated(5000.0, tank, testScatter, random, {0.0, 2.0, 4.0, 6.0});
        const LearnedTank learned = LearnedTank::from(counts).value();
        const Band band = learned.captureTimesMixing();
        capture += band.low <= tank.captureTimesMixing && tank.captureTimesMixing <= band.high ? 1 : 0;
        const Band later = learned.countAfter(8.0).value();
        const double truth = countAfter(5000.0, 8.0, tank).value();
        count += later.low <= truth && truth <= later.high ? 1 : 0;
    }
    CHECK(capture >= rounds * 84 / 100);
    CHECK(count >= rounds * 84 / 100);
}

TEST_CASE("more and better counts make the bands narrower")
{
    SeededRandom random(3);
    const MixedTank tank{0.6, 40.0};
    const auto counts = simulated(5000.0, tank, 0.1, random, {0.0, 2.0, 4.0, 6.0, 8.0, 10.0});
    const auto width = [](const LearnedTank& learned) {
        return learned.captureTimesMixing().high - learned.captureTimesMixing().low;
    };
    const std::vector<CountSeen> two(counts.begin(), counts.begin() + 2);
    CHECK(width(LearnedTank::from(counts).value()) < width(LearnedTank::from(two).value()));
    CHECK(width(LearnedTank::from(counts, 0.1).value()) < width(LearnedTank::from(counts).value()));
    auto few = counts;
    for (CountSeen& seen : few) {
        seen.particles = 5.0; // 45 %
    }
    CHECK(width(LearnedTank::from(few).value()) > width(LearnedTank::from(counts).value()));
}

TEST_CASE("the same counts tell the same, in whatever order they come")
{
    const std::vector<CountSeen> counts = {{0.0, 5000.0}, {2.0, 1500.0}, {4.0, 700.0}};
    const std::vector<CountSeen> turned = {counts[2], counts[0], counts[1]};
    const Band a = LearnedTank::from(counts).value().captureTimesMixing();
    const Band b = LearnedTank::from(turned).value().captureTimesMixing();
    CHECK(a.low == b.low);
    CHECK(a.best == b.best);
    CHECK(a.high == b.high);
    double sum = 0.0;
    const LearnedTank learned = LearnedTank::from(counts).value();
    for (const auto& one : learned.cases()) {
        sum += one.weight;
    }
    CHECK_THAT(sum, WithinRel(1.0, 1e-9));
}

TEST_CASE("counts that stand still tell a floor, and a target below it is likely never reached")
{
    const std::vector<CountSeen> counts = {{0.0, 10000.0}, {3.0, 700.0}, {6.0, 500.0}, {9.0, 520.0}, {12.0, 490.0}};
    const LearnedTank learned = LearnedTank::from(counts).value();
    CHECK(learned.isFloorTold());
    CHECK(learned.floorPerMl().low > 250.0);
    const Reach below = learned.turnoversTo(80.0).value();
    CHECK(below.neverShare > 0.95);
    CHECK_FALSE(below.best.has_value());
    const Reach above = learned.turnoversTo(2500.0).value();
    CHECK(above.neverShare < 0.05);
    CHECK(above.low.value() <= above.best.value());
    CHECK(above.best.value() <= above.high.value());
}

TEST_CASE("two counts on the way down tell no floor, which is said")
{
    const LearnedTank learned = LearnedTank::from(std::vector<CountSeen>{{0.0, 10000.0}, {2.0, 2500.0}}).value();
    CHECK_FALSE(learned.isFloorTold());
    const Band capture = learned.captureTimesMixing();
    // Computed: ln 4 / 2 = 0.69 if there is no floor.
    CHECK(capture.low < 0.69);
    CHECK(capture.high > 0.69);
}

TEST_CASE("a scale number counts as the middle of its range")
{
    using loopside::oil::ScaleNumber;
    // Number 17 is 640 to 1300 per mL: the geometric middle, and the spread of a flat range, ln(1300/640)/√12.
    const CountSeen seen = countSeen(2.5, ScaleNumber::of(17).value()).value();
    CHECK_THAT(seen.perMl, WithinRel(std::sqrt(640.0 * 1300.0), 1e-12));
    CHECK_THAT(seen.spread, WithinRel(std::log(1300.0 / 640.0) / std::sqrt(12.0), 1e-12));
    CHECK(seen.turnovers == 2.5);
    CHECK_THAT(countSeen(0.0, ScaleNumber::of(0).value()).value().perMl, WithinRel(0.005, 1e-9));
    for (const auto& scale : {ScaleNumber::aboveTable(), ScaleNumber::tooMany(), ScaleNumber::notCounted()}) {
        CHECK(countSeen(0.0, scale).error().code == Errc::Unavailable);
    }
}

TEST_CASE("counts that cannot be are refused with the fault named")
{
    const auto refusal = [](const std::vector<CountSeen>& counts, double scatter = testScatter) {
        const auto learned = LearnedTank::from(counts, scatter);
        REQUIRE_FALSE(learned.has_value());
        return learned.error().sentence;
    };
    CHECK_THAT(refusal({}), Contains("Two counts"));
    CHECK_THAT(refusal({{1.0, 500.0}}), Contains("Two counts"));
    CHECK_THAT(refusal({{1.0, 500.0}, {1.0, 400.0}}), Contains("different turnovers"));
    const double wrong = GENERATE(0.0, -1.0, std::nan(""));
    CHECK_THAT(refusal({{0.0, 500.0}, {1.0, wrong}}), Contains("count must be above zero"));
    CHECK_THAT(refusal({{0.0, 500.0}, {1.0, 400.0, wrong}}), Contains("particles counted"));
    CHECK_THAT(refusal({{0.0, 500.0}, {-1.0, 400.0}}), Contains("turnovers at a count"));
    CHECK_THAT(refusal({{0.0, 500.0}, {1.0, 400.0}}, wrong), Contains("scatter"));
    const LearnedTank learned = LearnedTank::from(std::vector<CountSeen>{{0.0, 500.0}, {1.0, 300.0}}).value();
    CHECK_THAT(learned.turnoversTo(wrong).error().sentence, Contains("target"));
    CHECK_THAT(learned.countAfter(-1.0).error().sentence, Contains("turnovers"));
}
