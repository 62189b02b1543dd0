// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What changeovers take out of the stock of elements. The stock itself is the sum of all moves (state.h).

#pragma once

#include "run/state.h"

#include <string>
#include <vector>

namespace loopside::run {

inline constexpr std::string_view usedByChangeover = "changeover";  ///< Why a move was told: elements were changed.
inline constexpr std::string_view correctedByAmendment = "amended"; ///< Why: the changeover was amended or struck.

/// Why a move was told by a person: elements came in, were counted, or were used elsewhere than in a cart of this site.
inline constexpr std::string_view stockReceived = "received";
inline constexpr std::string_view stockCounted = "counted";
inline constexpr std::string_view stockUsedElsewhere = "used-elsewhere";

/// The moves that are missing so that what was told of `run` agrees with its changeovers as they now stand: elements
/// out for each, back in where an amendment took them back. None for stages whose element type nobody named, and none
/// in practice.
[[nodiscard]] std::vector<StockMoved> stockChanges(const RunState& run);

/// The element type that stage `stage` (from 1) of `run` holds now; empty if nobody named one.
[[nodiscard]] std::string elementTypeIn(const RunState& run, int stage);

} // namespace loopside::run
