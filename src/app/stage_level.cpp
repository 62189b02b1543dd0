// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/stage_level.h"

#include <algorithm>

namespace loopside::app {

namespace {

constexpr double nearLimit = 0.8;

run::FindingLevel worstFound(const run::Standing& standing, std::size_t stage)
{
    run::FindingLevel worst = run::FindingLevel::Note;
    for (const run::Finding& finding : standing.findings) {
        if (finding.stage == static_cast<int>(stage) + 1) {
            worst = std::max(worst, finding.level);
        }
    }
    return worst;
}

/// The last set as it was judged, if it was.
const run::JudgedSet* lastJudged(const run::Standing& standing)
{
    const auto& sets = standing.diagnosis.sets;
    return standing.lastReading != nullptr && !sets.empty() && sets.back().moment->fact == standing.lastReading->fact
        ? &sets.back()
        : nullptr;
}

/// Whether the last set says nothing of the dirt in that stage.
bool isInDoubt(const run::Standing& standing, std::size_t stage)
{
    const run::JudgedSet* judged = lastJudged(standing);
    return (standing.lastReading != nullptr && run::isHeldBack(*standing.lastReading->fact, standing.questions))
        || (judged != nullptr && (judged->isDoubtfulFor(stage) || judged->doubtsDropOf(stage)));
}

/// Whether a caution stands that is of no stage, but of a gauge beside it.
bool isCautionedByGauge(const run::Standing& standing, std::size_t stage)
{
    const run::JudgedSet* judged = lastJudged(standing);
    return judged != nullptr && judged->doubtsDropOf(stage);
}

} // namespace

StageLevel stageLevelOf(const run::RunState& run, const run::Standing& standing, std::size_t stage, double coldMark,
                        bool isCautionAhead)
{
    const auto& limit = run.setup.stages[stage].changeLimit;
    const auto raw = standing.stages.empty() ? std::nullopt : standing.stages[stage].raw;
    const bool isDoubtful = isInDoubt(standing, stage);
    const run::FindingLevel found = worstFound(standing, stage);
    if (found == run::FindingLevel::Stop) {
        return {"stop", "stop", isDoubtful};
    }
    if (raw && limit && run::reaches(*raw, *limit)) {
        return {"limit", "limit", isDoubtful};
    }
    if (raw && limit && !isDoubtful && raw->value() >= limit->value() * nearLimit) {
        return {"caution", "caution", isDoubtful};
    }
    if (raw && limit && !isDoubtful && isCautionAhead) {
        return {"caution", "ahead", isDoubtful};
    }
    if (raw && limit && !isDoubtful && coldMark >= 1.0) {
        return {"caution", "cold", isDoubtful};
    }
    if (found == run::FindingLevel::Caution || isCautionedByGauge(standing, stage)) {
        return {"caution", "found", isDoubtful};
    }
    if (!raw || !limit) {
        return {"unknown", "unknown", isDoubtful};
    }
    return isDoubtful ? StageLevel{"unknown", "doubt", true} : StageLevel{};
}

} // namespace loopside::app
