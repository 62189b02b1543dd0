// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What who takes a run on has to know, and the taking: the same where it is handed over at one tablet and where another
// tablet takes it over.

#pragma once

#include "app/row_model.h"
#include "app/tablet.h"

#include <QString>

#include <array>
#include <optional>

namespace loopside::app {

/// How it stands, what was read last, when to read next, the changeover that is expected, the permit. Rows: name,
/// value.
[[nodiscard]] QList<RowModel::Row> handCardRows(const Tablet& tablet, const run::RunState& run);

/// What is in the way of taking it for granted: the valve, what nobody reads, hot oil. Rows: kind, text.
[[nodiscard]] QList<RowModel::Row> handCardNotes(const Tablet& tablet, const run::RunState& run);

/// "tablet 7f3a · Ines · 14:02 · by its code": in whose hands a run is.
[[nodiscard]] QString holderText(const Tablet& tablet, const run::RunState& run);

/// What a valve and a pump may be read as, in the order of the keys.
inline constexpr std::array<run::Mode, 3> valveModes = {run::Mode::Filtering, run::Mode::Bypassing, run::Mode::Stopped};

/// A key for each. Rows: name, detail (none), isChosen.
[[nodiscard]] QList<RowModel::Row> valveRows(const Tablet& tablet, std::optional<run::Mode> chosen);

/// `person` read the valve as `valve` and takes `run` on by `fact` (ledger/handed.h). Where the valve is other than
/// logged, that is logged as from now. False, with `trouble` set, if it could not be written; the hands are told last.
[[nodiscard]] bool takeOn(Tablet& tablet, const Id& run, const Id& person, run::Mode valve, const run::Kept& fact);

} // namespace loopside::app
