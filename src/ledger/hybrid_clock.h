// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstdint>

namespace loopside::ledger {

/// Gives each entry a number that rises along a device's entries and is beyond every number the device has seen before,
/// while staying near the wall clock: 48 bits of UTC milliseconds, then a counter of 16 bits.
///
/// When the wall clock stands still or falls back, the counter goes on; when the counter is full, the milliseconds do.
/// Source: Kulkarni and others, "Logical Physical Clocks", 2014, the packed form of its section 6; from memory.
class HybridClock
{
public:
    /// Values from here on are believed of no clock: 2⁴⁶ ms, in the year 4199. What is left above is room to count on.
    static constexpr std::uint64_t end = std::uint64_t{1} << 62U;

    /// The next value at the moment `wallMs` (UTC, milliseconds since 1970). Strictly above all that it gave or heard.
    /// A moment before 1970 or from `end` on counts as the nearest one in between.
    [[nodiscard]] std::uint64_t next(std::int64_t wallMs);

    /// Takes note of a value made elsewhere; one from `end` on is ignored. Whether a clock that runs ahead deserves
    /// belief is for the caller to decide.
    void heard(std::uint64_t foreign);

    /// Takes note of a value that this device gave itself, such as before its last start.
    void goOnAfter(std::uint64_t own);

private:
    std::uint64_t last_ = 0;
};

} // namespace loopside::ledger
