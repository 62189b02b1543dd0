// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/standing.h"
#include "words/words.h"

#include <QString>

namespace loopside::app {

/// What lies ahead of one stage, ready to show.
struct StageAhead
{
    QString state = QStringLiteral("none"); ///< none, early, forecast, reached, not-before-target.
    QString label;                          ///< A few words for under the column.
    QString sentence;                       ///< Without the oil and the gauge.
    /// Raw ΔP ÷ limit to be expected when the target is met, or, where that is sooner, when the limit is reached in 9
    /// cases of 10; without a target in half an hour. 8 cases of 10 lie between the two. -1: cannot be told.
    double low = -1.0;
    double high = -1.0;
    /// At least as likely as not the limit comes before the target, or before the next reading.
    bool isCaution = false;
};

/// `stage` from 0. Empty for a run that is over.
[[nodiscard]] StageAhead stageAheadOf(const words::Words& words, const run::RunState& run,
                                      const run::Standing& standing, std::size_t stage);

/// The stage that most likely reaches its limit first; null where none has a way ahead that is told.
[[nodiscard]] const run::Outlook* firstToReach(const run::Standing& standing);

/// The same among the stages for which `StageAhead::isCaution` holds.
[[nodiscard]] const run::Outlook* firstCaution(const run::Standing& standing);

} // namespace loopside::app
