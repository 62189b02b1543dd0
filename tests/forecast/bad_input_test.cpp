// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Whatever comes in: an answer or a plain refusal, never a crash, never an infinite or negative time.

#include "forecast/forecast.h"
#include "loadings.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <random>

using namespace loopside;
using namespace loopside::forecast;
using namespace loopside::forecast::test;

namespace {

const double notANumber = std::numeric_limits<double>::quiet_NaN();
const double infinite = std::numeric_limits<double>::infinity();

void checkRange(const Range& range, double now)
{
    for (const auto& value : {range.p10, range.p50, range.p90}) {
        if (value) {
            CHECK(std::isfinite(*value));
            CHECK(*value >= now * (1.0 - 1e-9));
        }
    }
    if (range.p10 && range.p50 && range.p90) {
        CHECK(*range.p10 <= *range.p50);
        CHECK(*range.p50 <= *range.p90);
    }
}

/// Either a refusal with a sentence, or numbers that can be.
void checkSane(const Result<Forecast>& result, double now)
{
    if (!result) {
        CHECK_FALSE(result.error().sentence.empty());
        return;
    }
    CHECK_FALSE(result->why.sentence.empty());
    CHECK_FALSE(result->why.say.id.empty());
    checkRange(result->loads, now);
    checkRange(result->seconds, now);
    if (result->phase) {
        CHECK(*result->phase >= 0.0);
        CHECK(*result->phase <= 1.0);
    }
    CHECK((result->state == State::None || result->state == State::Reached || result->lives.has_value()));
}

std::vector<Reading> series(const std::vector<double>& psi)
{
    std::vector<Reading> readings;
    for (std::size_t i = 0; i < psi.size(); ++i) {
        readings.push_back({100.0 * static_cast<double>(i + 1), psi[i] * units::psi, 0.5 * units::psi});
    }
    return readings;
}

Result<Forecast> asked(const std::vector<Reading>& readings, bool hasHistory)
{
    const History history = learn(hasHistory ? tenPast() : std::vector<PastLoading>(), limit).value();
    const double now = readings.empty() ? 0.0 : readings.back().load;
    const auto result = forecast::forecast(readings, question(now), history);
    checkSane(result, now);
    return result;
}

State stateOf(const std::vector<double>& psi, bool hasHistory)
{
    const auto result = asked(series(psi), hasHistory);
    REQUIRE(result.has_value());
    return result->state;
}

} // namespace

TEST_CASE("series that say nothing of dirt get no forecast")
{
    const bool hasHistory = GENERATE(false, true);
    CHECK(stateOf({}, hasHistory) == State::None);
    CHECK(stateOf({9.0, 8.0, 7.0, 6.0, 5.0, 4.0}, hasHistory) == State::None);    // falls
    CHECK(stateOf({8.0, 9.0, 10.0, 11.0, 12.0, 3.0}, hasHistory) == State::None); // torn, or bypassed
}

TEST_CASE("few or equal readings get a range with past loadings and none without")
{
    CHECK(stateOf({3.0}, false) == State::None);
    CHECK(stateOf({3.0, 4.0}, false) == State::None);
    CHECK(stateOf({3.0, 3.0, 3.0, 3.0}, false) == State::None);
    CHECK(stateOf({3.0, 4.0}, true) != State::None);
    CHECK(stateOf({3.0, 3.0, 3.0, 3.0}, true) != State::None);
}

TEST_CASE("a limit below the first reading is reached")
{
    CHECK(stateOf({26.0, 27.0}, true) == State::Reached);
    CHECK(stateOf({26.0, 27.0}, false) == State::Reached);
}

TEST_CASE("a bypass valve that opens before the limit makes a forecast of it senseless")
{
    Question question = test::question(600.0);
    question.bypassSetting = 20.0 * units::psi;
    const auto result = forecast::forecast(readingsOf(1000.0, 0.6, 12), question, learn(tenPast(), limit).value());
    REQUIRE(result.has_value());
    CHECK(result->state == State::None);
    CHECK(result->why.say.id == "forecast.limit-above-bypass");
}

