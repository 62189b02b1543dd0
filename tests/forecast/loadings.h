// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Invented loadings for tests: exponential curves from 5 to 100 % of the limit, smooth or with a wave.

#pragma once

#include "forecast/forecast.h"

#include <cmath>
#include <vector>

namespace loopside::forecast::test {

inline const units::Pressure limit = 25.0 * units::psi;

/// Drop at a phase: 0.05·e^(3·phase)·limit, to 1.004 of the limit.
inline units::Pressure dropAtPhase(double phase, double wave = 0.0)
{
    return 0.05 * std::exp(2.9957 * phase + wave * std::sin(9.0 * phase) * (1.0 - phase)) * limit;
}

inline PastLoading pastOf(double life, Kinship kinship = Kinship::SameTank, double wave = 0.0)
{
    PastLoading past{kinship, {}, life, limit, false};
    for (int i = 1; i <= 40; ++i) {
        past.curve.push_back({life * i / 40.0, dropAtPhase(i / 40.0, wave)});
    }
    return past;
}

inline std::vector<PastLoading> tenPast(double life = 1000.0)
{
    std::vector<PastLoading> past;
    for (int i = 0; i < 10; ++i) {
        past.push_back(pastOf(life * (0.9 + 0.02 * i), Kinship::SameTank, 0.04 * (i % 3 - 1)));
    }
    return past;
}

/// `count` readings evenly up to `phase` of a loading of `life`.
inline std::vector<Reading> readingsOf(double life, double phase, int count)
{
    std::vector<Reading> readings;
    for (int i = 1; i <= count; ++i) {
        const double at = phase * i / count;
        readings.push_back({life * at, dropAtPhase(at), 0.5 * units::psi});
    }
    return readings;
}

/// One load a second, no target.
inline Question question(double now)
{
    return {.rawLimit = limit, .standingError = {}, .secondsNow = now, .ahead = {1.0, 1.0, 0.0}};
}

} // namespace loopside::forecast::test
