// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/standing.h"

#include "run/past_finding.h"
#include "run/proof.h"

#include <algorithm>

namespace loopside::run {

namespace {

/// When a reading was last planned: with the last good set, start, valve move or changeover.
RunTime plannedAt(const Standing& standing)
{
    const Moment& now = standing.moments.back();
    const auto good = std::find_if(standing.moments.rbegin(), standing.moments.rend(), [&](const Moment& moment) {
        return moment.reading != nullptr && !isBlank(*moment.reading) && !isHeldBack(*moment.fact, standing.questions);
    });
    return std::max(good == standing.moments.rend() ? RunTime{0} : good->at, now.disturbedAt.value_or(RunTime{0}));
}

/// What the schedule says, or sooner where the forecast does.
std::optional<RunTime> soonest(const std::optional<RunTime>& scheduled, const Standing& standing)
{
    const auto by = scheduled ? readBy(standing.outlooks, plannedAt(standing)) : std::nullopt;
    return by ? std::min(*scheduled, *by) : scheduled;
}

/// The chance of each stage to be at its limit when the schedule asks for the next reading.
std::vector<std::optional<double>> chancesBy(const std::vector<Outlook>& outlooks,
                                             const std::optional<RunTime>& scheduled)
{
    std::vector<std::optional<double>> chances;
    for (const Outlook& outlook : outlooks) {
        chances.push_back(scheduled ? probabilityBy(outlook, *scheduled) : std::nullopt);
    }
    return chances;
}

/// Adds what bottles and earlier elements say to what the gauges do.
void addFindingsBesideGauges(const RunState& run, Standing& standing)
{
    for (const auto& more : {findingsOfSamples(run, standing), standing.ofPast}) {
        standing.findings.insert(standing.findings.end(), more.begin(), more.end());
    }
    rank(standing.findings);
}

/// Adds the forecast, and what leans on it, to a standing by the gauges alone.
Standing withOutlooks(const RunState& run, Standing standing, std::vector<Outlook> known)
{
    standing.outlooks = known.empty()
        ? outlooksOf(run, standing.moments, standing.questions, standing.diagnosis.sets, standing.credit)
        : std::move(known);
    if (!standing.moments.empty()) {
        const auto scheduled = standing.due;
        standing.due = soonest(scheduled, standing);
        standing.findings = findingsOf(run, standing.moments, standing.diagnosis, standing.credit.turnovers,
                                       chancesBy(standing.outlooks, scheduled));
        addFindingsBesideGauges(run, standing);
    }
    return standing;
}

/// What follows from what was said, whatever the time is.
Standing judged(const RunState& run)
{
    Standing standing;
    standing.moments = timelineOf(run);
    standing.questions = questionsIn(standing.moments, run);
    standing.diagnosis = judgeSets(run, standing.moments, standing.questions);
    standing.ofPast = findingsOfPast(run, standing);
    if (!standing.moments.empty()) {
        standing.mode = standing.moments.back().mode;
    }
    const auto last = std::find_if(standing.moments.rbegin(), standing.moments.rend(),
                                   [](const Moment& moment) { return moment.reading != nullptr; });
    if (last != standing.moments.rend()) {
        standing.lastReading = &*last;
        standing.stages = dropsAt(*last, run);
    }
    return standing;
}

/// Adds what goes with the time.
Standing at(RunTime now, const RunState& run, Standing standing)
{
    const auto due = dueTimes(standing.moments, run.setup, standing.questions);
    standing.now = now;
    standing.credit = creditOf(run, standing.moments, due, standing.questions, standing.diagnosis.sets, now);
    standing.due = standing.moments.empty() || run.phase == Phase::Closed ? std::nullopt : due.back();
    standing.findings = findingsOf(run, standing.moments, standing.diagnosis, standing.credit.turnovers);
    addFindingsBesideGauges(run, standing);
    return standing;
}

} // namespace

std::optional<RunTime> Standing::nextReadingIn() const
{
    return due ? std::optional(std::max(leastInterval, *due - now)) : std::nullopt;
}

Standing standingByGauges(const RunState& run, RunTime now)
{
    return at(now, run, judged(run));
}

RunTime earliestDue(const Standing& standing)
{
    return standing.moments.empty() ? leastInterval : plannedAt(standing) + leastInterval;
}

Standing standingForAlerts(const RunState& run, RunTime now)
{
    Standing standing = standingByGauges(run, now);
    const bool isOverdueAnyway = standing.due && now >= *standing.due + overdueAfter;
    const bool isTooEarly = now < earliestDue(standing) + overdueAfter;
    if (!standing.due || isOverdueAnyway || isTooEarly) {
        return standing;
    }
    return withOutlooks(run, std::move(standing), {});
}

Standing standingOf(const RunState& run, RunTime now)
{
    return withOutlooks(run, standingByGauges(run, now), {});
}

Standing standingLater(const RunState& run, RunTime now, Standing earlier)
{
    std::vector<Outlook> outlooks = std::move(earlier.outlooks);
    return withOutlooks(run, at(now, run, std::move(earlier)), std::move(outlooks));
}

} // namespace loopside::run
