// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/clock.h"
#include "base/id.h"

#include <cstdint>
#include <string>
#include <tuple>

namespace loopside::run {

/// When something was seen, if a person says that it was earlier than when it was entered.
struct Observed
{
    std::int64_t agoMs = 0; ///< Milliseconds before the entry was made; 0 or more. 0: seen when entered.
    std::string how;        ///< How it is known: empty (seen when entered), "said" or "paper".

    friend bool operator==(const Observed&, const Observed&) = default;
};

/// What the fold needs to know of an entry besides what happened: who, where, when, and its place in the order.
struct Header
{
    Id id = {};
    Id device = {};
    std::uint64_t sequence = 0; ///< Counts the entries of the device's chain from 1.
    std::uint64_t clock = 0;    ///< Hybrid logical clock: wall milliseconds × 65536 + counter.
    Id run = {};                ///< The run it belongs to, or none.
    Stamp entered = {};
    Observed observed = {};
    Id person = {};

    friend bool operator==(const Header&, const Header&) = default;
};

/// The order in which entries are folded, the same on every device: hybrid clock, device, sequence.
[[nodiscard]] inline bool foldsBefore(const Header& a, const Header& b)
{
    return std::tie(a.clock, a.device, a.sequence) < std::tie(b.clock, b.device, b.sequence);
}

} // namespace loopside::run
