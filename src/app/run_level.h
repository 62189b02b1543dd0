// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"

#include <QString>

namespace loopside::app {

/// The worst that stands for a run, for a chip or a row: ready to show.
struct RunLevel
{
    QString sign;         ///< ok, caution, limit or stop, as `Sign` has them.
    QString word;         ///< "all well", "late" …
    bool isLate = false;  ///< A reading is overdue.
    bool isGrave = false; ///< limit or stop.
};

[[nodiscard]] RunLevel runLevelOf(const Tablet& tablet, const run::RunState& run);

/// By how much a reading is late: "4 min", from two hours on "2:10 h", from ten on "14 h".
[[nodiscard]] QString lateTextOf(const Tablet& tablet, run::RunTime late);

/// "2 min", "4 min late", or a dash where no reading is planned.
[[nodiscard]] QString dueTextOf(const Tablet& tablet, const run::RunState& run);

} // namespace loopside::app
