// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "sync/precedence.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace loopside;
using namespace loopside::sync;

namespace {

Held heldAt(std::int64_t ms, std::uint8_t number, bool isAhead = false)
{
    Held held;
    held.entry.header.id.bytes[0] = number;
    held.entry.header.clock = static_cast<std::uint64_t>(ms) << 16U;
    held.isAhead = isAhead;
    return held;
}

std::vector<int> numbersOf(const std::vector<Held>& entries)
{
    std::vector<int> numbers;
    for (const Held& held : entries) {
        numbers.push_back(held.entry.header.id.bytes[0]);
    }
    return numbers;
}

} // namespace

TEST_CASE("a clock is ahead once it is more than an hour beyond the hub's")
{
    constexpr std::int64_t now = 1'751'958'400'000;
    const auto at = [](std::int64_t ms) { return static_cast<std::uint64_t>(ms) << 16U | 0xFFFFU; };
    CHECK_FALSE(isAhead(at(now - 86'400'000), now));
    CHECK_FALSE(isAhead(at(now + 3'600'000), now));
    CHECK(isAhead(at(now + 3'600'001), now));
    CHECK(isAhead(std::numeric_limits<std::uint64_t>::max(), now));
    CHECK_FALSE(isAhead(0, 0));
}

TEST_CASE("what ran ahead takes no precedence until a person settled it")
{
    const std::vector<Held> entries = {heldAt(9000, 1, true), heldAt(300, 2), heldAt(100, 3), heldAt(8000, 4, true)};
    CHECK(numbersOf(byPrecedence(entries, {})) == std::vector<int>{4, 1, 3, 2});
    CHECK(numbersOf(byPrecedence(entries, {entries[0].entry.header.id})) == std::vector<int>{4, 3, 2, 1});
    CHECK(numbersOf(byPrecedence(entries, {entries[0].entry.header.id, entries[3].entry.header.id}))
          == std::vector<int>{3, 2, 4, 1});
}
