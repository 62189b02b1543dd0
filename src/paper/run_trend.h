// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "paper/trend.h"
#include "run/standing.h"
#include "words/words.h"

namespace loopside::paper {

/// The trend of a run: curves, limits, what the cart did, sets in doubt, samples with what was counted in them, and the
/// way `ahead` of one stage, where one is given. In the unit that `words` want, else that of the first gauge.
/// `standing` is that of `run`, `ahead` one of its outlooks with a band.
[[nodiscard]] Trend runTrend(const words::Words& words, const run::RunState& run, const run::Standing& standing,
                             const run::Outlook* ahead);

} // namespace loopside::paper
