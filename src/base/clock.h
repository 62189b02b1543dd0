// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"

#include <cstdint>

namespace loopside {

/// One moment, as the device knew it.
///
/// The wall clock is for people and may jump. The monotonic clock is for durations and means something only within one
/// start of the device, which `boot` names.
struct Stamp
{
    std::int64_t wallMs = 0;  ///< UTC, milliseconds since 1970.
    int offsetMin = 0;        ///< Local time minus UTC, minutes.
    std::uint64_t monoNs = 0; ///< Since that start of the device, on during suspend too, nanoseconds.
    Id boot = {};             ///< Names one start of the device.

    friend bool operator==(const Stamp&, const Stamp&) = default;
};

/// The door to time. Nothing below the programs reads a clock in any other way.
class Clock
{
public:
    virtual ~Clock() = default;
    [[nodiscard]] virtual Stamp now() = 0;
};

} // namespace loopside
