// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/levels.h"

#include "words/due_told.h"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace loopside::page {

namespace {

constexpr std::array<std::string_view, 5> ranks = {"ok", "unknown", "caution", "limit", "stop"};

Level level(const Look& look, const std::string& sign, const std::string& word)
{
    return {sign, look.say(word), static_cast<int>(std::ranges::find(ranks, sign) - ranks.begin())};
}

} // namespace

Level levelOf(const Look& look, const run::RunState& run)
{
    const run::Standing& standing = look.standing(run);
    const run::RunLevel worst = run::runLevelOf(run, standing);
    const bool isUnread = worst.sign == "ok" && standing.lastReading == nullptr;
    return isUnread ? level(look, "unknown", "app.level.unknown") : level(look, worst.sign, worst.word);
}

Level levelOf(const Look& look, const run::RunState& run, std::size_t stage)
{
    const run::StageLevel worst = run::stageLevelOf(run, look.standing(run), stage);
    return level(look, worst.sign, "app.level." + worst.word);
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
