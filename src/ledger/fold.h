// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/read_all.h"
#include "run/state.h"

namespace loopside::ledger {

/// An entry as it was committed, with what it says.
struct Committed
{
    run::Header header;
    run::Event event;
};

struct Folded
{
    run::State state = {};
    std::size_t unknown = 0;  ///< Entries of kinds that this version does not know.
    std::uint64_t latest = 0; ///< The latest value of the hybrid clock, as far as it is in range.
};

/// Folds `stored` onto what `folded` has, behind which it comes in the order of folding. Corrupt if its body does not
/// fit its kind.
[[nodiscard]] Done foldOnto(Folded& folded, const Stored& stored);

/// Folds what `read` gives, in the order of folding (run/header.h) whatever its own; `read` may be called twice.
/// Corrupt if an entry's body does not fit its kind.
[[nodiscard]] Result<Folded> fold(const EntryReader& read);

} // namespace loopside::ledger
