// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How a tablet shows a site hub that a request is its own: one header line, signed by the key of the device. Laid out
// in schema/wire/README.md, section 6. TLS keeps others from reading; this tells who speaks, and that nobody says again
// what was said once.

#pragma once

#include "base/id.h"
#include "base/result.h"
#include "ledger/keys.h"

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

namespace loopside::sync {

/// The name of the header line.
inline constexpr std::string_view signatureHeader = "Loopside-Signature";

/// The header line by which a hub tells its clock with every answer: UTC, milliseconds since 1970. A tablet whose clock
/// strays signs its next request with that clock; what it records keeps its own.
inline constexpr std::string_view hubTimeHeader = "Loopside-Time";

/// How far the stamp of a request may be from the hub's clock, either way.
inline constexpr std::int64_t requestWindowMs = 300'000;

/// Bytes that a device uses once, from the operating system's randomness.
using Nonce = std::array<std::uint8_t, 16>;

/// What is signed of a request. The views are the caller's.
struct Request
{
    std::string_view method; ///< Such as "POST".
    std::string_view path;   ///< As in the request line, with its query if there is one.
    std::string_view body;
};

/// What the header line says.
struct RequestProof
{
    Id device = {};
    std::int64_t atMs = 0; ///< The stamp: UTC, milliseconds since 1970.
    Nonce nonce = {};
    ledger::Signature signature = {};

    friend bool operator==(const RequestProof&, const RequestProof&) = default;
};

/// The bytes over which a device signs. `site` is none where it asks to be enrolled and cannot know it.
[[nodiscard]] std::string signedBytes(const Id& site, const Request& request, const RequestProof& proof);

/// The header line's value for `request` to the hub of `site`, signed with `key` at `atMs`.
[[nodiscard]] std::string signatureOf(const Id& site, const Request& request, const Id& device, std::int64_t atMs,
                                      const Nonce& nonce, const ledger::DeviceKey& key);

/// What the header line `value` says. Incompatible for a newer layout, Malformed for anything that `signatureOf` does
/// not write. Neither signature nor stamp is looked at.
[[nodiscard]] Result<RequestProof> requestProofFrom(std::string_view value);

/// Whether `proof` stands for `request` to the hub of `site`, by the device that has `key`, at `nowMs` of the hub's
/// clock. Conflict for a signature that does not hold; OutOfRange, with both clocks in the sentence, for a stamp
/// outside the window. That a nonce comes once is for whoever remembers them.
[[nodiscard]] Done mayPass(const RequestProof& proof, const Id& site, const Request& request,
                           const ledger::PublicKey& key, std::int64_t nowMs);

} // namespace loopside::sync
