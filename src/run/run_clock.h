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
/// good as it is. Time never runs backwards past the opening; and a device that was started anew has been running,
/// by its monotonic clock, since after its last entry: at least that time has passed, whatever its wall clock says.
/// What lies between the two is of a length that nobody knows for sure, and is kept.
class RunClock
{
public:
    /// A time of which only the wall clock tells that it passed: from the newest entry to the start of the device.
    struct Unsure
    {
        RunTime from{0};
        RunTime to{0};
    };

    RunClock() = default;
    explicit RunClock(const Stamp& opened, const Id& device);

    /// When `stamp` was taken by `device`. Remembers the device's start, so call it in fold order.
    [[nodiscard]] RunTime enter(const Stamp& stamp, const Id& device);

    /// The same without remembering.
    [[nodiscard]] RunTime at(const Stamp& stamp, const Id& device) const;

    /// In the order in which they were entered; they do not overlap.
    [[nodiscard]] const std::vector<Unsure>& unsure() const { return unsure_; }

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
    [[nodiscard]] const Anchor* latestOf(const Id& device) const;

    std::vector<Anchor> anchors_; ///< One per start of a device, in the order they came; the last is the newest.
    std::vector<Unsure> unsure_;
};

} // namespace loopside::run
