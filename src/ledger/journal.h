// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "ledger/chain.h"
#include "ledger/entry.h"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace loopside::ledger {

/// The place of an entry in a journal, from 1 without gaps; 0 is before the first.
using Position = std::uint64_t;

struct Stored
{
    Position position = 0;
    Entry entry;

    friend bool operator==(const Stored&, const Stored&) = default;
};

/// What an entry is of, without what it says.
struct Listed
{
    Position position = 0;
    Id device;
    Id run; ///< None where the entry is of no run.
    std::string kind;

    friend bool operator==(const Listed&, const Listed&) = default;
};

[[nodiscard]] Listed listedOf(const Stored& stored);

/// The record of what happened, in order, for good.
///
/// Entries are only ever added, each behind the last one of its chain. Positions mean the same in every later run.
/// Not thread-safe; the owner serialises calls.
class Journal
{
public:
    virtual ~Journal() = default;

    /// Adds all of `entries` in that order and returns the position of the last one once they would survive a power
    /// cut. With none it returns the position of the last entry there.
    ///
    /// On failure the journal holds what it held before. (One exception, and only after Io: where the disk failed in
    /// the very act of committing and the program then ended, all of them may be found at the next start, never a
    /// part.) Refuses what `mayFollow` refuses, and as Conflict an id that is already there.
    [[nodiscard]] virtual Result<Position> append(std::span<const Entry> entries) = 0;

    /// Entries behind `after`, oldest first, at most `limit`. Stops before damage, which it reports as Corrupt when
    /// asked to begin there.
    [[nodiscard]] virtual Result<std::vector<Stored>> read(Position after, std::size_t limit) const = 0;

    /// The same without entries of a moment (kinds.h). This one goes through all entries.
    [[nodiscard]] virtual Result<std::vector<Stored>> readLasting(Position after, std::size_t limit) const;

    /// What the entries that `readLasting` gives are of. This one reads them.
    [[nodiscard]] virtual Result<std::vector<Listed>> listLasting(Position after, std::size_t limit) const;

    /// The latest value of the hybrid clock among all entries, as far as it is in range; 0 without entries. This one
    /// goes through all entries.
    [[nodiscard]] virtual Result<std::uint64_t> latestClock() const;

    /// Position of the last entry; 0 if there is none. This one goes through all entries.
    [[nodiscard]] virtual Result<Position> last() const;

    /// Where the chain that `device` opened last stands; nothing if it never opened one.
    [[nodiscard]] virtual Result<std::optional<ChainHead>> head(const Id& device) const = 0;
};

} // namespace loopside::ledger
