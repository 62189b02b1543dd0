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

} // namespace loopside::ledger
