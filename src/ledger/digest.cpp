// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/digest.h"

#include <sodium.h>

namespace loopside::ledger {

Hash sha256(std::string_view bytes)
{
    Hash hash;
    crypto_hash_sha256(hash.data(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    return hash;
}

struct Sha256::State
{
    crypto_hash_sha256_state hashing;
};

Sha256::Sha256() : state_{std::make_unique<State>()}
{
    crypto_hash_sha256_init(&state_->hashing);
}

Sha256::~Sha256() = default;

void Sha256::add(std::string_view bytes)
{
    crypto_hash_sha256_update(&state_->hashing, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
}

Hash Sha256::end()
{
    Hash hash;
    crypto_hash_sha256_final(&state_->hashing, hash.data());
    return hash;
}

} // namespace loopside::ledger
