// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/journal.h"

#include <functional>

namespace loopside::ledger {

/// Gives entries to what it is called with, in the order of the journal, until that fails.
using EntryReader = std::function<Done(const std::function<Done(const Stored&)>& take)>;

/// Gives each entry that `read(after, limit)` finds behind `after` to `take`, a piece at a time, in the order of the
/// journal, until it fails. Goes on until nothing is left: a piece may be short because damage begins behind it.
template<class Read, class Take>
[[nodiscard]] Done readPieces(Read read, Position after, Take take)
{
    constexpr std::size_t piece = 1000;
    for (;;) {
        const auto entries = read(after, piece);
        if (!entries) {
            return fail(entries.error());
        }
        if (entries->empty()) {
            return {};
        }
        for (const auto& entry : *entries) {
            if (auto done = take(entry); !done) {
                return done;
            }
            after = entry.position;
        }
    }
}

/// The entries of `journal` behind `after`.
template<class Take>
[[nodiscard]] Done readBehind(const Journal& journal, Position after, Take take)
{
    return readPieces([&](Position from, std::size_t limit) { return journal.read(from, limit); }, after, take);
}

/// All entries of `journal`.
template<class Take>
[[nodiscard]] Done readAll(const Journal& journal, Take take)
{
    return readBehind(journal, 0, take);
}

/// All entries of `journal` that are lasting.
template<class Take>
[[nodiscard]] Done readLasting(const Journal& journal, Take take)
{
    return readPieces([&](Position from, std::size_t limit) { return journal.readLasting(from, limit); }, 0, take);
}

/// What all entries of `journal` that are lasting are of.
template<class Take>
[[nodiscard]] Done listLasting(const Journal& journal, Take take)
{
    return readPieces([&](Position from, std::size_t limit) { return journal.listLasting(from, limit); }, 0, take);
}

} // namespace loopside::ledger
