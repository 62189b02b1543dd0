// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How grave it is: what tablet and page tell of a run and of its stages, by one rule.

#pragma once

#include "run/alert_log.h"
#include "run/standing.h"

#include <optional>
#include <string>

namespace loopside::run {

/// How a stage stands, by shape and colour and by word.
struct StageLevel
{
    std::string sign = "ok"; ///< ok, caution, limit, stop, unknown.
    std::string word = "ok"; ///< Of the sentence app.level.<word>.
    /// What the gauges show is not to be taken for the dirt in its elements: the set is questioned, or the oil may not
    /// have gone through them.
    bool isDoubtful = false;
};

/// The worst of now, ahead and what was found: never ok while a caution for that stage stands. `stage` from 0.
[[nodiscard]] StageLevel stageLevelOf(const RunState& run, const Standing& standing, std::size_t stage);

/// The same with what lies ahead as given: `coldMark` as `coldestMark` tells it, and whether the forecast is one of
/// caution.
[[nodiscard]] StageLevel stageLevelOf(const RunState& run, const Standing& standing, std::size_t stage, double coldMark,
                                      bool hasCautionAhead);

/// Raw ΔP ÷ limit of a stage, from 0, if the oil cooled to the coldest of this run; -1 where that cannot be told.
[[nodiscard]] double coldestMark(const RunState& run, const Standing& standing, std::size_t stage);

/// At least as likely as not the limit comes before the target, or before the next reading.
[[nodiscard]] bool isCautionAhead(const Outlook& outlook, const Standing& standing);

/// Whether the times of a forecast can be told by the clock: it takes filtering to go on, and they move while it does
/// not. One that has none is told always.
[[nodiscard]] bool tellsTimes(const Outlook& outlook, const Standing& standing);

/// The alert "stop now" that was raised last, where no set was logged since.
[[nodiscard]] std::optional<AlertLine> stopSinceLastSet(const RunState& run, const Standing& standing);

/// Of the flow that was stated, what goes through the filters by the last good set, 0 to 1; 1 where no finding says
/// that some is lost, and where pump, valve or elements were moved since.
[[nodiscard]] double flowLeftNow(const Standing& standing);

/// Whether a reading should have been there by now.
[[nodiscard]] bool isLate(const Standing& standing);

/// The worst that stands for a run.
struct RunLevel
{
    std::string sign = "ok";           ///< ok, caution, limit, stop.
    std::string word = "app.level.ok"; ///< The id of a sentence.
    [[nodiscard]] bool isGrave() const { return sign == "limit" || sign == "stop"; }
};

/// The worst of alerts, findings and a reading that is late; an alert out of service is none. What says "stop" is a
/// caution once the pump is stopped. After "stop now" it is not well before a set was logged.
[[nodiscard]] RunLevel runLevelOf(const RunState& run, const Standing& standing);

} // namespace loopside::run
