// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace loopside::sync {

/// An entry as it is held, with what only a hub can say of it.
struct Held
{
    ledger::Entry entry;
    bool isAhead = false; ///< Its clock ran ahead of the hub's when it came (precedence.h).

    friend bool operator==(const Held&, const Held&) = default;
};

/// What became of an entry that was put on a shelf.
enum class Put
{
    Created,  ///< It has its place now.
    Same,     ///< It was there already.
    Conflict, ///< Its place holds another one, or what stands beside its place does not fit: kept aside.
    Gap       ///< What comes before it is not here: nothing was done.
};

/// The last entry of a chain that is held.
struct Tip
{
    Id device = {};
    Id chain = {};
    std::uint64_t sequence = 0;
    ledger::Hash hash = {};

    friend bool operator==(const Tip&, const Tip&) = default;
};

/// Where entries of several chains are held, each in its place: a tablet's journal, what it holds of others, a hub.
///
/// Insert or compare: nothing that has its place is ever changed or removed. Who puts an entry has looked at its hash
/// and signature. Not thread-safe; the owner serialises calls.
class Shelf
{
public:
    Shelf() = default;
    Shelf(const Shelf&) = delete;
    Shelf& operator=(const Shelf&) = delete;
    virtual ~Shelf() = default;

    /// Puts `entries` in that order and returns what became of each once that would survive a power cut; on failure the
    /// shelf is as it was. Gaps that `losses` tells of are passed over where the shelf can hold chains with gaps.
    [[nodiscard]] virtual Result<std::vector<Put>> put(std::span<const Held> entries,
                                                       std::span<const ledger::Loss> losses) = 0;

    /// The entry that has that place.
    [[nodiscard]] virtual Result<std::optional<Held>> at(const Id& chain, std::uint64_t sequence) const = 0;

    /// Entries of `chain` behind `after`, at most `most`, by sequence.
    [[nodiscard]] virtual Result<std::vector<Held>> behind(const Id& chain, std::uint64_t after,
                                                           std::size_t most) const = 0;

    /// Of each chain, by the id of the chain.
    [[nodiscard]] virtual Result<std::vector<Tip>> tips() const = 0;

    /// What is kept aside of `chain`, in the order in which it came.
    [[nodiscard]] virtual Result<std::vector<ledger::Entry>> asides(const Id& chain) const = 0;
};

} // namespace loopside::sync
