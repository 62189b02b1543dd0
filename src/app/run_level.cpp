// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/run_level.h"

#include "app/as_shown.h"
#include "app/wording.h"
#include "run/level.h"
#include "words/due_told.h"

namespace loopside::app {

RunLevel runLevelOf(const Tablet& tablet, const run::RunState& run)
{
    const auto& standing = tablet.standing(run);
    const run::RunLevel level = run::runLevelOf(run, standing);
    return {toQt(level.sign), tablet.label(level.word.c_str()), run::isLate(standing), level.isGrave()};
}

QString lateTextOf(const Tablet& tablet, run::RunTime late)
{
    return asShown(words::lateText(tablet.words(), std::chrono::duration_cast<std::chrono::minutes>(late)));
}

QString dueTextOf(const Tablet& tablet, const run::RunState& run)
{
    const auto& standing = tablet.standing(run);
    return standing.due
        ? asShown(words::dueText(tablet.words(),
                                 std::chrono::duration_cast<std::chrono::minutes>(*standing.due - standing.now)))
        : QStringLiteral("–");
}

} // namespace loopside::app
