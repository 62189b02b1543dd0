// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/clock_change.h"

#include <algorithm>
#include <cstdlib>

namespace loopside::run {

namespace {

/// What `device` showed when it entered something of the run last; null if it never did.
const Stamp* lastOf(const RunState& run, const Id& device)
{
    const auto last = std::find_if(run.facts.rbegin(), run.facts.rend(),
                                   [&](const Fact& fact) { return fact.header.device == device; });
    const Header& header = last == run.facts.rend() ? run.opened : last->header;
    return header.device == device ? &header.entered : nullptr;
}

} // namespace

std::vector<Event> clockChanges(const RunState& run, const Stamp& now, const Id& device)
{
    const Stamp* before = lastOf(run, device);
    if (before == nullptr) {
        return {};
    }
    std::vector<Event> changes;
    const std::int64_t passedMs = now.wallMs - before->wallMs;
    if (before->boot != now.boot) {
        changes.emplace_back(TabletRestarted{passedMs, static_cast<std::int64_t>(now.monoNs / 1'000'000U)});
    } else {
        const auto elapsedNs = static_cast<std::int64_t>(now.monoNs) - static_cast<std::int64_t>(before->monoNs);
        const std::int64_t jumpMs = passedMs - elapsedNs / 1'000'000;
        if (std::abs(jumpMs) > clockJumpMs) {
            changes.emplace_back(ClockJumped{jumpMs});
        }
    }
    if (before->offsetMin != now.offsetMin) {
        changes.emplace_back(ClockOffsetChanged{before->offsetMin, now.offsetMin});
    }
    return changes;
}

} // namespace loopside::run
