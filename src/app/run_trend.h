// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "paper/trend.h"
#include "run/standing.h"
#include "words/words.h"

namespace loopside::app {

/// The trend of a run: curves, limits, what the cart did, sets in doubt, samples with what was
/// counted in them, and the way ahead of the stage that is first
/// to reach its limit. In the unit that `words` want, else that of the first gauge. `standing` is that of `run`.
[[nodiscard]] paper::Trend runTrend(const words::Words& words, const run::RunState& run, const run::Standing& standing);

} // namespace loopside::app
