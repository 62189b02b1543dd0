// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "handover/patience.h"

#include <catch2/catch.hpp>

using loopside::handover::Patience;

namespace {

constexpr std::uint64_t s = 1'000'000'000;

/// Seconds after a failure or success at 1000 s from which on it is due.
std::uint64_t dueAfter(const Patience& patience, bool hasNews = false)
{
    std::uint64_t waited = 0;
    while (!patience.isDue((1000 + waited) * s, hasNews)) {
        ++waited;
    }
    return waited;
}

} // namespace

TEST_CASE("a tablet tries at once, then less and less often while nobody answers")
{
    Patience patience;
    CHECK(patience.isDue(0, false));
    for (const std::uint64_t expected : {30U, 60U, 120U, 240U, 480U, 900U, 900U}) {
        patience.failed(1000 * s);
        CHECK(dueAfter(patience) == expected);
        CHECK(dueAfter(patience, true) == expected); // what is new does not press a hub that does not answer
    }
    for (int i = 0; i < 100; ++i) {
        patience.failed(1000 * s);
    }
    CHECK(dueAfter(patience) == Patience::mostS);
    patience.succeeded(1000 * s);
    CHECK(dueAfter(patience) == Patience::calmS);
    CHECK(dueAfter(patience, true) == Patience::firstS);
    patience.failed(1000 * s);
    CHECK(dueAfter(patience) == Patience::firstS);
}

TEST_CASE("a hub that asks for more time gets it, within bounds")
{
    Patience patience;
    patience.failed(1000 * s, 200);
    CHECK(dueAfter(patience) == 200);
    patience.failed(1000 * s, 1'000'000);
    CHECK(dueAfter(patience) == Patience::mostS);
    patience.failed(1000 * s, -5);
    CHECK(dueAfter(patience) == 120);
}

TEST_CASE("a tablet that woke or was started anew tries at once")
{
    Patience patience;
    patience.failed(1000 * s);
    CHECK(patience.isDue(5000 * s, false)); // the clock went on while it slept
    CHECK(patience.isDue(10 * s, false));   // and began anew with the device
    CHECK_FALSE(patience.isDue(1001 * s, true));
    patience.wake();
    CHECK(patience.isDue(1001 * s, false));
}
