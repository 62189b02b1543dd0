// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"
#include "run/demand.h"

#include <QString>

namespace loopside::app {

/// How a planned job stands, from the runs that were begun for it.
struct PlannedJobState
{
    using Step = run::JobStep;
    Step step = Step::Planned;
    bool isOverdue = false; ///< Its day is over and it is not done.
    QString dueText;        ///< "due 2026-11-30"; empty without a day, and where it is begun.
    QString text;           ///< "planned, due 2026-11-30".
};

[[nodiscard]] PlannedJobState plannedStateOf(const Tablet& tablet, const run::JobRecord& job);

/// "7 turnovers · 17/15/12 · lubrication plan"; empty if nobody said.
[[nodiscard]] QString plannedTargetText(const Tablet& tablet, const run::JobRecord& job);

/// The job of that order that the site plans; null if there is none in service.
[[nodiscard]] const run::JobRecord* plannedJob(const Site& site, const std::string& order);

} // namespace loopside::app
