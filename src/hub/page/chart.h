// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/page/site_views.h"

namespace loopside::page {

/// What the chart of `run` shows, the same as the tablet's trend: raw ΔP of each stage against its change limit, the
/// loading on a strip of its own, what the cart did, sets in doubt, changeovers, samples, and the way ahead of the
/// stage that is first to reach its limit.
///
/// Members: unit, minutes (of the sets, rising), stages {name, limit, limitText, raw, loading (one number or null for
/// each of `minutes`), changedAt}, spans {from, to, text, isDoubtful}, samples {minute, text}, ahead {stage (from 0),
/// minutes, low, middle, high} or null, endMinute, and texts {raw, loading, minutes, ahead, doubt, samples}.
[[nodiscard]] Json chartOf(const Look& look, const run::RunState& run);

} // namespace loopside::page
