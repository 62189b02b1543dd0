// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "simulated_days.h"

#include "run/standing.h"

#include <chrono>

namespace loopside::evaluation {

namespace {

using practice::Simulated;

constexpr std::uint64_t tryOutSeed = 7'000'000;

/// The readings of the elements that a stage began with, while filtering.
std::vector<StageReading> readingsOf(const run::RunState& run, std::size_t stage)
{
    const std::vector<run::Moment> moments = run::timelineOf(run);
    std::vector<StageReading> readings;
    double filtered = 0.0;
    for (std::size_t i = 0; i < moments.size(); ++i) {
        const run::Moment& moment = moments[i];
        const double seconds = std::chrono::duration<double>(moment.at).count();
        if (i > 0 && moments[i - 1].mode == run::Mode::Filtering) {
            filtered += seconds - std::chrono::duration<double>(moments[i - 1].at).count();
        }
        if (stage < moment.elementsSince.size() && moment.elementsSince[stage].count() > 0) {
            break;
        }
        if (moment.reading == nullptr) {
            continue;
        }
        const std::vector<run::StageDrop> drops = run::dropsAt(moment, run);
        const run::StageDrop& drop = drops[stage];
        if (drop.raw && drop.corrected && drop.reading && drop.loading) {
            readings.push_back({seconds, filtered, drop.raw->value().in(units::pascal),
                                drop.corrected->in(units::pascal), drop.reading->in(units::pascal),
                                drop.standing.value_or(units::Pressure()).in(units::pascal), *drop.loading});
        }
    }
    return readings;
}

StageDay stageDay(const Simulated& day, std::size_t stage)
{
    const run::StageRecord& record = day.setup.stages[stage];
    StageDay result;
    result.readings = readingsOf(practice::asRun(day), stage);
    result.isUsedTold = record.loaded.has_value();
    result.limit = record.changeLimit->value().in(units::pascal);
    result.turnoversPerSecond = day.setup.cart.flow.value().in(units::cubicMetrePerSecond)
        / day.setup.tank.volume.value().in(units::cubicMetre);
    result.targetAt = day.truth.targetAt.in(units::second);
    for (const practice::StageLife& life : day.truth.lives) {
        if (life.stage == static_cast<int>(stage) + 1 && life.from == units::Duration()) {
            if (life.changedAt) {
                result.changedAt = life.changedAt->in(units::second);
            }
            if (life.limitAt) {
                result.trueLimitAt = life.limitAt->in(units::second);
            }
        }
    }
    return result;
}

} // namespace

std::vector<StageCase> stageCases(int number, int otherDays, bool isTestSet)
{
    const std::uint64_t seed = isTestSet ? practice::testSeed(number) : tryOutSeed + static_cast<std::uint64_t>(number);
    std::vector<StageCase> cases;
    for (int occasion = 0; occasion <= otherDays; ++occasion) {
        const auto day = practice::simulate(practice::drawScenario(seed, occasion));
        if (!day && occasion == 0) {
            return {};
        }
        if (!day) {
            continue;
        }
        for (std::size_t stage = 0; stage < day->setup.stages.size(); ++stage) {
            if (occasion == 0) {
                cases.push_back({stageDay(*day, stage), {}});
            } else {
                cases[stage].others.push_back(stageDay(*day, stage));
            }
        }
    }
    return cases;
}

} // namespace loopside::evaluation
