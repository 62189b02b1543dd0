// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a plan says, in words.

#pragma once

#include "run/plan.h"
#include "words/words.h"

#include <string>

namespace loopside::words {

using TemperatureUnit = units::NamedUnit<units::Temperature>;

/// "Go", "Go slower", "Warm first", "No-go", "Cannot tell".
[[nodiscard]] std::string verdictWord(const Words& words, run::Verdict verdict);

/// The reason of the verdict: the limiting item with its numbers, and the way out where there is one.
[[nodiscard]] std::string verdictReason(const Words& words, const run::StartJudged& start, const run::CartRecord& cart,
                                        const TemperatureUnit& unit);

/// What an item is called: "Suction", "Stage 2".
[[nodiscard]] std::string itemName(const Words& words, const run::ItemJudged& item);

/// From how warm it goes at a flow; temperatures are rounded up to whole degrees of `unit`.
[[nodiscard]] std::string goFromLine(const Words& words, const run::GoFrom& from, const run::CartRecord& cart,
                                     const TemperatureUnit& unit);

} // namespace loopside::words
