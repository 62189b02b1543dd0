// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>

namespace loopside::ledger {

using PublicKey = std::array<std::uint8_t, 32>;
using Signature = std::array<std::uint8_t, 64>;

/// The 32 secret bytes from which a key pair follows.
using Seed = std::array<std::uint8_t, 32>;

/// The key by which a device signs what it records. It cannot be copied, and its secret is wiped when it goes.
///
/// Source: Ed25519 as in RFC 8032, by libsodium.
class DeviceKey
{
public:
    /// The key that follows from `seed`; the same seed gives the same key.
    [[nodiscard]] static DeviceKey fromSeed(const Seed& seed);

    /// A new key from the operating system's randomness.
    [[nodiscard]] static DeviceKey generate();

    DeviceKey(DeviceKey&& other) noexcept;
    DeviceKey& operator=(DeviceKey&& other) noexcept;
    ~DeviceKey();

    [[nodiscard]] PublicKey publicKey() const;

    /// The secret itself: for the key file alone. Whoever takes it wipes it.
    [[nodiscard]] Seed seed() const;

    /// Signs `message`, which begins with words that say what it is, so that a signature for one purpose fits no other.
    [[nodiscard]] Signature sign(std::string_view message) const;

private:
    DeviceKey() = default;

    std::array<std::uint8_t, 64> secret_ = {}; ///< Seed, then public key.
};

/// Whether `signature` was made over `message` by the key whose public half is `signer`.
[[nodiscard]] bool verifies(const PublicKey& signer, std::string_view message, const Signature& signature);

/// Overwrites `secret` with zeros in a way that the compiler does not leave out.
void wipe(std::span<std::uint8_t> secret);
void wipe(std::span<char> secret);

} // namespace loopside::ledger
