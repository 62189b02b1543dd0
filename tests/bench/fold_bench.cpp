// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What it costs to know where things stand: applying one event, reading and folding a long journal, and judging a run
// of 200 readings. `bench_fold [ENTRIES]`

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

namespace {

constexpr int readingsInRun = 200;

/// Ends the program with `why`; a figure from a run in which something failed is worth nothing.
void must(bool condition, const char* why)
{
    if (!condition) {
        std::fprintf(stderr, "bench_fold: %s\n", why);
        std::exit(1);
    }
}

template<class Work>
double secondsOf(Work work)
{
    const auto begin = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

/// A clock that goes on by a minute with every look at it.
class MinuteClock final : public Clock
{
public:
    Stamp now() override
    {
        stamp_.wallMs += 60'000;
        stamp_.monoNs += 60'000'000'000;
        return stamp_;
    }

private:
    Stamp stamp_ = {1'751'958'400'000, 0, 0, {{1}}};
};

Decimal number(int tenths)
{
    return Decimal(tenths, 1);
}

run::Setup setup()
{
    const auto* psi = units::unitNamed<units::Pressure>("psi").value();
    const run::GaugeRecord dial{psi, number(1000), number(10), "B"};
    run::Setup made{.title = "bench",
                    .tank = {.name = "T1",
                             .volume = units::Typed<units::Volume>::parse("400 L").value(),
                             .fluid = {.kind = "hydraulic", .grade = "ISO VG 46", .viscosityIndex = number(980)}},
                    .cart = {.name = "C1",
                             .flow = units::Typed<units::Flow>::parse("19 L/min").value(),
                             .lastFluid = {},
                             .gauges = {dial, dial, dial}},
                    .stages = std::vector<run::StageRecord>(2)};
    for (run::StageRecord& stage : made.stages) {
        stage.kind = "particle";
        stage.cleanDp = units::Typed<units::Pressure>::parse("4 psi").value();
        stage.cleanAt = run::CleanAt{made.cart.flow, units::Typed<units::KinematicViscosity>::parse("46 cSt").value()};
        stage.changeLimit = units::Typed<units::Pressure>::parse("90 psi").value();
    }
    return made;
}

run::ReadingLogged reading(int i)
{
    run::ReadingLogged set;
    for (const int tenths : {300 + i % 50, 200 + i % 30, 40}) {
        set.gauges.push_back(run::GaugeTyped{number(tenths), std::nullopt});
    }
    set.oil = units::Typed<units::Temperature>::parse("41.5 °C").value();
    return set;
}

/// Runs of 200 readings each, one after the other, until the journal holds `entries`.
void fill(ledger::MemoryJournal& journal, std::size_t entries)
{
    MinuteClock clock;
    SeededRandom random(1);
    const ledger::Hand hand{{{2}}, {{3}}};
    IdMaker ids(random);
    ledger::Sealer sealer = ledger::Sealer::startChain(hand.device, {{4}}, ledger::DeviceKey::fromSeed({1}));
    std::size_t made = 0;
    const auto add = [&](std::vector<ledger::Draft> drafts) {
        const auto sealed = sealer.seal(drafts, clock.now(), hand.person, ids);
        must(journal.append(sealed).has_value(), "an append failed");
        sealer.accept(sealed);
        made += sealed.size();
    };
    const auto draft = [](const run::Event& event, const Id& run) {
        return ledger::Draft{std::string(ledger::kindOf(event)), ledger::bodyOf(event), run, {}, {}};
    };
    add({sealer.chainOpened()});
    while (made < entries) {
        const Id run = ids.next(clock.now().wallMs);
        add({draft(run::RunOpened{setup()}, run), draft(run::ModeChanged{run::Mode::Filtering}, run)});
        for (int i = 0; i < readingsInRun && made < entries; ++i) {
            add({draft(reading(i), run)});
        }
    }
}

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
    fill(journal, count);
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
