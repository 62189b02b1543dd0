// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/alert_log.h"

#include <algorithm>

namespace loopside::run {

namespace {

/// Reads the facts of a run in their order.
class LogWriter
{
public:
    std::vector<AlertLine> write(const RunState& run)
    {
        for (const Fact& fact : run.facts) {
            std::visit([&](const auto& event) { read(event, fact); }, fact.original);
        }
        return std::move(lines_);
    }

private:
    void read(const AlertRaised& raised, const Fact& fact)
    {
        replace(raised.alert, raised.stage);
        if (raised.alert == AlertId::StageAtLimit) {
            replace(AlertId::StageNearLimit, raised.stage);
        }
        lines_.push_back({.alert = raised.alert, .stage = raised.stage, .raised = fact.entered, .told = raised.told});
    }

    void read(const AlertCleared& cleared, const Fact& fact)
    {
        if (AlertLine* line = standing(cleared.alert, cleared.stage)) {
            line->returned = fact.entered;
        }
    }

    void read(const AlertAcknowledged& acknowledged, const Fact& fact)
    {
        AlertLine* line = latest(acknowledged.alert, acknowledged.stage);
        if (line != nullptr && !line->acknowledged) {
            line->acknowledged = fact.entered;
            line->acknowledgedBy = fact.header.person;
            line->why = acknowledged.why;
        }
    }

    void read(const AlertShelved& shelved, const Fact&)
    {
        if (AlertLine* line = standing(shelved.alert, shelved.stage)) {
            ++line->shelvedTimes;
            line->why = shelved.why;
        }
    }

    template<class Other>
    void read(const Other&, const Fact&)
    {
    }

    void replace(AlertId alert, std::optional<int> stage)
    {
        if (AlertLine* line = standing(alert, stage)) {
            line->isReplaced = true;
        }
    }

    AlertLine* latest(AlertId alert, std::optional<int> stage)
    {
        const auto line = std::find_if(lines_.rbegin(), lines_.rend(), [&](const AlertLine& candidate) {
            return candidate.alert == alert && candidate.stage == stage;
        });
        return line == lines_.rend() ? nullptr : &*line;
    }

    AlertLine* standing(AlertId alert, std::optional<int> stage)
    {
        AlertLine* line = latest(alert, stage);
        return line != nullptr && line->stands() ? line : nullptr;
    }

    std::vector<AlertLine> lines_;
};

int mostWithin(const std::vector<AlertLine>& lines, RunTime span)
{
    std::ptrdiff_t most = 0;
    for (auto first = lines.begin(); first != lines.end(); ++first) {
        const auto behind = std::find_if(first, lines.end(),
                                         [&](const AlertLine& line) { return line.raised >= first->raised + span; });
        most = std::max(most, behind - first);
    }
    return static_cast<int>(most);
}

} // namespace

std::vector<AlertLine> alertLogOf(const RunState& run)
{
    return LogWriter().write(run);
}

AlertMetrics alertMetrics(const RunState& run, RunTime now)
{
    const RunTime end = run.phase == Phase::Closed ? run.closedAt : now;
    const std::vector<AlertLine> lines = alertLogOf(run);
    AlertMetrics metrics;
    metrics.raised = static_cast<int>(lines.size());
    for (const AlertLine& line : lines) {
        ++metrics.byPriority.at(static_cast<std::size_t>(priorityOf(line.alert)));
        if (line.stands()) {
            ++metrics.standing;
            metrics.longestStanding = std::max(metrics.longestStanding.value_or(RunTime{0}), end - line.raised);
        }
    }
    const std::chrono::duration<double, std::ratio<3600>> hours = end;
    metrics.perHour = metrics.raised / std::max(1.0, hours.count());
    metrics.minutesOpen = static_cast<int>(std::chrono::duration_cast<std::chrono::minutes>(end).count());
    metrics.mostInTenMinutes = mostWithin(lines, std::chrono::minutes(10));
    return metrics;
}

} // namespace loopside::run
