// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/alert_tone.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace loopside::app {

namespace {

constexpr double base_Hz = 550.0;
constexpr int partials = 5; // the base and its harmonics, each as high as one over its number
constexpr double fade_s = 0.015;
constexpr double fullScale = 32767.0;

struct Pattern
{
    int bursts;
    double burst_s;
    double gap_s;  ///< Between two bursts.
    double rest_s; ///< After the last one.
    double peak;   ///< Never exceeded, of full scale.
    bool repeats;
};

Pattern patternOf(run::Priority priority)
{
    switch (priority) {
    case run::Priority::High:
        return {3, 0.15, 0.10, 1.0, 0.95, true};
    case run::Priority::Medium:
        return {2, 0.40, 0.30, 6.0, 0.475, true};
    case run::Priority::Low:
        break;
    }
    return {1, 0.20, 0.0, 0.05, 0.2375, false};
}

/// Between -1 and 1.
double waveAt(double time_s)
{
    double sum = 0.0;
    double most = 0.0;
    for (int n = 1; n <= partials; ++n) {
        sum += std::sin(2.0 * std::numbers::pi * base_Hz * n * time_s) / n;
        most += 1.0 / n;
    }
    return sum / most;
}

/// From 0 at both ends of a burst to 1 within it.
double fadeAt(double time_s, double burst_s)
{
    const double share = std::clamp(std::min(time_s, burst_s - time_s) / fade_s, 0.0, 1.0);
    return 0.5 - 0.5 * std::cos(std::numbers::pi * share);
}

void addBurst(std::vector<std::int16_t>& samples, const Pattern& pattern, int samplesPerSecond)
{
    const auto count = static_cast<int>(std::lround(pattern.burst_s * samplesPerSecond));
    for (int i = 0; i < count; ++i) {
        const double time_s = static_cast<double>(i) / samplesPerSecond;
        const double value = pattern.peak * fadeAt(time_s, pattern.burst_s) * waveAt(time_s);
        samples.push_back(static_cast<std::int16_t>(std::lround(fullScale * value)));
    }
}

void addSilence(std::vector<std::int16_t>& samples, double length_s, int samplesPerSecond)
{
    const auto count = static_cast<std::size_t>(std::lround(length_s * samplesPerSecond));
    samples.insert(samples.end(), count, 0);
}

} // namespace

AlertTone alertTone(run::Priority priority, int samplesPerSecond)
{
    const Pattern pattern = patternOf(priority);
    AlertTone tone{{}, pattern.repeats};
    for (int burst = 0; burst < pattern.bursts; ++burst) {
        addBurst(tone.samples, pattern, samplesPerSecond);
        const bool isLast = burst + 1 == pattern.bursts;
        addSilence(tone.samples, isLast ? pattern.rest_s : pattern.gap_s, samplesPerSecond);
    }
    return tone;
}

} // namespace loopside::app
