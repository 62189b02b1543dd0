// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/keys.h"

#include "base/require.h"

#include <sodium.h>

namespace loopside::ledger {

namespace {

static_assert(std::tuple_size_v<PublicKey> == crypto_sign_PUBLICKEYBYTES);
static_assert(std::tuple_size_v<Signature> == crypto_sign_BYTES);
static_assert(std::tuple_size_v<Seed> == crypto_sign_SEEDBYTES);

const unsigned char* bytesOf(std::string_view text)
{
    return reinterpret_cast<const unsigned char*>(text.data());
}

} // namespace

DeviceKey DeviceKey::fromSeed(const Seed& seed)
{
    static_assert(sizeof(secret_) == crypto_sign_SECRETKEYBYTES);
    require(sodium_init() >= 0, "libsodium starts");
    DeviceKey key;
    PublicKey ignored;
    crypto_sign_seed_keypair(ignored.data(), key.secret_.data(), seed.data());
    return key;
}

DeviceKey DeviceKey::generate()
{
    require(sodium_init() >= 0, "libsodium starts");
    Seed seed;
    randombytes_buf(seed.data(), seed.size());
    DeviceKey key = fromSeed(seed);
    wipe(seed);
    return key;
}

DeviceKey::DeviceKey(DeviceKey&& other) noexcept : secret_{other.secret_}
{
    wipe(other.secret_);
}

DeviceKey& DeviceKey::operator=(DeviceKey&& other) noexcept
{
    if (this != &other) {
        secret_ = other.secret_;
        wipe(other.secret_);
    }
    return *this;
}

DeviceKey::~DeviceKey()
{
    wipe(secret_);
}

PublicKey DeviceKey::publicKey() const
{
    PublicKey key;
    crypto_sign_ed25519_sk_to_pk(key.data(), secret_.data());
    return key;
}

Seed DeviceKey::seed() const
{
    Seed seed;
    crypto_sign_ed25519_sk_to_seed(seed.data(), secret_.data());
    return seed;
}

Signature DeviceKey::sign(std::string_view message) const
{
    Signature signature;
    crypto_sign_detached(signature.data(), nullptr, bytesOf(message), message.size(), secret_.data());
    return signature;
}

bool verifies(const PublicKey& signer, std::string_view message, const Signature& signature)
{
    return crypto_sign_verify_detached(signature.data(), bytesOf(message), message.size(), signer.data()) == 0;
}

void wipe(std::span<std::uint8_t> secret)
{
    sodium_memzero(secret.data(), secret.size());
}

void wipe(std::span<char> secret)
{
    sodium_memzero(secret.data(), secret.size());
}

} // namespace loopside::ledger
