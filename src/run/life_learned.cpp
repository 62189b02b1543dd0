// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/life_learned.h"

#include "base/text.h"
#include "run/learning.h"
#include "run/stage_loading.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

constexpr int meanSteps = 80;
constexpr int spreadSteps = 10;
constexpr double spreadLeast = 0.08;
constexpr double spreadMost = 1.6;
constexpr double spreadMiddle = dirtUnsure;
constexpr double lnSpreadUnsure = 0.5;
constexpr double roomBelow = 1.0; // of ln(life), beyond the shortest
constexpr double roomAbove = 3.0; // beyond the longest: it may have been cut short

constexpr double bandLow = 0.05;
constexpr double bandHigh = 0.95;
constexpr double muchTimes = 1.5; // ours: half as long again, or two thirds
constexpr double nearlySure = 0.01;

/// ln of how likely `life` is with that mean and spread, but for a constant.
double lnLikelihood(const ElementLife& life, double lnMean, double lnSpread)
{
    const double deviates = (std::log(life.litres) - lnMean) / lnSpread;
    return life.isCutShort ? std::log(std::max(asChance(-deviates), 1e-300))
                           : -0.5 * deviates * deviates - std::log(lnSpread);
}

std::vector<LifeLearned::Case> casesFor(const std::vector<ElementLife>& lives)
{
    const auto [shortest, longest] = std::minmax_element(
        lives.begin(), lives.end(), [](const ElementLife& a, const ElementLife& b) { return a.litres < b.litres; });
    const double from = std::log(shortest->litres) - roomBelow;
    const double to = std::log(longest->litres) + roomAbove;
    std::vector<LifeLearned::Case> cases;
    for (int i = 0; i <= meanSteps; ++i) {
        for (int j = 0; j <= spreadSteps; ++j) {
            const double lnMean = from + (to - from) * i / meanSteps;
            const double lnSpread = spreadLeast * std::pow(spreadMost / spreadLeast, 1.0 * j / spreadSteps);
            const double deviates = std::log(lnSpread / spreadMiddle) / lnSpreadUnsure;
            double weight = -0.5 * deviates * deviates;
            for (const ElementLife& life : lives) {
                weight += lnLikelihood(life, lnMean, lnSpread);
            }
            cases.push_back({lnMean, lnSpread, weight});
        }
    }
    return cases;
}

/// From logarithms of weights to weights that add to 1.
void normalise(std::vector<LifeLearned::Case>& cases)
{
    const double most = std::max_element(cases.begin(), cases.end(), [](const auto& a, const auto& b) {
                            return a.weight < b.weight;
                        })->weight;
    double sum = 0.0;
    for (LifeLearned::Case& one : cases) {
        one.weight = std::exp(one.weight - most);
        sum += one.weight;
    }
    for (LifeLearned::Case& one : cases) {
        one.weight /= sum;
    }
}

/// The life below which `part` of what is likely lies.
double quantile(const LifeLearned& learned, double part)
{
    constexpr int halvings = 40;
    double low = -50.0;
    double high = 50.0;
    for (int i = 0; i < halvings; ++i) {
        const double middle = 0.5 * (low + high);
        (learned.chanceShorter(std::exp(middle)) < part ? low : high) = middle;
    }
    return std::exp(0.5 * (low + high));
}

LifeLearned withoutBand(std::span<const ElementLife> lives)
{
    std::vector<ElementLife> usable;
    std::copy_if(lives.begin(), lives.end(), std::back_inserter(usable),
                 [](const ElementLife& life) { return life.litres > 0.0; });
    LifeLearned learned;
    learned.cutShort = static_cast<int>(
        std::count_if(usable.begin(), usable.end(), [](const ElementLife& life) { return life.isCutShort; }));
    learned.whole = static_cast<int>(usable.size()) - learned.cutShort;
    if (learned.whole > 0) {
        learned.cases = casesFor(usable);
        normalise(learned.cases);
    }
    return learned;
}

LifeLearned withBand(LifeLearned learned)
{
    if (!learned.cases.empty()) {
        learned.litres = {quantile(learned, bandLow), quantile(learned, 0.5), quantile(learned, bandHigh)};
    }
    return learned;
}

std::string litresText(double litres)
{
    return fixed(litres, litres < 100.0 ? 1 : 0) + " L";
}

Finding findingOf(std::string_view id, const StageLoading& loading, double litres, const LifeLearned& learned)
{
    const std::string name = "finding." + std::string(id);
    const double chance = learned.chanceShorter(litres);
    std::vector<Message::Argument> values = {{"stage", std::to_string(loading.stage)},
                                             {"life", litresText(litres)},
                                             {"type", loading.elementType},
                                             {"life-least", litresText(learned.litres->low)},
                                             {"life-middle", litresText(learned.litres->best)},
                                             {"life-most", litresText(learned.litres->high)},
                                             {"runs", std::to_string(learned.whole)}};
    return {.id = id,
            .stage = loading.stage,
            .level = FindingLevel::Caution,
            .since = loading.sets.back().at,
            .confidence = std::min(chance, 1.0 - chance) < nearlySure ? Confidence::Medium : Confidence::Low,
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
    const auto over = std::count_if(lives.begin(), lives.end(), [](const auto& life) { return !life.isCutShort; });
    if (over < livesForFinding) {
        return std::nullopt;
    }
    const LifeLearned learned = withoutBand(lives); // the band takes longest, and few need it
    const auto atLimit = std::find_if(loading.sets.begin(), loading.sets.end(),
                                      [](const LoadedSet& set) { return set.isAtLimit; });
    const bool isOver = atLimit != loading.sets.end();
    const double litres = (isOver ? *atLimit : loading.sets.back()).load_l;
    const double chance = learned.chanceShorter(litres);
    if (isOver ? chance > bandLow : chance < bandHigh) {
        return std::nullopt;
    }
    const LifeLearned whole = withBand(learned);
    const double ofMiddle = litres / whole.litres->best;
    if (isOver ? ofMiddle * muchTimes > 1.0 : ofMiddle < muchTimes) {
        return std::nullopt;
    }
    return findingOf(isOver ? "element-life-short" : "element-life-long", loading, litres, whole);
}

} // namespace

double LifeLearned::chanceShorter(double life) const
{
    if (cases.empty()) {
        return 0.5;
    }
    double chance = 0.0;
    for (const Case& one : cases) {
        chance += one.weight * asChance((std::log(life) - one.lnMean) / one.lnSpread);
    }
    return chance;
}

LifeLearned lifeLearned(std::span<const ElementLife> lives)
{
    return withBand(withoutBand(lives));
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
