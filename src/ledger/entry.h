// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/id.h"
#include "ledger/keys.h"
#include "run/header.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>

namespace loopside::ledger {

using Hash = std::array<std::uint8_t, 32>;

/// The layout of entries that this version writes, and the only one it knows.
inline constexpr std::uint16_t entryFormat = 1;

/// Most bytes of a body, and of the short texts in the envelope.
inline constexpr std::size_t bodyBytesMax = 1U << 20U;
inline constexpr std::size_t textBytesMax = 64;

/// One line of the journal: an envelope that says who, where and when, and a body that says what.
///
/// Each entry holds the hash of the entry before it in its chain, so that none can be changed, dropped or put in
/// between without a mark, and the signature of the device that made it. The bytes are laid down in schema/README.md.
struct Entry
{
    std::uint16_t format = entryFormat;
    run::Header header = {};
    Id chain = {};            ///< The unbroken series of entries to which it belongs.
    std::string kind;         ///< What the body is, such as "reading-logged".
    std::string body;         ///< As stored; it is never taken apart and written anew.
    Hash previous = {};       ///< Hash of the entry before it in the chain; all zero for the first.
    Hash hash = {};           ///< `hashOf` this entry.
    Signature signature = {}; ///< By the device, over the hash.

    friend bool operator==(const Entry&, const Entry&) = default;
};

/// The bytes that stand for `entry`: all of it but hash and signature, in the layout of schema/README.md.
[[nodiscard]] std::string signedBytes(const Entry& entry);

/// SHA-256 of `signedBytes(entry)`.
[[nodiscard]] Hash hashOf(const Entry& entry);

/// The signature by `key` over the hash that `entry` states.
[[nodiscard]] Signature signatureOf(const Entry& entry, const DeviceKey& key);

/// Whether `entry` bears the signature of `signer` over the hash that it states.
[[nodiscard]] bool isSignedBy(const Entry& entry, const PublicKey& signer);

} // namespace loopside::ledger
