// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/levels.h"

#include "words/due_told.h"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace loopside::page {

namespace {

constexpr double nearLimit = 0.8;
constexpr double asLikelyAsNot = 0.5;

constexpr std::array<std::string_view, 5> ranks = {"ok", "unknown", "caution", "limit", "stop"};

Level level(const Look& look, const std::string& sign, const std::string& word)
{
    return {sign, look.say(word), static_cast<int>(std::ranges::find(ranks, sign) - ranks.begin())};
}

bool stands(const run::RunState& run, run::AlertId id)
{
    return std::ranges::any_of(run.alerts, [&](const run::Alert& alert) {
        return alert.id == id && alert.state != run::AlertState::OutOfService;
    });
}

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

/// Whether the last set says nothing of the dirt in that stage.
bool isInDoubt(const run::Standing& standing, std::size_t stage)
{
    if (standing.lastReading == nullptr) {
        return false;
    }
    const auto& sets = standing.diagnosis.sets;
    const bool isJudged = !sets.empty() && sets.back().moment->fact == standing.lastReading->fact;
    return run::isHeldBack(*standing.lastReading->fact, standing.questions)
        || (isJudged && sets.back().isDoubtfulFor(stage));
}

bool isCautionAhead(const run::Standing& standing, std::size_t stage)
{
    if (stage >= standing.outlooks.size()) {
        return false;
    }
    const run::Outlook& outlook = standing.outlooks[stage];
    return outlook.state == forecast::State::Reached || outlook.pBeforeTarget.value_or(0.0) >= asLikelyAsNot
        || (standing.due && outlook.limitAt.t50 && *outlook.limitAt.t50 <= *standing.due);
}

} // namespace

Level levelOf(const Look& look, const run::RunState& run)
{
    const run::Standing& standing = look.standing(run);
    const auto found = standing.findings.empty() ? run::FindingLevel::Note : standing.findings.front().level;
    if (stands(run, run::AlertId::StopNow) || found == run::FindingLevel::Stop) {
        return level(look, "stop", "app.level.stop");
    }
    if (stands(run, run::AlertId::StageAtLimit)) {
        return level(look, "limit", "app.level.limit");
    }
    if (isLate(standing) || stands(run, run::AlertId::ReadingOverdue)) {
        return level(look, "caution", "app.late");
    }
    if (stands(run, run::AlertId::StageNearLimit)) {
        return level(look, "caution", "app.level.caution");
    }
    if (found == run::FindingLevel::Caution) {
        return level(look, "caution", "app.level.found");
    }
    return standing.lastReading == nullptr ? level(look, "unknown", "app.level.unknown")
                                           : level(look, "ok", "app.level.ok");
}

Level levelOf(const Look& look, const run::RunState& run, std::size_t stage)
{
    const run::Standing& standing = look.standing(run);
    const auto& limit = run.setup.stages[stage].changeLimit;
    const auto raw = stage < standing.stages.size() ? standing.stages[stage].raw : std::nullopt;
    const bool isDoubtful = isInDoubt(standing, stage);
    const run::FindingLevel found = worstFound(standing, stage);
    if (found == run::FindingLevel::Stop) {
        return level(look, "stop", "app.level.stop");
    }
    if (raw && limit && run::reaches(*raw, *limit)) {
        return level(look, "limit", "app.level.limit");
    }
    if (raw && limit && !isDoubtful && raw->value() >= limit->value() * nearLimit) {
        return level(look, "caution", "app.level.caution");
    }
    const bool isOver = run.phase == run::Phase::Closed; // nothing lies ahead of it
    if (raw && limit && !isDoubtful && !isOver && isCautionAhead(standing, stage)) {
        return level(look, "caution", "app.level.ahead");
    }
    if (found == run::FindingLevel::Caution) {
        return level(look, "caution", "app.level.found");
    }
    if (!raw || !limit) {
        return level(look, "unknown", "app.level.unknown");
    }
    return isDoubtful ? level(look, "unknown", "app.level.doubt") : level(look, "ok", "app.level.ok");
}

std::string signOf(run::AlertId alert)
{
    switch (alert) {
    case run::AlertId::StopNow:
        return "stop";
    case run::AlertId::StageAtLimit:
        return "limit";
    case run::AlertId::StageNearLimit:
    case run::AlertId::ReadingOverdue:
        return "caution";
    case run::AlertId::TargetTurnoversMet:
    case run::AlertId::TargetCodeMet:
        break;
    }
    return "note";
}

bool isLate(const run::Standing& standing)
{
    return standing.due && standing.now > *standing.due;
}

std::string dueText(const Look& look, const run::RunState& run)
{
    const run::Standing& standing = look.standing(run);
    if (!standing.due) {
        return {};
    }
    return words::dueText(look.words(), std::chrono::duration_cast<std::chrono::minutes>(*standing.due - standing.now));
}

std::optional<double> fillOf(const run::RunState& run, const run::Standing& standing, std::size_t stage)
{
    const auto& limit = run.setup.stages[stage].changeLimit;
    if (!limit || stage >= standing.stages.size() || !standing.stages[stage].raw
        || limit->value() <= units::Pressure{}) {
        return std::nullopt;
    }
    return standing.stages[stage].raw->value() / limit->value();
}

} // namespace loopside::page
