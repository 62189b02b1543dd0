// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/alert_tone.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <span>
#include <vector>

namespace loopside::app {

namespace {

using run::Priority;

constexpr int rate = 48000;

/// Over what sounds, without the silence between and after.
double rmsOf(const AlertTone& tone)
{
    double sum = 0.0;
    double count = 0.0;
    for (const std::int16_t sample : tone.samples) {
        sum += static_cast<double>(sample) * sample;
        count += sample != 0 ? 1.0 : 0.0;
    }
    return std::sqrt(sum / count);
}

/// Stretches of sound with at least 20 ms of silence between them.
std::vector<std::span<const std::int16_t>> burstsOf(const AlertTone& tone, int samplesPerSecond)
{
    std::vector<std::span<const std::int16_t>> bursts;
    const std::span<const std::int16_t> all = tone.samples;
    std::size_t last = 0;
    std::size_t begin = 0;
    bool isIn = false;
    for (std::size_t i = 0; i < all.size(); ++i) {
        if (all[i] != 0) {
            begin = isIn ? begin : i;
            isIn = true;
            last = i;
        } else if (isIn && i - last > static_cast<std::size_t>(samplesPerSecond) / 50) {
            bursts.push_back(all.subspan(begin, last + 1 - begin));
            isIn = false;
        }
    }
    return bursts;
}

int peakOf(std::span<const std::int16_t> samples)
{
    const auto peak = std::ranges::max_element(samples, {}, [](int sample) { return std::abs(sample); });
    return std::abs(static_cast<int>(*peak));
}

} // namespace

TEST_CASE("urgency is told by number, pace and height of the bursts")
{
    const AlertTone high = alertTone(Priority::High, rate);
    const AlertTone medium = alertTone(Priority::Medium, rate);
    const AlertTone low = alertTone(Priority::Low, rate);
    CHECK(burstsOf(high, rate).size() == 3); // ours: three fast, two slow, one
    CHECK(burstsOf(medium, rate).size() == 2);
    CHECK(burstsOf(low, rate).size() == 1);
    CHECK(high.samples.size() < medium.samples.size());
    // Half the height is half the RMS; the fades are a larger part of short bursts.
    CHECK_THAT(rmsOf(high) / rmsOf(medium), Catch::WithinRel(2.0, 0.05));
    CHECK_THAT(rmsOf(medium) / rmsOf(low), Catch::WithinRel(2.0, 0.05));
}

TEST_CASE("what wants an answer goes round, what only tells is heard once")
{
    CHECK(alertTone(Priority::High, rate).repeats);
    CHECK(alertTone(Priority::Medium, rate).repeats);
    CHECK_FALSE(alertTone(Priority::Low, rate).repeats);
}

TEST_CASE("no tone clips or clicks, at any rate of samples")
{
    const Priority priority = GENERATE(Priority::High, Priority::Medium, Priority::Low);
    const int samplesPerSecond = GENERATE(8000, 22050, 44100, 48000);
    const AlertTone tone = alertTone(priority, samplesPerSecond);
    const int peak = peakOf(tone.samples);
    CHECK(peak < 32767);
    CHECK(peak > 3276); // a tenth of full scale: it can be heard at all
    const auto millisecond = static_cast<std::size_t>(samplesPerSecond / 1000);
    const auto bursts = burstsOf(tone, samplesPerSecond);
    REQUIRE_FALSE(bursts.empty());
    for (const auto& burst : bursts) { // a fade of 15 ms is at a ninetieth after the first one; computed
        CHECK(peakOf(burst.first(millisecond)) * 50 < peak);
        CHECK(peakOf(burst.last(millisecond)) * 50 < peak);
    }
}

TEST_CASE("a tone is as long at every rate of samples")
{
    const Priority priority = GENERATE(Priority::High, Priority::Medium, Priority::Low);
    const auto seconds = [&](int samplesPerSecond) {
        return static_cast<double>(alertTone(priority, samplesPerSecond).samples.size()) / samplesPerSecond;
    };
    CHECK_THAT(seconds(8000), Catch::WithinAbs(seconds(48000), 0.001));
    CHECK(seconds(rate) > 0.2);
    CHECK(seconds(rate) < 10.0);
}

} // namespace loopside::app
