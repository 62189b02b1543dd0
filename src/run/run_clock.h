// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/event.h"
#include "run/header.h"

#include <vector>

namespace loopside::run {

/// Turns the stamps of entries into the time of one run.
///
/// Within one start of one device the monotonic clock counts, so a wall clock that jumps, a change to or from summer
/// time and a wrong year change nothing. Across devices and restarts only the wall clock is left; those times are as
/// good as it is. Time never runs backwards past the opening, nor, at a restart, past what the same device entered
/// before: a tablet that wakes up in a wrong year goes on from its last entry.
class RunClock
{
public:
    RunClock() = default;
    explicit RunClock(const Stamp& opened, const Id& device);

    /// When `stamp` was taken by `device`. Remembers the device's start, so call it in fold order.
    [[nodiscard]] RunTime enter(const Stamp& stamp, const Id& device);

    /// The same without remembering.
    [[nodiscard]] RunTime at(const Stamp& stamp, const Id& device) const;

    /// What clocks show at `time`, counted from the newest entry: a wall clock that jumps, or a change to or from
    /// summer time, counts from the next entry on. An empty stamp before the first.
    [[nodiscard]] Stamp stampAt(RunTime time) const;

private:
    struct Anchor
    {
        Id device;
        Stamp stamp;
        RunTime at;
    };

    [[nodiscard]] const Anchor* sameStart(const Stamp& stamp, const Id& device) const;

    std::vector<Anchor> anchors_; ///< One per start of a device, in the order they came; the last is the newest.
};

} // namespace loopside::run
