// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the diagnosis of a run costs, beside a straight loop over the same sets that takes the differences of their
// gauges and no more: the least that any diagnosis must do. `bench_diagnosis [READINGS]...`; none: 20 and 200.

#include "bench/long_journal.h"
#include "bench/measure.h"
#include "run/judge.h"
#include "run/question.h"
#include "run/state.h"
#include "run/timeline.h"

#include <cmath>

using namespace loopside;
using namespace loopside::bench;

namespace {

/// A run that filters, with a set every five minutes.
run::RunState runOf(int readings)
{
    run::State state;
    run::Header header;
    header.run = {{7}};
    const auto say = [&](const run::Event& event) {
        header.id.bytes[15] = static_cast<std::uint8_t>(header.sequence);
        header.id.bytes[14] = static_cast<std::uint8_t>(header.sequence >> 8U);
        ++header.sequence;
        ++header.clock;
        header.entered.wallMs += 300'000;
        header.entered.monoNs += 300'000'000'000;
        state = run::apply(std::move(state), header, event);
    };
    say(run::RunOpened{setup(), {}});
    say(run::ModeChanged{run::Mode::Filtering, {}});
    for (int i = 0; i < readings; ++i) {
        say(reading(i));
    }
    must(state.runs.size() == 1, "the run was not folded");
    return state.runs.begin()->second;
}

/// Nanoseconds of the work, the median of rounds of ten each.
template<class Work>
double medianNs(int rounds, Work work)
{
    constexpr int times = 10;
    std::vector<double> figures;
    for (int i = 0; i < rounds; ++i) {
        figures.push_back(secondsOf([&] {
                              for (int k = 0; k < times; ++k) {
                                  work();
                              }
                          })
                          * 1e9 / times);
    }
    return medianOf(std::move(figures));
}

double differencesOf(const std::vector<run::Moment>& moments)
{
    double sum = 0.0;
    for (const run::Moment& moment : moments) {
        if (moment.reading == nullptr) {
            continue;
        }
        const auto& gauges = moment.reading->gauges;
        for (std::size_t i = 0; i + 1 < gauges.size(); ++i) {
            sum += gauges[i]->low.toDouble() - gauges[i + 1]->low.toDouble();
        }
    }
    return sum;
}

void measure(int readings)
{
    const run::RunState run = runOf(readings);
    const auto moments = run::timelineOf(run);
    const auto questions = run::questionsIn(moments, run);
    std::size_t judged = 0;
    const double diagnosis = medianNs(51, [&] { judged = run::judgeSets(run, moments, questions).sets.size(); });
    must(judged >= static_cast<std::size_t>(readings) / 2, "most sets were not judged");
    double sum = 0.0;
    const double loop = medianNs(501, [&] { sum += differencesOf(moments); });
    must(std::isfinite(sum) && sum > 0.0, "nothing was added up");
    std::printf("%9d %9zu %12.1f %12.3f %9.1f\n", readings, judged, diagnosis / 1e3, loop / 1e3, diagnosis / loop);
}

} // namespace

int main(int argc, char** argv)
{
    std::vector<int> sizes;
    for (int i = 1; i < argc; ++i) {
        sizes.push_back(std::max(std::atoi(argv[i]), 2));
    }
    if (sizes.empty()) {
        sizes = {20, 200};
    }
    std::printf(" readings    judged diagnosis us      loop us     ratio\n");
    for (const int size : sizes) {
        measure(size);
    }
    return 0;
}
