// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/chain.h"

#include <string_view>

namespace loopside::ledger {

/// SHA-256 (FIPS 180-4) of `bytes`, by libsodium.
[[nodiscard]] Hash sha256(std::string_view bytes);

} // namespace loopside::ledger
