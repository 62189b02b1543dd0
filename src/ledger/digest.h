// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/chain.h"

#include <memory>
#include <string_view>

namespace loopside::ledger {

/// SHA-256 (FIPS 180-4) of `bytes`, by libsodium.
[[nodiscard]] Hash sha256(std::string_view bytes);

/// The same of bytes that come piece by piece.
class Sha256
{
public:
    Sha256();
    Sha256(const Sha256&) = delete;
    Sha256& operator=(const Sha256&) = delete;
    ~Sha256();

    void add(std::string_view bytes);

    /// Of all that was added; nothing is added after that.
    [[nodiscard]] Hash end();

private:
    struct State;
    std::unique_ptr<State> state_;
};

} // namespace loopside::ledger
