// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a forecast costs, by readings and past loadings: the update after a reading, and learning, which is done once
// for an element type. `bench_forecast`

#include "forecast/forecast.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <vector>

using namespace loopside;
using namespace loopside::forecast;

namespace {

const units::Pressure limit = 25.0 * units::psi;
constexpr double unitError = 0.5; // turnovers of a tank whose dirt nobody counted: the costlier way

units::Pressure dropAt(double phase)
{
    return 0.05 * std::exp(3.0 * phase) * limit;
}

std::vector<PastLoading> pastLoadings(int count)
{
    std::vector<PastLoading> past;
    for (int i = 0; i < count; ++i) {
        PastLoading one{Kinship::SameTank, {}, 900.0 + i % 200, limit, false};
        for (int k = 1; k <= 40; ++k) {
            one.curve.push_back({one.endLoad * k / 40.0, dropAt(k / 40.0 + 0.01 * (i % 5) * (1.0 - k / 40.0))});
        }
        past.push_back(std::move(one));
    }
    return past;
}

std::vector<Reading> readingsOf(int count)
{
    std::vector<Reading> readings;
    for (int i = 1; i <= count; ++i) {
        const double phase = 0.7 * i / count;
        readings.push_back({1000.0 * phase, dropAt(phase), 0.5 * units::psi});
    }
    return readings;
}

/// Milliseconds, median of `rounds`.
template<class Work>
double medianMs(int rounds, Work work)
{
    std::vector<double> times;
    for (int i = 0; i < rounds; ++i) {
        const auto begin = std::chrono::steady_clock::now();
        work();
        times.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count());
    }
    std::ranges::sort(times);
    return times[times.size() / 2];
}

} // namespace

int main()
{
    std::printf("past loadings   learning ms   update ms at %5d %7d %7d readings\n", 10, 100, 1000);
    for (const int loadings : {0, 6, 100, 1000}) {
        const std::vector<PastLoading> past = pastLoadings(loadings);
        const Result<History> history = learn(past, limit, unitError);
        const double learning = medianMs(5, [&] {
            if (!learn(past, limit, unitError)) {
                std::exit(1);
            }
        });
        std::printf("%13d %13.2f %18s", loadings, learning, "");
        for (const int count : {10, 100, 1000}) {
            const std::vector<Reading> readings = readingsOf(count);
            const Question question{
                .rawLimit = limit, .standingError = {}, .secondsNow = 700.0, .ahead = {1.0, 1.0, 0.0}};
            std::printf(" %7.3f", medianMs(101, [&] {
                            const auto told = forecast::forecast(readings, question, *history);
                            if (!told || !told->lives) {
                                std::fprintf(stderr, "bench_forecast: no forecast\n");
                                std::exit(1);
                            }
                        }));
        }
        std::printf("\n");
    }
    return 0;
}
