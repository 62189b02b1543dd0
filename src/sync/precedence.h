// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Entries whose clock ran far ahead. Such an entry would stand above everything that comes after it, for hours or
// years: it is held like any other, and takes no precedence until a person has looked at it.

#pragma once

#include "sync/shelf.h"

#include <cstdint>
#include <set>
#include <vector>

namespace loopside::sync {

/// How far a hybrid clock may be ahead of the hub's clock.
inline constexpr std::int64_t aheadMostMs = 3'600'000;

/// Whether the hybrid clock value `clock` is further ahead of `nowMs` (UTC, milliseconds since 1970) than that.
[[nodiscard]] inline bool isAhead(std::uint64_t clock, std::int64_t nowMs)
{
    constexpr unsigned counterBits = 16;
    return static_cast<std::int64_t>(clock >> counterBits) > nowMs + aheadMostMs;
}

/// `entries` in the order in which they take precedence, the last one most: that of folding (run/header.h), but what
/// ran ahead stands in front of all others until a person settled it. `settled` are the ids of such entries.
[[nodiscard]] std::vector<Held> byPrecedence(std::vector<Held> entries, const std::set<Id>& settled);

} // namespace loopside::sync
