// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The bytes that are signed are laid one behind the other, numbers in 8 bytes with the highest first.

#pragma once

#include <cstdint>
#include <span>
#include <string>

namespace loopside::sync {

inline void append(std::string& text, std::span<const std::uint8_t> bytes)
{
    text.append(reinterpret_cast<const char*>(bytes.data()), bytes.size());
}

inline void append(std::string& text, std::uint64_t number)
{
    for (unsigned shift = 64; shift > 0; shift -= 8) {
        text += static_cast<char>(number >> (shift - 8) & 0xFFU);
    }
}

} // namespace loopside::sync
