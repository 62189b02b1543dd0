// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/hybrid_clock.h"

#include <algorithm>

namespace loopside::ledger {

std::uint64_t HybridClock::next(std::int64_t wallMs)
{
    constexpr auto wallMsMax = static_cast<std::int64_t>(end >> 16U) - 1;
    const auto wall = static_cast<std::uint64_t>(std::clamp<std::int64_t>(wallMs, 0, wallMsMax)) << 16U;
    last_ = std::max(wall, last_ + 1);
    return last_;
}

void HybridClock::heard(std::uint64_t foreign)
{
    if (foreign < end) {
        goOnAfter(foreign);
    }
}

void HybridClock::goOnAfter(std::uint64_t own)
{
    last_ = std::max(last_, own);
}

} // namespace loopside::ledger
