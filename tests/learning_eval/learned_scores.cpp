// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "learned_scores.h"

#include "run/learning.h"
#include "run/life_learned.h"
#include "run/tank_learned.h"

#include <algorithm>
#include <cmath>

namespace loopside::evaluation {

namespace {

using units::pascal;

double percentOff(double learned, double truth)
{
    return 100.0 * std::abs(std::log(learned / truth));
}

/// What the first loading of a stage taught, if it was of new elements.
const run::LoadingLearned* firstOf(const FleetDay& day, std::size_t stage)
{
    const auto found = std::ranges::find_if(day.run.taught, [&](const run::LoadingLearned& learned) {
        return learned.stage == static_cast<int>(stage) + 1 && learned.number == 1 && !learned.isUsed;
    });
    return found == day.run.taught.end() ? nullptr : &*found;
}

/// By how much the dials beside a stage stand off, as it is corrected on that day.
double standingOffPa(const FleetDay& day, std::size_t stage)
{
    const double off = (day.scenario.dials[stage].standing - day.scenario.dials[stage + 1].standing).in(pascal);
    const practice::Snapshot& first = day.simulated.truth.atReadings.front();
    const run::CleanAt& at = *day.run.setup.stages[stage].cleanAt;
    return off * (at.viscosity.value() / first.viscosity);
}

void judgeClean(const FleetDay& day, std::size_t stage, const run::State& before, CleanScores& scores)
{
    const double truth = day.scenario.stages[stage].clean.total.in(pascal);
    const double shown = truth + standingOffPa(day, stage);
    const run::CleanLearned learned = run::cleanLearned(before, day.run.setup, static_cast<int>(stage) + 1);
    if (!learned.drop_pa || shown <= 0.05 * truth) {
        ++scores.notShown;
        return;
    }
    scores.ofShown.push_back(percentOff(learned.drop_pa->best, shown));
    scores.ofTruth.push_back(percentOff(learned.drop_pa->best, truth));
    scores.covered.push_back(learned.drop_pa->low <= shown && shown <= learned.drop_pa->high);
}

/// The litres' worth of dirt that all of the run brought.
double allLitres(const FleetDay& day)
{
    const auto standing = run::standingByGauges(day.run, day.run.closedAt);
    const auto loadings = run::loadingsOf(day.run, standing.moments, standing.questions, standing.diagnosis.sets);
    const double turnovers = loadings.filtered.turnovers;
    return forecast::dirtAfter(turnovers, run::cleaningOf(day.run.setup.tank)).value()
        * day.run.setup.tank.volume.value().in(units::litre);
}

void judgeLife(const FleetDay& day, const run::LoadingLearned& first, const run::State& before, LifeScores& scores)
{
    std::vector<run::ValueSeen> seen;
    for (const auto& [id, run] : before.runs) {
        for (const run::ElementLife& life : run::livesOf(run.taught, first.tank, first.elementType)) {
            seen.push_back({life.litres, life.isCutShort});
        }
    }
    const auto next = run::NextValue::from(seen, {.spread = run::dirtUnsure});
    if (!next.isKnown()) {
        ++scores.unknown;
        return;
    }
    scores.told.push_back({next.chanceBelow(allLitres(day)), !first.isCutShort});
}

} // namespace

void judgeLearned(const std::vector<FleetDay>& days, LearnedScores& scores)
{
    if (days.size() < static_cast<std::size_t>(fleetDays)) {
        return;
    }
    const FleetDay& last = days.back();
    for (const int runs : pastRuns) {
        const run::State before = stateBefore(days, days.size() - 1, static_cast<std::size_t>(runs));
        for (std::size_t stage = 0; stage < last.run.setup.stages.size(); ++stage) {
            if (last.scenario.stages[stage].loadedAtStart > 1.0) {
                continue;
            }
            judgeClean(last, stage, before, scores.clean[runs]);
            if (const auto* first = firstOf(last, stage)) {
                judgeLife(last, *first, before, scores.lives[runs]);
            }
        }
    }
}

} // namespace loopside::evaluation
