// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/standing.h"

#include <string>

namespace loopside::app {

/// How a stage stands, by shape and colour and by word.
struct StageLevel
{
    std::string sign = "ok"; ///< ok, caution, limit, stop, unknown.
    std::string word = "ok"; ///< Of the sentence app.level.<word>.
    /// What the gauges show is not to be taken for the dirt in its elements: the set is questioned, or the oil may not
    /// have gone through them.
    bool isDoubtful = false;
};

/// The worst of now, ahead and what was found: never ok while a caution for that stage stands.
///
/// `stage` from 0. `coldMark`: raw ΔP ÷ limit if the oil cooled to the coldest of the run, or -1. `isCautionAhead`: its
/// forecast is one of caution (stage_ahead.h).
[[nodiscard]] StageLevel stageLevelOf(const run::RunState& run, const run::Standing& standing, std::size_t stage,
                                      double coldMark, bool isCautionAhead);

} // namespace loopside::app
