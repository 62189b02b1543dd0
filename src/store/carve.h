// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Finding entries in a damaged journal, page by page and without SQLite. It can be this blunt because an entry proves
// itself: what looks like one but does not have the hash that it states is none.

#pragma once

#include "ledger/entry.h"

#include <functional>
#include <string_view>

namespace loopside::store {

/// Gives every entry that stands whole in the bytes of a journal's file or of its write-ahead log to `take`, some of
/// them several times, in no order. Their hashes hold; their signatures are not looked at. Never fails.
void carveEntries(std::string_view database, std::string_view log, const std::function<void(ledger::Entry)>& take);

/// The same, looked for at every byte of a page instead of where an entry can begin. Against this the other is tested.
void carveEntriesSlowly(std::string_view database, std::string_view log,
                        const std::function<void(ledger::Entry)>& take);

} // namespace loopside::store
