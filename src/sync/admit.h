// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/entry.h"
#include "sync/mark.h"

namespace loopside::sync {

/// Whether `entry` is what the device with `key` wrote, by itself: its layout, its hash, its signature and, where it
/// opens a chain, the opening. What stands beside it in the chain is for the shelf.
///
/// Incompatible for a newer layout, OutOfRange for too long a text, Corrupt for a hash or a signature that does not
/// hold, Malformed or Conflict for an opening that is none or names another device or key.
[[nodiscard]] Done mayEnter(const ledger::Entry& entry, const ledger::PublicKey& key);

/// The same for an entry of another device, vouched for by `mark` of its chain, whose signature was looked at: as well
/// Conflict for one of another chain or device than the mark's, or beyond what the mark says that the hub holds.
[[nodiscard]] Done mayEnter(const ledger::Entry& entry, const Mark& mark);

/// Whether a journal that takes `entry` in can still be folded: Malformed for a body that does not fit its kind. Kinds
/// that this version does not know are passed over by the fold.
[[nodiscard]] Done mayBeFolded(const ledger::Entry& entry);

} // namespace loopside::sync
