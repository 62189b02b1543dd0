// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "fleet.h"

#include "run/learning.h"
#include "run/tank_learned.h"

#include <algorithm>

namespace loopside::evaluation {

namespace {

/// Ids rise with the days.
Id idOf(std::size_t day)
{
    return {.bytes = {0xA0, static_cast<std::uint8_t>(day / 256), static_cast<std::uint8_t>(day % 256)}};
}

run::RunState closedRun(const practice::Simulated& simulated, const run::State& before, std::size_t day)
{
    run::RunState run = practice::asRun(simulated);
    run.id = idOf(day);
    run.past = run::learnedFor(before, run.setup);
    run.place = run::placeLearned(before, run.setup);
    run.phase = run::Phase::Closed;
    run.closed = run::RunClosed{};
    run.closedAt = simulated.entries.back().at;
    run.taught = run::learningChanges(run, run::standingByGauges(run, run.closedAt));
    return run;
}

} // namespace

std::vector<FleetDay> placeOver(std::uint64_t seed, int days)
{
    std::vector<FleetDay> lived;
    run::State state;
    for (int occasion = 0; occasion < days; ++occasion) {
        practice::Scenario scenario = practice::drawScenario(seed, occasion);
        auto simulated = practice::simulate(scenario);
        if (!simulated) {
            continue;
        }
        run::RunState run = closedRun(*simulated, state, lived.size());
        state.runs.emplace(run.id, run);
        lived.push_back({std::move(scenario), *std::move(simulated), std::move(run)});
    }
    return lived;
}

run::State stateBefore(const std::vector<FleetDay>& days, std::size_t index, std::size_t most)
{
    run::State state;
    for (std::size_t i = index - std::min(index, most); i < index; ++i) {
        state.runs.emplace(days[i].run.id, days[i].run);
    }
    return state;
}

} // namespace loopside::evaluation
