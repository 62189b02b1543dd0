// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/clock.h"
#include "ledger/journal.h"

namespace loopside::ledger {

/// A clock behind the last entry by more than this at a start was set wrong, then or now. Our choice: tablets without a
/// network drift by seconds a day.
inline constexpr std::int64_t startBehindMs = std::int64_t{60} * 60 * 1000;
/// A clock this far beyond the last entry at a start is asked about: a tablet may have lain for a year, or shows
/// another.
inline constexpr std::int64_t startAheadMs = std::int64_t{365} * 24 * 60 * 60 * 1000;

/// What to tell of the clock at a start at `now`, held against the last entry of `journal`; an empty id: nothing. Runs
/// that are open note their own clocks (run/clock_change.h); this one shows also where none is.
[[nodiscard]] Result<Message> clockNotice(const Journal& journal, const Stamp& now);

} // namespace loopside::ledger
