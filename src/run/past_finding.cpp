// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/past_finding.h"

#include "base/text.h"
#include "run/life_learned.h"
#include "run/stage_loading.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using units::pascal;

constexpr double rarelyBelow = 0.005; // one in 200 either way: docs/learning.md has what less costs
constexpr double rarelyAbove = 0.995;
constexpr double muchTimes = 2.0; // ours: twice as long, or half
constexpr double nearlySure = 0.001;
constexpr double bandsOff = 2.0;     // ours: clean ΔP so many times as far off as the end of its 90 % band,
constexpr double cleanTimes = 1.5;   // and half as much again, or less by as much
constexpr std::size_t firstSets = 3; // of new elements: as good as clean
constexpr std::size_t leastSets = 2; // one may be misread

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

/// What it is said with: the sentences of `id`, and what it rests on.
Finding findingOf(std::string_view id, const StageLoading& loading, Confidence confidence, std::string_view because,
                  const std::vector<Message::Argument>& values)
{
    const std::string name = "finding." + std::string(id);
    return {.id = id,
            .stage = loading.stage,
            .level = FindingLevel::Caution,
            .since = loading.sets.back().at,
            .confidence = confidence,
            .headline = {name, values},
            .because = {{std::string(because), values}},
            .confirm = {{name + ".confirm", values}},
            .act = {name + ".do", values},
            .hazard = {"hazard.pressure", {}}};
}

Finding lifeFinding(std::string_view id, const StageLoading& loading, double litres, const OfLives& of)
{
    const auto confidence = std::min(of.chance, 1.0 - of.chance) < nearlySure ? Confidence::Medium : Confidence::Low;
    return findingOf(id, loading, confidence, "because.life-history",
                     {{"stage", std::to_string(loading.stage)},
                      {"life", litresText(litres)},
                      {"type", loading.elementType},
                      {"life-least", litresText(of.band.low)},
                      {"life-middle", litresText(of.band.best)},
                      {"life-most", litresText(of.band.high)},
                      {"runs", std::to_string(of.whole)}});
}

std::optional<Finding> ofLife(const StageLoading& loading, const RunState& run)
{
    const bool tellsLife = !loading.elementType.empty() && !loading.isUsed && !loading.isMixed && !loading.sets.empty();
    const auto lives = tellsLife ? livesOf(run.past, run.setup.tank.name, loading.elementType)
                                 : std::vector<ElementLife>();
    if (wholeLives(lives) < livesForFinding) {
        return std::nullopt;
    }
    const NextValue next = nextLife(lives);
    const auto atLimit = std::find_if(loading.sets.begin(), loading.sets.end(),
                                      [](const LoadedSet& set) { return set.isAtLimit; });
    const bool isOver = atLimit != loading.sets.end();
    const double litres = (isOver ? *atLimit : loading.sets.back()).load_l;
    const double chance = next.chanceBelow(litres);
    if (isOver ? chance > rarelyBelow : chance < rarelyAbove) {
        return std::nullopt;
    }
    const OfLives of{wholeLives(lives), chance, next.band()}; // the band takes long, and few need it
    const double ofMiddle = litres / of.band.best;
    if (isOver ? ofMiddle * muchTimes > 1.0 : ofMiddle < muchTimes) {
        return std::nullopt;
    }
    return lifeFinding(isOver ? "element-life-short" : "element-life-long", loading, litres, of);
}

/// What the first good sets of new elements show, each with its expanded (k = 2) error.
struct CleanSeen
{
    double drop_pa = 0.0;    ///< In the middle.
    double atLeast_pa = 0.0; ///< What all of them agree on,
    double atMost_pa = 0.0;  ///< either way.
    RunTime at{0};           ///< The last of them.
};

std::optional<CleanSeen> cleanSeen(const StageLoading& loading)
{
    CleanSeen seen;
    std::size_t count = 0;
    for (const LoadedSet& set : loading.sets) {
        if (set.isLate || set.isAllAtOnce || set.isDoubtful) {
            continue;
        }
        const double drop_pa = set.drop.corrected->in(pascal);
        const double error_pa = (*set.drop.reading / rawPerCorrected(set)).in(pascal);
        seen.drop_pa += drop_pa;
        seen.atLeast_pa = count == 0 ? drop_pa - error_pa : std::min(seen.atLeast_pa, drop_pa - error_pa);
        seen.atMost_pa = std::max(seen.atMost_pa, drop_pa + error_pa);
        seen.at = set.at;
        if (++count == firstSets) {
            break;
        }
    }
    if (count < leastSets) {
        return std::nullopt;
    }
    seen.drop_pa /= static_cast<double>(count);
    return seen;
}

/// Whether `off`, a logarithm, is far beyond a band that reaches `halfWidth` from its middle.
bool isFarOff(double off, double halfWidth)
{
    return off > bandsOff * halfWidth && off > std::log(cleanTimes);
}

std::optional<Finding> ofClean(const StageLoading& loading, const RunState& run)
{
    const CleanLearned* clean = run.place.cleanOf(loading.stage);
    const auto& record = run.setup.stages[static_cast<std::size_t>(loading.stage) - 1];
    const bool isToldUsed = loading.number == 1 && record.loaded && record.loaded->toDouble() > 1.0;
    const bool isHeld = clean != nullptr && loading.elementType == record.type && !loading.isMixed && !isToldUsed;
    const auto seen = isHeld ? cleanSeen(loading) : std::nullopt;
    if (!seen) {
        return std::nullopt;
    }
    const filtration::Band& band = *clean->drop_pa;
    const double atLeast = seen->atLeast_pa;
    const double atMost = seen->atMost_pa;
    const bool isHigh = atLeast > band.best && isFarOff(std::log(atLeast / band.best), std::log(band.high / band.best));
    const bool isLow = atMost < band.best
        && (atMost == 0.0 || isFarOff(std::log(band.best / atMost), std::log(band.best / band.low)));
    if (!isHigh && !isLow) {
        return std::nullopt;
    }
    const auto& unit = *run.setup.cart.gauges[static_cast<std::size_t>(loading.stage) - 1].unit;
    const auto text = [&](double pa) { return units::printComputed(pa * pascal, unit); };
    Finding finding = findingOf(isHigh ? "clean-dp-high" : "clean-dp-low", loading, Confidence::Medium,
                                "because.clean-history",
                                {{"stage", std::to_string(loading.stage)},
                                 {"drop", text(seen->drop_pa)},
                                 {"type", loading.elementType},
                                 {"drop-least", text(band.low)},
                                 {"drop-most", text(band.high)},
                                 {"runs", std::to_string(clean->runs)}});
    finding.since = seen->at;
    return finding;
}

} // namespace

std::vector<Finding> findingsOfPast(const RunState& run, const Standing& standing)
{
    const bool isAnyKnown = !run.past.empty() || !run.place.clean.empty();
    if (!isAnyKnown || standing.moments.empty()) {
        return {};
    }
    const RunLoadings loadings = loadingsOf(run, standing.moments, standing.questions, standing.diagnosis.sets);
    std::vector<Finding> findings;
    for (std::size_t i = 0; i < run.setup.stages.size(); ++i) {
        const StageLoading& loading = loadings.now(static_cast<int>(i) + 1);
        for (auto& finding : {ofLife(loading, run), ofClean(loading, run)}) {
            if (finding) {
                findings.push_back(*finding);
            }
        }
    }
    return findings;
}

} // namespace loopside::run
