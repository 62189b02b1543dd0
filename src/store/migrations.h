// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "store/database.h"

#include <cstdint>

namespace loopside::store {

/// What a journal's file says it is: "Loop" in the application id of SQLite's header.
inline constexpr std::uint32_t journalApplicationId = 0x4C6F6F70;

/// Incompatible if a newer version wrote `database`. Changes nothing and reads nothing else.
[[nodiscard]] Done refuseNewer(Database& database);

/// Brings `database`, which is not of a newer version, up to this one: one step of schema/tablet after the other, each
/// whole or not at all.
[[nodiscard]] Done migrate(Database& database);

} // namespace loopside::store
