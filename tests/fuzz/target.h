// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string_view>

/// What libFuzzer calls, and what the replay of a corpus calls: looks at one input. Stops the program at a fault.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace loopside::fuzz {

inline std::string_view textOf(const std::uint8_t* data, std::size_t size)
{
    return {reinterpret_cast<const char*>(data), size};
}

/// Ends the program where something that must hold does not.
inline void must(bool condition, const char* what)
{
    if (!condition) {
        std::fprintf(stderr, "fuzzing found: %s\n", what);
        std::abort();
    }
}

} // namespace loopside::fuzz
