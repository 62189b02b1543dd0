// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/entry.h"

#include <cstdint>
#include <string>

namespace loopside::sync {

/// A site hub's word that it holds an entry of a chain and everything before it, but for gaps that were told as lost.
///
/// It is the receipt of what a tablet handed over, and by it a tablet believes entries of other devices: it names the
/// key of the device that the hub has enrolled.
struct Mark
{
    Id site = {};
    Id log = {}; ///< The hub's record. One that was restored or copied goes on under a new id.
    Id device = {};
    ledger::PublicKey key = {}; ///< Of the device.
    Id chain = {};
    std::uint64_t sequence = 0;
    ledger::Hash hash = {}; ///< Of the entry with that sequence.
    bool isAside = false;   ///< Another entry has that place in the chain; this one is kept beside it.
    std::int64_t atMs = 0;  ///< The hub's clock when it signed: UTC, milliseconds since 1970.

    friend bool operator==(const Mark&, const Mark&) = default;
};

struct SignedMark
{
    Mark mark;
    ledger::Signature signature = {}; ///< By the hub.

    friend bool operator==(const SignedMark&, const SignedMark&) = default;
};

/// The bytes over which a hub signs `mark`, laid out in schema/wire/README.md.
[[nodiscard]] std::string signedBytes(const Mark& mark);

[[nodiscard]] SignedMark signedBy(const ledger::DeviceKey& hub, const Mark& mark);

[[nodiscard]] bool isSignedBy(const SignedMark& mark, const ledger::PublicKey& hub);

} // namespace loopside::sync
