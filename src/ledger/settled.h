// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Entries whose clock ran far ahead take no precedence until a person settles it (sync/precedence.h). That act is an
// entry of no run. It changes no state by itself; it tells in which order others are folded.

#pragma once

#include "base/id.h"
#include "base/result.h"

#include <string>
#include <string_view>
#include <vector>

namespace loopside::ledger {

inline constexpr std::string_view aheadSettledKind = "ahead-settled";

/// Most entries that are settled by one.
inline constexpr std::size_t settledMost = 1000;

/// The body of the entry by which a person says that `entries` count by their clocks.
[[nodiscard]] std::string settlingOf(const std::vector<Id>& entries);

/// The entries that `body` settles. Malformed for any other body.
[[nodiscard]] Result<std::vector<Id>> settledBy(std::string_view body);

} // namespace loopside::ledger
