// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/planned_job.h"

#include "app/setup_words.h"
#include "app/wording.h"

#include <algorithm>

namespace loopside::app {

PlannedJobState plannedStateOf(const Tablet& tablet, const run::JobRecord& job)
{
    using Step = PlannedJobState::Step;
    PlannedJobState state;
    state.step = run::stepOf(tablet.state(), job);
    const std::string today = dayText(tablet.now()).left(static_cast<int>(job.due.size())).toStdString();
    state.isOverdue = !job.due.empty() && state.step != Step::Done && job.due < today;
    const char* step = state.step == Step::Done ? "app.planned.done"
        : state.step == Step::Running           ? "app.planned.running"
        : state.isOverdue                       ? "app.planned.overdue"
                                                : "app.planned.planned";
    const bool tellsDay = state.step == Step::Planned && !job.due.empty();
    state.dueText = tellsDay ? tablet.say({"app.planned.due", {{"day", job.due}}}) : QString();
    state.text = joined({tablet.label(step), state.dueText});
    return state;
}

QString plannedTargetText(const Tablet& tablet, const run::JobRecord& job)
{
    return joined(
        {job.turnovers ? tablet.say({"app.planned.turnovers", {{"turnovers", job.turnovers->toText()}}}) : QString(),
         toQt(job.code), toQt(job.source)});
}

const run::JobRecord* plannedJob(const Site& site, const std::string& order)
{
    const auto found = std::ranges::find(site.jobs, order, &run::JobRecord::order);
    return found == site.jobs.end() ? nullptr : &*found;
}

} // namespace loopside::app
