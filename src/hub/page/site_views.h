// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The views of a site as JSON with texts that are ready to be shown, in the words of the tablet: the page arranges them
// and computes nothing. Each is an object with `rows`; a row has a `sign` (levels.h) with its `word` wherever it tells
// a state. Practice is in none of them.

#pragma once

#include "hub/page/look.h"

#include <nlohmann/json.hpp>

namespace loopside::page {

using Json = nlohmann::ordered_json;

/// What is done today: open runs, the gravest first, with readings that are overdue; open jobs; planned jobs, the first
/// due first; what was closed on this day of the place. Rows: kind (run, flush, transfer, job), id (of a run), name,
/// detail, next (when to read), started, sign, word, isOpen, isLoud.
[[nodiscard]] Json todayView(const Look& look);

/// Tanks against their targets. Rows: name, detail (volume and oil), state, turnovers, code (last told), target, id (of
/// the run that goes on there, or was the last), sign, word.
[[nodiscard]] Json tanksView(const Look& look);

/// The stages of open runs, the fullest first. Rows: id, name, stage, drop, limit, fill (1 at the limit, or null),
/// loading, ahead (the forecast in a sentence), sign, word.
[[nodiscard]] Json stagesView(const Look& look);

/// Alerts of open runs that stand, the gravest first. Rows: id, name, text (as it was told), became, sign, word.
[[nodiscard]] Json alertsView(const Look& look);

/// What somebody still has to do. Rows: kind (reading, sample, result, sign-off), id, name, text, since, sign, word.
[[nodiscard]] Json missingView(const Look& look);

/// Whether somebody said after the end of `run`, all of which is there, that it is in order: by a reason for the close,
/// or by signing.
[[nodiscard]] bool isSignedOff(const run::RunState& run);

/// Element types: what is there, what was used in thirty days, what is wanted. Rows: name, stock, used, wanted, where,
/// sign, word.
[[nodiscard]] Json elementsView(const Look& look);

/// Whether the hub's record is as it was written. sign, word, text, faults.
[[nodiscard]] Json verifyView(const Look& look);

} // namespace loopside::page
