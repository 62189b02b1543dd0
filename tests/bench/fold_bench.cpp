// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What it costs to know where things stand: applying one event, reading and folding a long journal, and judging a run
// of 200 readings. `bench_fold [ENTRIES]`

#include "bench/long_journal.h"
#include "ledger/body.h"
#include "ledger/logbook.h"
#include "ledger/memory_journal.h"
#include "run/standing.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <utility>
#include <vector>

using namespace loopside;
using namespace loopside::bench;

namespace {

/// Nanoseconds for one event of a run of 200 readings.
double applyNs(const std::vector<std::pair<run::Header, run::Event>>& events)
{
    constexpr int rounds = 50;
    const double seconds = secondsOf([&] {
        for (int round = 0; round < rounds; ++round) {
            run::State state;
            for (const auto& [header, event] : events) {
                state = run::apply(std::move(state), header, event);
            }
            must(state.runs.size() == 1, "the run was not folded");
        }
    });
    return seconds * 1e9 / rounds / static_cast<double>(events.size());
}

std::vector<std::pair<run::Header, run::Event>> oneRun(const ledger::Journal& journal)
{
    std::vector<std::pair<run::Header, run::Event>> events;
    const auto entries = journal.read(1, readingsInRun + 2); // behind the opening of the chain
    must(entries.has_value(), "the journal cannot be read");
    for (const ledger::Stored& stored : *entries) {
        auto event = ledger::eventFrom(stored.entry.kind, stored.entry.body);
        must(event.has_value(), "a body cannot be read");
        events.emplace_back(stored.entry.header, *std::move(event));
    }
    return events;
}

/// Microseconds, median of many.
double standingUs(const run::RunState& run)
{
    std::vector<double> times;
    for (int i = 0; i < 500; ++i) {
        times.push_back(secondsOf([&] {
            const run::Standing standing = run::standingOf(run, run.facts.back().entered);
            must(standing.moments.size() == readingsInRun + 1, "a moment is missing");
        }));
    }
    std::nth_element(times.begin(), times.begin() + 250, times.end());
    return times[250] * 1e6;
}

} // namespace

int main(int argc, char** argv)
{
    const auto count = static_cast<std::size_t>(argc > 1 ? std::max(std::atoi(argv[1]), 1000) : 100'000);
    ledger::MemoryJournal journal;
    Filler(journal).fillTo(count, 1);
    const auto events = oneRun(journal);
    std::printf("apply, one event                 %9.0f ns\n", applyNs(events));

    MinuteClock clock;
    SeededRandom random(2);
    std::size_t runs = 0;
    const double folding = secondsOf([&] {
        const auto logbook = ledger::Logbook::open(journal, clock, random);
        must(logbook.has_value(), "the journal cannot be folded");
        runs = logbook->state().runs.size();
    });
    std::printf("decoding and fold, %zu events %9.2f s, %zu runs\n", count, folding, runs);

    run::State state;
    for (const auto& [header, event] : events) {
        state = run::apply(std::move(state), header, event);
    }
    std::printf("standing, run of %d readings    %9.1f us\n", readingsInRun, standingUs(state.runs.begin()->second));
    std::printf("size of a fact                   %9zu bytes\n", sizeof(run::Fact));
    return 0;
}
