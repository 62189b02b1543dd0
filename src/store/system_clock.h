// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/clock.h"
#include "base/id.h"

namespace loopside::store {

/// The device's own clocks (Linux): the wall clock with the local offset that holds at that moment, and the monotonic
/// clock that goes on during suspend.
///
/// The start of the device is named by the kernel's boot id. Where that cannot be read, a random name stands for the
/// making of this clock, from which the monotonic clock then counts: durations mean something only within it, never too
/// much.
class SystemClock final : public Clock
{
public:
    SystemClock();

    [[nodiscard]] Stamp now() override;

private:
    Id boot_;
    std::uint64_t startNs_ = 0; ///< What the system's monotonic clock showed at that start.
};

/// The kernel's randomness, fit for ids and keys. Stops the program if there is none to be had.
class SystemRandom final : public RandomSource
{
public:
    [[nodiscard]] std::uint64_t next() override;
};

} // namespace loopside::store
