// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/run_clock.h"

#include <algorithm>

namespace loopside::run {

namespace {

RunTime monotonicSince(const Stamp& from, const Stamp& to)
{
    const auto nanoseconds = static_cast<std::int64_t>(to.monoNs) - static_cast<std::int64_t>(from.monoNs);
    return std::chrono::duration_cast<RunTime>(std::chrono::nanoseconds(nanoseconds));
}

/// How long the device has been running.
RunTime sinceStart(const Stamp& stamp)
{
    return std::chrono::duration_cast<RunTime>(std::chrono::nanoseconds(stamp.monoNs));
}

} // namespace

RunClock::RunClock(const Stamp& opened, const Id& device) : anchors_{{device, opened, RunTime{0}}} {}

const RunClock::Anchor* RunClock::sameStart(const Stamp& stamp, const Id& device) const
{
    const auto found = std::find_if(anchors_.rbegin(), anchors_.rend(), [&](const Anchor& anchor) {
        return anchor.device == device && anchor.stamp.boot == stamp.boot;
    });
    return found == anchors_.rend() ? nullptr : &*found;
}

const RunClock::Anchor* RunClock::latestOf(const Id& device) const
{
    const Anchor* latest = nullptr;
    for (const Anchor& anchor : anchors_) {
        latest = anchor.device == device && (latest == nullptr || anchor.at >= latest->at) ? &anchor : latest;
    }
    return latest;
}

RunTime RunClock::at(const Stamp& stamp, const Id& device) const
{
    if (anchors_.empty()) {
        return RunTime{0};
    }
    if (const Anchor* anchor = sameStart(stamp, device)) {
        return std::max(RunTime{0}, anchor->at + monotonicSince(anchor->stamp, stamp));
    }
    const Anchor& newest = anchors_.back();
    const Anchor* before = latestOf(device);
    const RunTime earliest = before == nullptr ? RunTime{0} : before->at + sinceStart(stamp);
    return std::max(earliest, newest.at + RunTime{stamp.wallMs - newest.stamp.wallMs});
}

Stamp RunClock::stampAt(RunTime time) const
{
    if (anchors_.empty()) {
        return {};
    }
    const Anchor& newest = anchors_.back();
    const RunTime since = time - newest.at;
    Stamp stamp = newest.stamp;
    stamp.wallMs += since.count();
    stamp.monoNs += static_cast<std::uint64_t>(std::chrono::nanoseconds(since).count());
    return stamp;
}

RunTime RunClock::enter(const Stamp& stamp, const Id& device)
{
    const RunTime time = at(stamp, device);
    if (latestOf(device) != nullptr && sameStart(stamp, device) == nullptr) {
        const RunTime from = std::max(anchors_.back().at, unsure_.empty() ? RunTime{0} : unsure_.back().to);
        const RunTime to = time - sinceStart(stamp);
        if (to > from) {
            unsure_.push_back({from, to});
        }
    }
    std::erase_if(anchors_,
                  [&](const Anchor& anchor) { return anchor.device == device && anchor.stamp.boot == stamp.boot; });
    anchors_.push_back({device, stamp, time});
    return time;
}

} // namespace loopside::run
