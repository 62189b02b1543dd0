// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The forecast of a stage, told: when it reaches its limit, by the wall clock of the place, and how likely that is.
//
// No time is told finer than its range allows: in steps of 1 min where 8 cases of 10 lie within half an hour, of 5 min
// within three hours, else of 15 min; the early end rounded down, the late end up. No chance is told as 0 or 100 %.

#pragma once

#include "run/standing.h"
#include "words/words.h"

#include <string>

namespace loopside::words {

/// "14:18", as the wall clock of the device showed it.
[[nodiscard]] std::string clockText(const Stamp& stamp);

/// "92 %", "under 1 %", "over 99 %".
[[nodiscard]] std::string chanceText(const Words& words, double probability);

/// "Stage 2 reaches 25 psi about 14:20 (14:05–15:10); 92 % likely before the target." How far it holds
/// follows. `outlook` is one of `run`, and `standing` is that of the same run.
[[nodiscard]] std::string outlookSentence(const Words& words, const run::Outlook& outlook, const run::RunState& run,
                                          const run::Standing& standing);

/// Its two parts: what is told; and what to fetch, how far it holds (that it may still move, for which oil, that the
/// gauge decides) or why nothing can be told.
[[nodiscard]] std::string outlookBrief(const Words& words, const run::Outlook& outlook, const run::RunState& run);
[[nodiscard]] std::string outlookCaveat(const Words& words, const run::Outlook& outlook, const run::Standing& standing);

/// A few words to stand under a column: "limit ~14:20 (14:05–15:10)", "not before target", "cannot tell yet".
[[nodiscard]] std::string outlookLabel(const Words& words, const run::Outlook& outlook, const run::RunState& run);

} // namespace loopside::words
