// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <algorithm>
#include <cstdlib>

namespace loopside::test {

struct AskedKills
{
    int rounds;
    int firstSeed; ///< Of as many that follow each other.
};

/// LOOPSIDE_KILLS, or `rounds` where that says nothing, with seeds from LOOPSIDE_KILLS_FROM or 1 on: runs beside or
/// after each other take different ones.
[[nodiscard]] inline AskedKills askedKills(int rounds)
{
    const auto asked = [](const char* name, int otherwise) {
        const char* const text = std::getenv(name);
        return text == nullptr ? otherwise : std::max(std::atoi(text), 1);
    };
    return {asked("LOOPSIDE_KILLS", rounds), asked("LOOPSIDE_KILLS_FROM", 1)};
}

} // namespace loopside::test
