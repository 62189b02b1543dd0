// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/level.h"

#include <algorithm>
#include <ranges>

namespace loopside::run {

namespace {

constexpr double nearLimit = 0.8;
constexpr double asLikelyAsNot = 0.5;

/// An alert out of service is none.
bool standsFor(const RunState& run, AlertId id)
{
    return std::ranges::any_of(
        run.alerts, [&](const Alert& alert) { return alert.id == id && alert.state != AlertState::OutOfService; });
}

FindingLevel worstFound(const Standing& standing, std::size_t stage)
{
    FindingLevel worst = FindingLevel::Note;
    for (const Finding& finding : standing.findings) {
        if (finding.stage == static_cast<int>(stage) + 1) {
            worst = std::max(worst, finding.level);
        }
    }
    return worst;
}

/// The last set as it was judged, if it was.
const JudgedSet* lastJudged(const Standing& standing)
{
    const auto& sets = standing.diagnosis.sets;
    return standing.lastReading != nullptr && !sets.empty() && sets.back().moment->fact == standing.lastReading->fact
        ? &sets.back()
        : nullptr;
}

/// Whether the last set says nothing of the dirt in that stage.
bool isInDoubt(const Standing& standing, std::size_t stage)
{
    const JudgedSet* judged = lastJudged(standing);
    return (standing.lastReading != nullptr && isHeldBack(*standing.lastReading->fact, standing.questions))
        || (judged != nullptr && (judged->isDoubtfulFor(stage) || judged->doubtsDropOf(stage)));
}

bool isOver(const ExactPressure& drop, const TypedPressure& limit)
{
    constexpr double rounding = 1e-9;
    return drop.value() > limit.value() * (1.0 + rounding);
}

/// Whether a caution stands that is of no stage, but of a gauge beside it.
bool isCautionedByGauge(const Standing& standing, std::size_t stage)
{
    const JudgedSet* judged = lastJudged(standing);
    return judged != nullptr && judged->doubtsDropOf(stage);
}

} // namespace

StageLevel stageLevelOf(const RunState& run, const Standing& standing, std::size_t stage)
{
    if (run.phase == Phase::Closed) { // nothing lies ahead of it
        return stageLevelOf(run, standing, stage, -1.0, false);
    }
    return stageLevelOf(run, standing, stage, coldestMark(run, standing, stage),
                        stage < standing.outlooks.size() && isCautionAhead(standing.outlooks[stage], standing));
}

StageLevel stageLevelOf(const RunState& run, const Standing& standing, std::size_t stage, double coldMark,
                        bool hasCautionAhead)
{
    const auto& limit = run.setup.stages[stage].changeLimit;
    const auto raw = standing.stages.empty() ? std::nullopt : standing.stages[stage].raw;
    const bool isDoubtful = isInDoubt(standing, stage);
    const FindingLevel found = worstFound(standing, stage);
    if (found == FindingLevel::Stop && standing.mode != Mode::Stopped) {
        return {"stop", "stop", isDoubtful};
    }
    if (raw && limit && reaches(*raw, *limit)) {
        return {"limit", isOver(*raw, *limit) ? "over" : "limit", isDoubtful};
    }
    if (raw && limit && !isDoubtful && raw->value() >= limit->value() * nearLimit) {
        return {"caution", "caution", isDoubtful};
    }
    if (raw && limit && !isDoubtful && hasCautionAhead) {
        return {"caution", "ahead", isDoubtful};
    }
    if (raw && limit && !isDoubtful && coldMark >= 1.0) {
        return {"caution", "cold", isDoubtful};
    }
    if (found >= FindingLevel::Caution || isCautionedByGauge(standing, stage)) {
        return {"caution", "found", isDoubtful};
    }
    if (!raw || !limit) {
        return {"unknown", "unknown", isDoubtful};
    }
    if (isDoubtful) {
        return {"unknown", "doubt", true};
    }
    return standing.lastReading != nullptr && standing.lastReading->mode != Mode::Filtering
        ? StageLevel{"unknown", "not-filtering", false}
        : StageLevel{};
}

double coldestMark(const RunState& run, const Standing& standing, std::size_t stage)
{
    if (stage >= standing.stages.size()) {
        return -1.0;
    }
    const auto& drop = standing.stages[stage];
    const auto& limit = run.setup.stages[stage].changeLimit;
    const Moment* last = standing.lastReading;
    if (!drop.raw || !limit || !run.fluid || last == nullptr || !last->reading->oil || last->mode != Mode::Filtering) {
        return -1.0;
    }
    units::Temperature coldest = last->reading->oil->value();
    for (const Moment& moment : standing.moments) {
        if (moment.reading != nullptr && moment.reading->oil) {
            coldest = std::min(coldest, moment.reading->oil->value());
        }
    }
    const auto now = run.fluid->viscosityAt(last->reading->oil->value());
    const auto cold = run.fluid->viscosityAt(coldest);
    return now && cold ? drop.raw->value() / limit->value() * (*cold / *now) : -1.0;
}

bool isCautionAhead(const Outlook& outlook, const Standing& standing)
{
    return outlook.state == forecast::State::Reached || outlook.pBeforeTarget.value_or(0.0) >= asLikelyAsNot
        || (standing.due && outlook.limitAt.t50 && *outlook.limitAt.t50 <= *standing.due);
}

bool tellsTimes(const Outlook& outlook, const Standing& standing)
{
    return standing.mode == Mode::Filtering || !outlook.limitAt.t50;
}

std::optional<AlertLine> stopSinceLastSet(const RunState& run, const Standing& standing)
{
    const auto lines = alertLogOf(run);
    const auto stop = std::ranges::find(lines | std::views::reverse, AlertId::StopNow, &AlertLine::alert);
    const bool isThere = standing.lastReading != nullptr && stop != lines.rend()
        && stop->raised >= standing.lastReading->at;
    return isThere ? std::optional(*stop) : std::nullopt;
}

double flowLeftNow(const Standing& standing)
{
    const auto& sets = standing.diagnosis.sets;
    const bool isStillSo = !sets.empty() && sets.back().moment->disturbedAt == standing.moments.back().disturbedAt;
    return isStillSo ? sets.back().flowLeft : 1.0;
}

bool isLate(const Standing& standing)
{
    return standing.due && standing.now > *standing.due;
}

RunLevel runLevelOf(const RunState& run, const Standing& standing)
{
    const FindingLevel found = standing.findings.empty() ? FindingLevel::Note : standing.findings.front().level;
    const bool saysStop = standsFor(run, AlertId::StopNow) || found == FindingLevel::Stop;
    if (saysStop && standing.mode != Mode::Stopped) {
        return {"stop", "app.level.stop"};
    }
    if (standsFor(run, AlertId::StageAtLimit)) {
        return {"limit", "app.level.limit"};
    }
    if (isLate(standing) || standsFor(run, AlertId::ReadingOverdue)) {
        return {"caution", "app.late"};
    }
    if (saysStop) {
        return {"caution", "app.level.found"};
    }
    if (standsFor(run, AlertId::StageNearLimit)) {
        return {"caution", "app.level.caution"};
    }
    const bool isWell = found < FindingLevel::Caution && !stopSinceLastSet(run, standing);
    return isWell ? RunLevel{} : RunLevel{"caution", "app.level.found"};
}

} // namespace loopside::run
