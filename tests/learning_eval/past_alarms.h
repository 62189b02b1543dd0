// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How often the findings of earlier elements (run/past_finding.h) are said where nothing is wrong, and how often where
// something is. A set counts where a stage has lives or clean sets enough behind it: elsewhere nothing can be said, and
// it would flatter.

#pragma once

#include "fleet.h"
#include "practice/fault.h"

#include <map>
#include <string>

namespace loopside::evaluation {

/// Of one finding, in runs without a fault.
struct PastAlarm
{
    int sets = 0;   ///< In which it stood,
    int untrue = 0; ///< of them where the day gives no reason for it,
    int runs = 0;   ///< in so many runs.
    int untrueRuns = 0;
};

struct PastAlarms
{
    int runs = 0; ///< Judged: with history enough of a stage.
    int sets = 0; ///< Of them.
    std::map<std::string, PastAlarm> said;
};

/// Adds what is said in the runs of `days`. Short is true where the oil was at least half as dirty again as usual at
/// the place, or the elements were used and nobody told; a high clean ΔP in the latter case. Long and a low clean ΔP
/// are never true: nothing goes past the elements.
void judgeAlarms(const std::vector<FleetDay>& days, PastAlarms& alarms);

/// Of one kind of fault, from the start of a run.
struct PastHits
{
    int runs = 0;     ///< With history enough.
    int byPast = 0;   ///< A life is told as long or short, or a clean ΔP as unlike,
    int onlyPast = 0; ///< and no other caution or stop about this stage ever was.
    int byOthers = 0; ///< Another caution or stop about this stage.
};

/// Adds what is said if `kind` befalls stage 1 or 2 on the last of `days`.
void judgeHits(const std::vector<FleetDay>& days, practice::FaultKind kind, std::map<std::string, PastHits>& hits);

} // namespace loopside::evaluation
