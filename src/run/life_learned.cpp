// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/life_learned.h"

#include "base/text.h"
#include "run/learning.h"
#include "run/stage_loading.h"

#include <algorithm>

namespace loopside::run {

namespace {

constexpr double rarelyBelow = 0.005; // one in 200 either way: docs/learning.md has what less costs
constexpr double rarelyAbove = 0.995;
constexpr double muchTimes = 2.0; // ours: twice as long, or half
constexpr double nearlySure = 0.001;

NextValue nextOf(std::span<const ElementLife> lives)
{
    std::vector<ValueSeen> seen;
    for (const ElementLife& life : lives) {
        if (life.litres > 0.0) {
            seen.push_back({life.litres, life.isCutShort});
        }
    }
    return NextValue::from(seen, {.spread = dirtUnsure});
}

int wholeOf(std::span<const ElementLife> lives)
{
    return static_cast<int>(std::count_if(
        lives.begin(), lives.end(), [](const ElementLife& life) { return !life.isCutShort && life.litres > 0.0; }));
}

std::string litresText(double litres)
{
    return fixed(litres, litres < 100.0 ? 1 : 0) + " L";
}

/// What earlier lives say of one.
struct OfLives
{
    int whole;
    double chance; ///< That one is over by then.
    filtration::Band band;
};

Finding findingOf(std::string_view id, const StageLoading& loading, double litres, const OfLives& of)
{
    const std::string name = "finding." + std::string(id);
    std::vector<Message::Argument> values = {{"stage", std::to_string(loading.stage)},
                                             {"life", litresText(litres)},
                                             {"type", loading.elementType},
                                             {"life-least", litresText(of.band.low)},
                                             {"life-middle", litresText(of.band.best)},
                                             {"life-most", litresText(of.band.high)},
                                             {"runs", std::to_string(of.whole)}};
    return {.id = id,
            .stage = loading.stage,
            .level = FindingLevel::Caution,
            .since = loading.sets.back().at,
            .confidence = std::min(of.chance, 1.0 - of.chance) < nearlySure ? Confidence::Medium : Confidence::Low,
            .headline = {name, values},
            .because = {{"because.life-history", values}},
            .confirm = {{name + ".confirm", values}},
            .act = {name + ".do", values},
            .hazard = {"hazard.pressure", {}}};
}

std::optional<Finding> findingOfLife(const StageLoading& loading, const RunState& run)
{
    const bool tellsLife = !loading.elementType.empty() && !loading.isUsed && !loading.isMixed && !loading.sets.empty();
    const auto lives = tellsLife ? livesOf(run.past, run.setup.tank.name, loading.elementType)
                                 : std::vector<ElementLife>();
    if (wholeOf(lives) < livesForFinding) {
        return std::nullopt;
    }
    const NextValue next = nextOf(lives);
    const auto atLimit = std::find_if(loading.sets.begin(), loading.sets.end(),
                                      [](const LoadedSet& set) { return set.isAtLimit; });
    const bool isOver = atLimit != loading.sets.end();
    const double litres = (isOver ? *atLimit : loading.sets.back()).load_l;
    const double chance = next.chanceBelow(litres);
    if (isOver ? chance > rarelyBelow : chance < rarelyAbove) {
        return std::nullopt;
    }
    const OfLives of{wholeOf(lives), chance, next.band()}; // the band takes long, and few need it
    const double ofMiddle = litres / of.band.best;
    if (isOver ? ofMiddle * muchTimes > 1.0 : ofMiddle < muchTimes) {
        return std::nullopt;
    }
    return findingOf(isOver ? "element-life-short" : "element-life-long", loading, litres, of);
}

} // namespace

LifeLearned lifeLearned(std::span<const ElementLife> lives)
{
    const NextValue next = nextOf(lives);
    LifeLearned learned;
    learned.whole = wholeOf(lives);
    learned.cutShort = static_cast<int>(std::count_if(
        lives.begin(), lives.end(), [](const ElementLife& life) { return life.isCutShort && life.litres > 0.0; }));
    learned.litres = next.isKnown() ? std::optional(next.band()) : std::nullopt;
    return learned;
}

std::vector<ElementLife> livesOf(const std::vector<LoadingLearned>& learned, const std::string& tank,
                                 const std::string& type)
{
    std::vector<ElementLife> lives;
    for (const LoadingLearned& one : learned) {
        if (one.tank == tank && one.elementType == type && !one.isUsed && !one.isWithdrawn) {
            lives.push_back({one.elementType, one.end_l, one.isCutShort});
        }
    }
    return lives;
}

std::vector<Finding> findingsOfLives(const RunState& run, const Standing& standing)
{
    if (run.past.empty() || standing.moments.empty()) {
        return {};
    }
    const RunLoadings loadings = loadingsOf(run, standing.moments, standing.questions, standing.diagnosis.sets);
    std::vector<Finding> findings;
    for (std::size_t i = 0; i < run.setup.stages.size(); ++i) {
        if (auto finding = findingOfLife(loadings.now(static_cast<int>(i) + 1), run)) {
            findings.push_back(*std::move(finding));
        }
    }
    return findings;
}

} // namespace loopside::run
