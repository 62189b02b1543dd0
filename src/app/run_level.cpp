// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/run_level.h"

#include "app/alert_rows.h"
#include "app/wording.h"
#include "words/due_told.h"

#include <algorithm>

namespace loopside::app {

namespace {

struct SignAndWord
{
    std::string_view sign = "ok";
    const char* word = "app.level.ok";
};

/// The worst of alerts and findings; an alert out of service is none.
SignAndWord worstOf(const run::RunState& run, const run::Standing& standing, bool wasStopped)
{
    const auto stands = [&](run::AlertId id) {
        return std::any_of(run.alerts.begin(), run.alerts.end(), [&](const run::Alert& alert) {
            return alert.id == id && alert.state != run::AlertState::OutOfService;
        });
    };
    const run::FindingLevel found = standing.findings.empty() ? run::FindingLevel::Note
                                                              : standing.findings.front().level;
    if (stands(run::AlertId::StopNow) || found == run::FindingLevel::Stop) {
        return {"stop", "app.level.stop"};
    }
    if (stands(run::AlertId::StageAtLimit)) {
        return {"limit", "app.level.limit"};
    }
    if (stands(run::AlertId::ReadingOverdue)) {
        return {"caution", "app.late"};
    }
    if (stands(run::AlertId::StageNearLimit)) {
        return {"caution", "app.level.caution"};
    }
    return found == run::FindingLevel::Caution || wasStopped ? SignAndWord{"caution", "app.level.found"}
                                                             : SignAndWord{};
}

} // namespace

RunLevel runLevelOf(const Tablet& tablet, const run::RunState& run)
{
    const auto& standing = tablet.standing(run);
    const SignAndWord worst = worstOf(run, standing, !stopSinceLastSet(tablet, run).isEmpty());
    RunLevel level;
    level.sign = toQt(worst.sign);
    level.isGrave = worst.sign == "limit" || worst.sign == "stop";
    level.isLate = standing.due && standing.now > *standing.due;
    level.word = tablet.label(level.isLate && !level.isGrave ? "app.late" : worst.word);
    return level;
}

QString lateTextOf(const Tablet& tablet, run::RunTime late)
{
    return toQt(words::lateText(tablet.words(), std::chrono::duration_cast<std::chrono::minutes>(late)));
}

QString dueTextOf(const Tablet& tablet, const run::RunState& run)
{
    const auto& standing = tablet.standing(run);
    return standing.due
        ? toQt(words::dueText(tablet.words(),
                              std::chrono::duration_cast<std::chrono::minutes>(*standing.due - standing.now)))
        : QStringLiteral("–");
}

} // namespace loopside::app
