// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/clock.h"
#include "units/quantity.h"

#include <cmath>

namespace loopside::app {

/// The clock of an exercise: begins when it is begun and goes on as the simulated cart does, faster or not at all. The
/// clock of the tablet is another and stays as it is.
class PracticeClock final : public Clock
{
public:
    explicit PracticeClock(const Stamp& start) : start_{start} {}

    [[nodiscard]] Stamp now() override
    {
        Stamp stamp = start_;
        stamp.wallMs += ms_;
        stamp.monoNs += static_cast<std::uint64_t>(ms_) * 1'000'000U;
        return stamp;
    }

    /// The cart's time, which never goes back.
    void follow(units::Duration cart) { ms_ = std::llround(cart.in(units::second) * 1e3); }

private:
    Stamp start_;
    std::int64_t ms_ = 0;
};

} // namespace loopside::app
