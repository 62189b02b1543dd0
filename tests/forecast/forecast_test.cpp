// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/forecast.h"

#include "loadings.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace loopside;
using namespace loopside::forecast;
using namespace loopside::forecast::test;
using Catch::WithinRel;

namespace {

Forecast told(const std::vector<Reading>& readings, const Question& asked, const History& history)
{
    const auto result = forecast::forecast(readings, asked, history);
    REQUIRE(result.has_value());
    return *result;
}

History tenLoadings(double life = 1000.0)
{
    return learn(tenPast(life), limit).value();
}

double widthOf(const Forecast& result)
{
    return *result.loads.p90 - *result.loads.p10;
}

} // namespace

TEST_CASE("with past loadings the true end lies in the range, which narrows as the end nears")
{
    const double life = GENERATE(850.0, 1000.0, 1300.0);
    const History history = tenLoadings();
    double before = 1e9;
    for (const double phase : {0.4, 0.7, 0.9}) {
        const Forecast result = told(readingsOf(life, phase, 15), question(life * phase), history);
        CAPTURE(life, phase, *result.loads.p10, *result.loads.p50, *result.loads.p90);
        CHECK(result.state == State::Forecast);
        CHECK(*result.loads.p10 <= life);
        CHECK(*result.loads.p90 >= life);
        CHECK(widthOf(result) < before);
        before = widthOf(result);
        CHECK(*result.seconds.p50 == *result.loads.p50); // one load a second, from 0
    }
}

TEST_CASE("scaling all loads scales the forecast")
{
    const double times = GENERATE(0.01, 3.0, 1e4);
    const Forecast one = told(readingsOf(1000.0, 0.6, 12), question(600.0), tenLoadings());
    const Forecast other = told(readingsOf(1000.0 * times, 0.6, 12), question(600.0 * times),
                                tenLoadings(1000.0 * times));
    CHECK_THAT(*other.loads.p50, WithinRel(times * *one.loads.p50, 1e-4)); // single precision inside
    CHECK_THAT(*other.phase, WithinRel(*one.phase, 1e-4));
}

TEST_CASE("a target that is farther is less likely to come first")
{
    const History history = tenLoadings();
    double before = -1.0;
    for (const double target : {650.0, 900.0, 1000.0, 1100.0, 3000.0}) {
        Question asked = question(600.0);
        asked.targetLoad = target;
        const Forecast result = told(readingsOf(1000.0, 0.6, 12), asked, history);
        CHECK(*result.pBeforeTarget >= before);
        before = *result.pBeforeTarget;
    }
    CHECK(before > 0.99);
    Question near = question(600.0);
    near.targetLoad = 650.0;
    CHECK(told(readingsOf(1000.0, 0.6, 12), near, history).state == State::NotBeforeTarget);
}

TEST_CASE("a warmer end puts the raw limit off, a colder one brings it near")
{
    const History history = tenLoadings();
    Question asked = question(600.0);
    asked.rawDropNow = dropAtPhase(0.6);
    const double even = *told(readingsOf(1000.0, 0.6, 12), asked, history).loads.p50;
    asked.rawPerCorrected = 0.7;
    const History warm = learn(tenPast(), correctedLimit(asked)).value();
    CHECK(warm.cutShort == 10); // nobody has been that far
    CHECK(*told(readingsOf(1000.0, 0.6, 12), asked, warm).loads.p50 > even);
    asked.rawPerCorrected = 1.4;
    const History cold = learn(tenPast(), correctedLimit(asked)).value();
    CHECK(*told(readingsOf(1000.0, 0.6, 12), asked, cold).loads.p50 < even);
}

TEST_CASE("what is not known of the temperature then widens the range")
{
    const History history = tenLoadings();
    Question asked = question(600.0);
    const double sure = widthOf(told(readingsOf(1000.0, 0.6, 12), asked, history));
    asked.rawPerCorrectedError = 0.3;
    CHECK(widthOf(told(readingsOf(1000.0, 0.6, 12), asked, history)) > sure);
}

