// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A whole tablet in small: a technician does what comes to mind, the disk fails, the clock is set, the program is
// killed and the power is cut, all from one seed; after each start everything that must hold is looked at.

#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace loopside::test {

/// Faults of the checker's own, to be found.
enum class Planted
{
    Nothing,
    LyingDisk,   ///< It acknowledges syncs and does none.
    ForgottenAct ///< One acknowledged entry is looked for that was never written.
};

struct Simulated
{
    std::size_t starts = 0;
    std::size_t kills = 0;
    std::size_t powerCuts = 0;
    std::size_t refusals = 0;    ///< Commands that a failing disk did not take.
    std::size_t clockFaults = 0; ///< Wall clock set, another offset, a wrong date at a start.
    std::size_t acknowledged = 0;
    std::string firstFault; ///< With the seed; empty: nothing.
};

/// `starts` shifts from `seed`. What must hold after each start: no damage is told, as none was done; every
/// acknowledged entry is there, byte for byte and in order; chain and signatures hold; a tablet shows what the entries
/// say; low ≤ best ≤ high turnovers of each run, and the low end is never above what really went through the filters,
/// whatever the clocks did. During a shift: a refused command changes nothing.
[[nodiscard]] Simulated simulate(std::uint64_t seed, int starts, Planted planted);

} // namespace loopside::test
