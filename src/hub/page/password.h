// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Which passwords are taken. No rule for kinds of signs, no expiry; long enough, and not one of those that are tried
// first. There is no list of leaked passwords in it: what is refused is what can be told by looking.

#pragma once

#include "base/result.h"

#include <cstddef>
#include <string_view>

namespace loopside::page {

inline constexpr std::size_t passwordSignsLeast = 12;                   ///< OWASP ASVS 4, 2.1.1; from memory.
inline constexpr std::size_t passwordSignsMost = 128;                   ///< OWASP ASVS 4, 2.1.2; from memory.
inline constexpr std::size_t passwordBytesMost = 4 * passwordSignsMost; ///< Of UTF-8.

/// Whether `password` takes no guessing for who is called `name`: few different signs, one piece again and again, or
/// hardly more than rows of keys or of the alphabet, words that everybody takes, and the name.
[[nodiscard]] bool isEasilyGuessed(std::string_view password, std::string_view name);

/// Malformed, with what to do in `say`, where `password` cannot be that of who is called `name`.
[[nodiscard]] Done mayBePassword(std::string_view password, std::string_view name);

} // namespace loopside::page
