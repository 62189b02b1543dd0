// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/hybrid_clock.h"

#include "base/id.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace loopside;
using namespace loopside::ledger;

TEST_CASE("a hybrid clock shows the wall clock's milliseconds above sixteen bits of counter")
{
    HybridClock clock;
    CHECK(clock.next(1000) == 1000U * 65536U);
    CHECK(clock.next(1000) == 1000U * 65536U + 1);
    CHECK(clock.next(1001) == 1001U * 65536U);
}

TEST_CASE("a hybrid clock goes on though the wall clock falls back")
{
    HybridClock clock;
    CHECK(clock.next(5000) == 5000U * 65536U);
    CHECK(clock.next(10) == 5000U * 65536U + 1);
    CHECK(clock.next(-10) == 5000U * 65536U + 2);
}

TEST_CASE("a hybrid clock rises whatever the wall clock says and whatever is heard")
{
    SeededRandom random(41);
    HybridClock clock;
    std::uint64_t last = 0;
    for (int i = 0; i < 20'000; ++i) {
        const std::uint64_t heard = random.next() >> (random.next() % 64);
        clock.heard(heard);
        const std::uint64_t next = clock.next(static_cast<std::int64_t>(random.next()));
        CAPTURE(i, heard);
        REQUIRE(next > last);
        REQUIRE((heard >= HybridClock::end || next > heard));
        last = next;
    }
}

TEST_CASE("a full counter runs over into the next millisecond")
{
    HybridClock clock;
    std::uint64_t last = clock.next(7);
    for (int i = 0; i < 65'536; ++i) {
        last = clock.next(7);
    }
    CHECK(last == 8U * 65536U);
}

TEST_CASE("a hybrid clock believes no value of a far future")
{
    HybridClock clock;
    clock.heard(std::numeric_limits<std::uint64_t>::max());
    clock.heard(HybridClock::end);
    CHECK(clock.next(1000) == 1000U * 65536U);
    CHECK(HybridClock().next(std::numeric_limits<std::int64_t>::max()) < HybridClock::end);
}
