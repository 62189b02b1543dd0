// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/entry.h"

#include <optional>
#include <string>
#include <string_view>

namespace loopside::ledger {

/// The chain from which another was started by a restore or a copy, and how far it had come.
struct ParentChain
{
    Id chain = {};
    Hash last = {};

    friend bool operator==(const ParentChain&, const ParentChain&) = default;
};

/// What the first entry of a chain says: whose it is, and the key by which every entry of the chain is signed.
struct ChainOpening
{
    Id device = {};
    PublicKey publicKey = {};
    std::optional<ParentChain> parent = {};

    friend bool operator==(const ChainOpening&, const ChainOpening&) = default;
};

/// The kind of a chain's first entry.
inline constexpr std::string_view chainOpenedKind = "chain-opened";

/// The body of a chain's first entry, in the one form of schema/README.md.
[[nodiscard]] std::string bodyOf(const ChainOpening& opening);

/// Reads what `bodyOf` writes. Malformed for anything else, even for other JSON that means the same.
[[nodiscard]] Result<ChainOpening> chainOpeningFrom(std::string_view body);

/// Where a chain stands: all that is needed to go on with it.
struct ChainHead
{
    Id device = {};
    Id chain = {};
    std::uint64_t sequence = 0; ///< Of the last entry.
    Hash last = {};             ///< Hash of the last entry.
    std::uint64_t clock = 0;    ///< Hybrid clock of the last entry.
    PublicKey publicKey = {};   ///< As the chain's first entry states it.
    bool isOver = false;        ///< The journal was restored since: the device goes on with a chain of its own.

    friend bool operator==(const ChainHead&, const ChainHead&) = default;
};

/// The last entry of a chain, as far as what comes next must fit it.
struct ChainTip
{
    Id device = {};
    std::uint64_t sequence = 0;
    std::uint64_t clock = 0; ///< Hybrid clock; it rises from entry to entry.
    Hash hash = {};
};

/// Entries of a chain that damage took, known and told since a restore: those between two that are there.
struct Loss
{
    Id chain = {};
    std::uint64_t after = 0;  ///< Sequence of the last entry before the gap; 0: the chain's opening is gone too.
    std::uint64_t before = 0; ///< Sequence of the first one behind it.

    [[nodiscard]] std::uint64_t entries() const { return before - after - 1; }
    friend bool operator==(const Loss&, const Loss&) = default;
};

/// The rule that every journal keeps: whether `entry` may be added behind `tip`, the last entry of its chain (none:
/// `entry` opens the chain).
///
/// Incompatible for another entry format, OutOfRange for too long a text, Corrupt if the stated hash is not the
/// entry's, Malformed or Conflict for a first entry that is no opening, Conflict if it does not follow. Signatures are
/// not looked at.
[[nodiscard]] Done mayFollow(const Entry& entry, const std::optional<ChainTip>& tip);

} // namespace loopside::ledger
