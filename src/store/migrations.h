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

/// Corrupt if `database`, which is not of a newer version, is not laid out as the steps up to its number lay it out:
/// tables, indexes and triggers to the letter, and a header that lets it be written. Changes nothing.
[[nodiscard]] Done checkLayout(Database& database);

/// Whether `database` lacks steps up to this version.
[[nodiscard]] Result<bool> isOlder(Database& database);

/// Brings `database`, which is not of a newer version, up to this one: one step of schema/tablet after the other, each
/// whole or not at all.
[[nodiscard]] Done migrate(Database& database);

} // namespace loopside::store
