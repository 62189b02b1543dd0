// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/instruments.h"

#include "filtration/gauge.h"
#include "practice/bench.h"
#include "practice/simulate.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace loopside;
using namespace loopside::units;

namespace {

struct Spread
{
    double mean;
    double sd;
};

Spread spread(const std::vector<double>& values)
{
    double sum = 0.0;
    double squares = 0.0;
    for (const double value : values) {
        sum += value;
        squares += value * value;
    }
    const auto n = static_cast<double>(values.size());
    return {sum / n, std::sqrt(squares / n - sum * sum / n / n)};
}

/// A cart whose dials are read to whole psi.
practice::Scenario coarse()
{
    auto scenario = test::plain();
    for (auto& dial : scenario.setup.cart.gauges) {
        dial.graduation = Decimal(1, 0);
    }
    return scenario;
}

} // namespace

// JCGM 100: limits ±a with no other knowledge have a standard uncertainty of a/√3.
TEST_CASE("standing errors of drawn dials spread as their grade permits, and never beyond")
{
    std::vector<double> ofLimit;
    for (std::uint64_t seed = 0; seed < 400; ++seed) {
        const auto scenario = practice::drawScenario(seed);
        for (std::size_t i = 0; i < 3; ++i) {
            const auto gauge = scenario.setup.cart.gauges[i].gauge();
            const Pressure standing = scenario.dials[i].standing;
            ofLimit.push_back(standing / *filtration::permissibleError(gauge, Pressure{}));
            CHECK(std::abs(ofLimit.back()) <= 1.0);
            CHECK_THAT(ofLimit.back() * std::sqrt(3.0),
                       Catch::WithinRel(standing / *filtration::standingUncertainty(gauge, Pressure{}), 1e-9));
        }
    }
    const Spread now = spread(ofLimit);
    CHECK(std::abs(now.mean) < 4.0 / std::sqrt(3.0 * 1200.0)); // four standard errors
    CHECK_THAT(now.sd, Catch::WithinAbs(1.0 / std::sqrt(3.0), 4.0 * 0.26 / std::sqrt(1200.0)));
}

// Rounding to a division δ has a standard deviation of δ/√12 about values that fall anywhere between two marks.
TEST_CASE("reading to the nearest division errs as filtration says")
{
    auto scenario = coarse();
    practice::Instruments instruments(scenario);
    std::vector<double> errors;
    for (int i = 0; i < 5000; ++i) {
        const Pressure truth = (10.0 + 40.0 * i / 5000.0) * psi;
        const auto reading = instruments.read({.gauges = {truth, truth, truth}, .oil = 30.0 * celsius});
        errors.push_back(reading.gauges[0]->low.toDouble() - truth.in(psi));
        CHECK(reading.gauges[0]->low.places() == 0);
    }
    const auto expected = filtration::readingUncertainty(scenario.setup.cart.gauges[0].gauge(), Pressure{});
    CHECK_THAT(spread(errors).sd, Catch::WithinRel(expected->in(psi), 0.01));
    CHECK(std::abs(spread(errors).mean) < 0.01);
}

TEST_CASE("the needle is read off by what the reader's error says, on top of the rounding")
{
    auto scenario = coarse();
    scenario.dials[0].readingSdDivisions = 0.5;
    practice::Instruments instruments(scenario);
    std::vector<double> errors;
    for (int i = 0; i < 20000; ++i) {
        const Pressure truth = (10.0 + 40.0 * i / 20000.0) * psi;
        const auto reading = instruments.read({.gauges = {truth, truth, truth}, .oil = 30.0 * celsius});
        errors.push_back(reading.gauges[0]->low.toDouble() - truth.in(psi));
    }
    CHECK_THAT(spread(errors).sd, Catch::WithinRel(std::sqrt(0.25 + 1.0 / 12.0), 0.02));
}

TEST_CASE("a standing error is the same at every reading of a run")
{
    auto scenario = test::plain();
    scenario.dials[1].standing = 1.7 * psi;
    practice::Instruments instruments(scenario);
    for (const double truth : {5.0, 30.0, 80.0}) {
        const auto reading = instruments.read(
            {.gauges = {truth * psi, truth * psi, truth * psi}, .oil = 30.0 * celsius});
        CHECK_THAT(reading.gauges[1]->low.toDouble(), Catch::WithinAbs(truth + 1.7, 0.0051));
    }
}

TEST_CASE("a dial shows nothing below zero and stands at its end above it")
{
    auto scenario = test::plain();
    scenario.dials[0].standing = -5.0 * psi;
    practice::Instruments instruments(scenario);
    const auto reading = instruments.read({.gauges = {1.0 * psi, 250.0 * psi, 3.0 * psi}, .oil = 30.0 * celsius});
    CHECK(reading.gauges[0]->low.toDouble() == 0.0);
    CHECK(reading.gauges[1]->low.toDouble() == 100.0);
}

TEST_CASE("the reader leaves out and misreads as often as told")
{
    auto scenario = coarse();
    scenario.reader.blankShare = 0.1;
    scenario.reader.misreadShare = 0.05;
    practice::Instruments instruments(scenario);
    int blank = 0;
    int misread = 0;
    constexpr int readings = 10000;
    for (int i = 0; i < readings; ++i) {
        const auto reading = instruments.read({.gauges = {50.0 * psi, 50.0 * psi, 50.0 * psi}, .oil = 30.0 * celsius});
        if (!reading.gauges[0]) {
            ++blank;
        } else if (std::abs(reading.gauges[0]->low.toDouble() - 50.0) >= 2.0) {
            ++misread;
        }
    }
    CHECK(std::abs(blank - 1000) < 4 * 30); // four standard deviations of a binomial
    CHECK(std::abs(misread - 450) < 4 * 21);
}
