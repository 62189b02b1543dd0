// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What is to become of an entry that is put on a shelf, by what stands around its place: the one rule of every shelf
// that holds chains.

#pragma once

#include "sync/shelf.h"

#include <cstdint>
#include <optional>
#include <span>

namespace loopside::sync {

/// What the rule wants to know of an entry that has its place.
struct Placed
{
    Id device = {};
    std::uint64_t sequence = 0;
    std::uint64_t clock = 0;
    ledger::Hash previous = {};
    ledger::Hash hash = {};
};

[[nodiscard]] Placed placedOf(const ledger::Entry& entry);

/// What stands around the place of an entry in its chain.
struct Surroundings
{
    std::optional<Placed> before = {}; ///< The nearest one in front of it.
    std::optional<Placed> there = {};  ///< The one that has its place.
    std::optional<Placed> next = {};   ///< The nearest one behind it.
    bool isAside = false;              ///< It is kept aside already.
    bool followsAside = false;         ///< It goes on from one that is kept aside.
};

/// What to do with `entry`: nothing for Same and Gap; for Conflict it is kept aside, if it is not already.
/// `losses` tell which gaps will not be filled.
[[nodiscard]] Put placingOf(const ledger::Entry& entry, const Surroundings& around,
                            std::span<const ledger::Loss> losses);

/// The same on a shelf that takes entries singly, where a gap is none.
[[nodiscard]] Put singlePlacingOf(const ledger::Entry& entry, const Surroundings& around);

} // namespace loopside::sync
