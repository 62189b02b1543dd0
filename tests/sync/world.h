// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Two to five tablets and a hub, all from one seed: they write, links are cut and heal, messages get lost, come twice,
// late or out of order, programs stop between storing and going on, tablets are put back to an older copy, clocks are
// wrong. Then the links heal, and everything that must hold is looked at.

#pragma once

#include "sync/hub_store.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>

namespace loopside::test {

/// Faults of the sides or of the checker's own, to be found.
enum class Planted
{
    Nothing,
    HastyTablet,   ///< It goes on from what it heard and sometimes forgets to store it.
    ForgottenEntry ///< An entry is looked for that nobody wrote.
};

struct Synced
{
    std::size_t tablets = 0;
    std::size_t entries = 0;  ///< That were written, those that a tablet lost later included.
    std::size_t messages = 0; ///< That were said, and what became of them:
    std::size_t lost = 0;
    std::size_t doubled = 0;
    std::size_t restarts = 0;
    std::size_t restores = 0;    ///< A tablet was put back to an older copy of itself.
    std::size_t forks = 0;       ///< Of these such as went on with the old chain all the same.
    std::size_t keptAside = 0;   ///< Entries in the end.
    std::size_t ahead = 0;       ///< Entries whose clock was too far ahead.
    std::string firstFault = {}; ///< With the seed; empty: nothing.

    friend bool operator==(const Synced&, const Synced&) = default;
};

/// Makes the store of the hub of a site that nobody used before.
using StoreOf = std::function<std::unique_ptr<sync::HubStore>(const Id& site)>;

/// In memory.
[[nodiscard]] std::unique_ptr<sync::HubStore> memoryStore(const Id& site);

[[nodiscard]] Synced synchronise(std::uint64_t seed, Planted planted = Planted::Nothing,
                                 const StoreOf& storeOf = memoryStore);

} // namespace loopside::test
