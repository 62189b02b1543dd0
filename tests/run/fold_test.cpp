// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The state is a fold of the events and of nothing else.

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <functional>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

FlushOpened flush()
{
    return {.cart = "C1", .toFluid = "ISO VG 68 gear", .toFamily = "gear", .left = typed<units::Volume>("1.5 L")};
}

TransferOpened transfer()
{
    return {.tank = "SP-4",
            .cart = "C1",
            .fluid = "ISO VG 220 gear",
            .capacity = typed<units::Volume>("205 L"),
            .planned = typed<units::Volume>("160 L")};
}

/// A run in which a seeded hand does anything that is not refused.
Walk wander(std::uint64_t seed)
{
    SeededRandom random(seed);
    Walk walk(withTarget(ordinary(), "1.5"));
    std::vector<Id> said;
    std::uint8_t jobs = 0;
    double minute = 0.0;
    const std::vector<std::function<void()>> doings = {
        [&] { walk.filteringAt(minute); },
        [&] { walk.bypassingAt(minute); },
        [&] { walk.stoppedAt(minute); },
        [&] { walk.readingAt(minute, "20 14 4"); },
        [&] { walk.readingAt(minute, "50 38 4"); },
        [&] { walk.readingAt(minute, "50 43 1"); },
        [&] { walk.readingAt(minute, "120 14 -"); },
        [&] { walk.readingSeenEarlierAt(minute, 3, "21 14 4"); },
        [&] { walk.amendAt(minute, said.at(random.next() % said.size()), "20 14 4"); },
        [&] { walk.strikeAt(minute, said.at(random.next() % said.size())); },
        [&] { walk.changeoverAt(minute, 2, 2); },
        [&] { walk.noteAt(minute); },
        [&] { walk.acknowledgeAt(minute, AlertId::StageAtLimit, 2); },
        [&] { walk.shelveAt(minute, AlertId::StageAtLimit, 2, 5); },
        [&] { walk.tickAt(minute); },
        [&] { walk.wallJumps(-20); },
        [&] { walk.restarts(); },
        [&] { walk.sayAt(minute, WasteTransferred{.volume = typed<units::Volume>("160 L")}); },
        [&] { walk.sayAt(minute, StartTold{.verdict = "warm", .by = "P. Ortiz", .why = "short run"}); },
        [&] { walk.openJobAt(minute, ++jobs, flush()); },
        [&] { walk.openJobAt(minute, ++jobs, transfer()); },
        [&] { walk.sayOfJobAt(minute, jobs, FlushBatch{typed<units::Volume>("10 L")}); },
        [&] { walk.sayOfJobAt(minute, jobs, FlushClosed{true, {}}); },
        [&] { walk.sayOfJobAt(minute, jobs, TransferStopped{typed<units::Volume>("130 L"), {}}); },
    };
    const auto isAllowed = [&](std::size_t doing) {
        const bool closed = walk.run().phase == Phase::Closed;
        const std::string limit = walk.alert(AlertId::StageAtLimit, 2);
        switch (doing) {
        case 0:
        case 1:
            return !closed;
        case 8:
        case 9:
            return !said.empty();
        case 12:
            return limit != "normal";
        case 13:
            return limit != "normal" && limit != "returned";
        case 21:
        case 22:
            return jobs > 0 && walk.job(jobs).isOpen() && walk.job(jobs).flush() != nullptr;
        case 23:
            return jobs > 0 && walk.job(jobs).isOpen() && walk.job(jobs).transfer() != nullptr;
        default:
            return true;
        }
    };
    for (int i = 0; i < 60; ++i) {
        minute += static_cast<double>(random.next() % 80) / 10.0;
        const std::size_t doing = random.next() % doings.size();
        if (!isAllowed(doing)) {
            continue;
        }
        doings[doing]();
        if (doing <= 7 || doing == 17) {
            said.push_back(walk.last());
        }
    }
    return walk;
}

State folded(const std::vector<Walk::Entry>& entries)
{
    State state;
    for (const Walk::Entry& entry : entries) {
        state = apply(std::move(state), entry.header, entry.event);
    }
    return state;
}

std::vector<Walk::Entry> shuffled(std::vector<Walk::Entry> entries, std::uint64_t seed)
{
    SeededRandom random(seed);
    for (std::size_t i = entries.size(); i > 1; --i) {
        std::swap(entries[i - 1], entries[random.next() % i]);
    }
    return entries;
}

std::vector<Walk::Entry> inFoldOrder(std::vector<Walk::Entry> entries)
{
    std::sort(entries.begin(), entries.end(),
              [](const Walk::Entry& a, const Walk::Entry& b) { return foldsBefore(a.header, b.header); });
    return entries;
}

} // namespace

TEST_CASE("folding the events anew gives the state that the run was walked in, in whatever order they came")
{
    for (std::uint64_t seed = 1; seed <= 60; ++seed) {
        CAPTURE(seed);
        const Walk walk = wander(seed);
        const std::string lived = printed(walk.state());
        CHECK(printed(folded(walk.entries())) == lived);
        CHECK(printed(folded(inFoldOrder(shuffled(walk.entries(), seed)))) == lived);
    }
}

TEST_CASE("a state printed after another order of folding would differ")
{
    const Walk walk = Walk().filteringAt(0).readingAt(2, "50 43 1").readingAt(5, "20 14 4");
    std::vector<Walk::Entry> swapped = walk.entries();
    std::swap(swapped[2], swapped[3]);
    CHECK(printed(folded(swapped)) != printed(walk.state()));
}

TEST_CASE("the bounds of the turnovers never cross, whatever is done")
{
    for (std::uint64_t seed = 100; seed < 160; ++seed) {
        CAPTURE(seed);
        const Walk walk = wander(seed);
        const RunTime end = walk.run().facts.back().entered + std::chrono::hours(1);
        const TurnoverBand band = standingOf(walk.run(), end).credit.turnovers;
        CHECK(band.low >= 0.0);
        CHECK(band.low <= band.best + 1e-12);
        CHECK(band.best <= band.high + 1e-12);
    }
}

TEST_CASE("events that fit nothing change nothing")
{
    const Walk walk = Walk().filteringAt(0).readingAt(2, "20 14 4");
    const std::string before = printed(walk.state());
    Header header = walk.entries().back().header;
    header.run = {{9}};
    CHECK(printed(apply(walk.state(), header, Noted{"n"})) == before);
}

TEST_CASE("an entry from elsewhere that names a stage that is not there is kept and judged as nothing")
{
    const Walk walk = Walk().filteringAt(0).readingAt(2, "20 14 4");
    Header header = walk.entries().back().header;
    header.id = {{9}};
    State state = apply(walk.state(), header, ElementsChanged{99, 2, {}});
    ReadingLogged odd = gauges("1 2");
    header.id = {{8}};
    state = apply(std::move(state), header, odd);
    const RunState& run = state.runs.begin()->second;
    CHECK(run.facts.size() == walk.run().facts.size() + 2);
    const Standing standing = standingOf(run, std::chrono::minutes(5));
    REQUIRE(standing.stages.size() == 2);
    CHECK_FALSE(standing.stages[1].raw.has_value());
}