TEST_CASE("numbers that cannot be are refused by name")
{
    const History history = learn(tenPast(), limit).value();
    const auto refused = [&](const std::vector<Reading>& readings, const Question& question) {
        const auto result = forecast::forecast(readings, question, history);
        return !result && result.error().code == Errc::OutOfRange && !result.error().sentence.empty();
    };
    const auto reading = [](double load, double psi, double error, double trust) {
        return std::vector<Reading>{{load, psi * units::psi, error * units::psi, trust}};
    };
    const Question good = question(100.0);
    CHECK(refused(reading(notANumber, 3.0, 0.5, 1.0), good));
    CHECK(refused(reading(-1.0, 3.0, 0.5, 1.0), good));
    CHECK(refused(reading(100.0, notANumber, 0.5, 1.0), good));
    CHECK(refused(reading(100.0, infinite, 0.5, 1.0), good));
    CHECK(refused(reading(100.0, 3.0, 0.0, 1.0), good));
    CHECK(refused(reading(100.0, 3.0, notANumber, 1.0), good));
    CHECK(refused(reading(100.0, 3.0, 0.5, 0.0), good));
    CHECK(refused(reading(100.0, 3.0, 0.5, 1.5), good));
    std::vector<Reading> backwards = series({3.0, 4.0});
    backwards[1].load = 50.0;
    CHECK(refused(backwards, good));
    for (const double bad : {notANumber, infinite, -1.0}) {
        Question question = good;
        question.rawLimit = bad * units::psi;
        CHECK(refused(series({3.0}), question));
        question = good;
        question.rawPerCorrected = bad;
        CHECK(refused(series({3.0}), question));
        question = good;
        question.standingError = bad * units::psi;
        CHECK(refused(series({3.0}), question));
        question = good;
        question.ahead.perSecond = bad;
        CHECK(refused(series({3.0}), question));
        question = good;
        question.targetLoad = bad;
        CHECK(refused(series({3.0}), question));
        question = good;
        question.loadNow = bad;
        CHECK(refused(series({3.0}), question));
    }
}

TEST_CASE("gaps, crowds and extremes of scale are answered")
{
    const bool hasHistory = GENERATE(false, true);
    std::vector<Reading> gap = readingsOf(1000.0, 0.3, 8);
    gap.push_back({900.0, dropAtPhase(0.9), 0.5 * units::psi});
    CHECK(asked(gap, hasHistory).has_value());
    CHECK(asked(readingsOf(1000.0, 0.8, 100'000), hasHistory).has_value());
    CHECK(asked(readingsOf(1e-9, 0.8, 20), hasHistory).has_value());
    CHECK(asked(readingsOf(1e12, 0.8, 20), hasHistory).has_value()); // a thousand million times the past lives
    std::vector<Reading> still = readingsOf(1000.0, 0.5, 5);
    for (Reading& reading : still) {
        reading.load = 500.0; // all at once
    }
    CHECK(asked(still, hasHistory).has_value());
    CHECK(asked(series({-3.0, -2.0, 0.0, 1.0, 2.0}), hasHistory).has_value());
}

TEST_CASE("a thousand series of chance give answers that can be")
{
    std::mt19937 random(5); // the raw generator is the same everywhere
    const History none = learn({}, limit).value();
    const History ten = learn(tenPast(), limit).value();
    const auto uniform = [&] { return static_cast<double>(random()) / 4294967296.0; };
    for (int i = 0; i < 1'000; ++i) {
        std::vector<Reading> readings;
        double load = 0.0;
        const auto count = random() % 30;
        for (unsigned k = 0; k < count; ++k) {
            load += std::pow(10.0, 6.0 * uniform() - 3.0) * (random() % 4 == 0 ? 0.0 : 1.0);
            readings.push_back({load, (40.0 * uniform() - 5.0) * units::psi, (0.01 + uniform()) * units::psi,
                                0.01 + 0.99 * uniform(), random() % 20 == 0});
            load = readings.back().isNewElement ? readings.back().load : load;
        }
        Question asked = question(load);
        asked.standingError = uniform() * units::psi;
        asked.rawPerCorrected = 0.3 + 2.0 * uniform();
        asked.rawPerCorrectedError = random() % 2 == 0 ? 0.0 : 0.2 * uniform();
        asked.targetLoad = random() % 2 == 0 ? std::optional<double>() : load * 2.0 * uniform();
        checkSane(forecast::forecast(readings, asked, i % 2 == 0 ? none : ten), load);
    }
}
