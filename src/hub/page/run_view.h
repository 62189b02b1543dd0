// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// One run as the page shows it, and as a table for other programs.

#pragma once

#include "hub/page/site_views.h"

namespace loopside::page {

/// Everything of one run: title, what it is of, how it stands, stages, findings with their reasons, alerts, entries in
/// the order in which they were seen, pictures and sounds, and `chart` (chart.h). `run` is one of what `look` looks at;
/// `hasFile` tells of which attachments the file was handed over.
[[nodiscard]] Json runView(
    const Look& look, const run::RunState& run, const HasFile& hasFile = [](const Id&) { return false; });

/// The entries of `run` as CSV by RFC 4180: a header, lines that end with CR LF, fields in quotation marks where they
/// need it (report/csv.h). Columns: run_time, utc, person, kind, state (struck or changed), g1 … with the digits as
/// typed, unit, oil, flow, dp1 … in the unit of the gauge, text. Names and kinds are those of the record, in no
/// language; `text` is in that of the look. A text that a spreadsheet would take for a formula has an apostrophe in
/// front.
[[nodiscard]] std::string runCsv(const Look& look, const run::RunState& run);

} // namespace loopside::page