TEST_CASE("a reading that is trusted less moves the forecast less")
{
    const History history = tenLoadings();
    const double without = *told(readingsOf(1000.0, 0.6, 12), question(640.0), history).loads.p50;
    const auto with = [&](double trust) {
        std::vector<Reading> readings = readingsOf(1000.0, 0.6, 12);
        readings.push_back({640.0, dropAtPhase(0.66), 0.5 * units::psi, trust});
        return *told(readings, question(640.0), history).loads.p50;
    };
    CHECK(with(1.0) < with(0.01));
    CHECK(std::abs(with(0.01) - without) < std::abs(with(1.0) - without));
}

TEST_CASE("one reading far off the rest hardly moves the forecast")
{
    const History history = tenLoadings();
    std::vector<Reading> readings = readingsOf(1000.0, 0.6, 12);
    const double clean = *told(readings, question(600.0), history).loads.p50;
    readings[5].drop = readings[5].drop * 3.0; // a slip of a digit
    CHECK_THAT(*told(readings, question(600.0), history).loads.p50, WithinRel(clean, 0.08));
}

TEST_CASE("readings before new elements are not of this loading")
{
    const History history = tenLoadings();
    std::vector<Reading> both = readingsOf(1000.0, 0.9, 12);
    std::vector<Reading> second = readingsOf(1000.0, 0.5, 8);
    second.front().isNewElement = true;
    both.insert(both.end(), second.begin(), second.end());
    CHECK(*told(both, question(500.0), history).loads.p50 == *told(second, question(500.0), history).loads.p50);
}

TEST_CASE("without past loadings the answer is early, and wide")
{
    const History nothing = learn({}, limit).value();
    const Forecast result = told(readingsOf(1000.0, 0.6, 12), question(600.0), nothing);
    CHECK(result.state == State::Early);
    CHECK(result.why.say.id == "forecast.few-past-loadings");
    CHECK(result.pastLoadings == 0);
    CHECK(*result.loads.p10 < 1000.0);
    CHECK(*result.loads.p90 > 1000.0);
}

TEST_CASE("past loadings of other types alone leave it early")
{
    std::vector<PastLoading> past = tenPast();
    for (PastLoading& one : past) {
        one.kinship = Kinship::SameKind;
    }
    CHECK(told(readingsOf(1000.0, 0.6, 12), question(600.0), learn(past, limit).value()).state == State::Early);
}

TEST_CASE("an oil that gets clean may never bring the limit")
{
    Question asked = question(600.0);
    asked.ahead = {1.0, 0.0, 1.0 / 100.0}; // 100 more at most
    const Forecast result = told(readingsOf(1000.0, 0.6, 12), asked, tenLoadings());
    CHECK(result.loads.p50.has_value());
    CHECK_FALSE(result.seconds.p50.has_value());
}

TEST_CASE("the same readings give the same answer to the bit")
{
    const Forecast one = told(readingsOf(1000.0, 0.6, 12), question(600.0), tenLoadings());
    const Forecast two = told(readingsOf(1000.0, 0.6, 12), question(600.0), tenLoadings());
    CHECK(one.lives->masses == two.lives->masses);
}

TEST_CASE("at the raw limit it is reached, whatever the corrected drop says")
{
    Question asked = question(600.0);
    asked.rawDropNow = limit;
    CHECK(told(readingsOf(1000.0, 0.6, 12), asked, tenLoadings()).state == State::Reached);
    asked.rawDropNow = limit * 0.99;
    CHECK(told(readingsOf(1000.0, 0.6, 12), asked, tenLoadings()).state != State::Reached);
}

TEST_CASE("readings up to 41 are taken as they are, more are gathered without changing their mean")
{
    std::vector<Observation> all;
    for (int i = 1; i <= 100'000; ++i) {
        all.push_back({0.01 * i, 1e-5 * i, 1e-4});
    }
    const auto few = gathered(std::span(all).first(41));
    CHECK(few.size() == 41);
    const auto many = gathered(all);
    CHECK(many.size() <= observationsMax);
    for (const Observation& one : many) {
        CHECK_THAT(one.drop, WithinRel(1e-3 * one.load, 1e-6)); // on the same straight line
        CHECK(one.variance < 1e-4);
    }
}
