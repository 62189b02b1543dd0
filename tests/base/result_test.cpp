// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/result.h"

#include <catch2/catch.hpp>

using namespace loopside;

namespace {

Result<int> half(int n)
{
    if (n % 2 != 0) {
        return fail(Errc::OutOfRange, std::to_string(n) + " is odd", Message{"odd", {{"n", std::to_string(n)}}});
    }
    return n / 2;
}

Done evenOnly(int n)
{
    if (const auto done = half(n); !done) {
        return fail(done.error());
    }
    return {};
}

} // namespace

TEST_CASE("a failure keeps its code, its sentence and its message on the way up")
{
    const Done done = evenOnly(7);
    REQUIRE_FALSE(done);
    CHECK(done.error().code == Errc::OutOfRange);
    CHECK(done.error().sentence == "7 is odd");
    CHECK(done.error().say == Message{"odd", {{"n", "7"}}});
}

TEST_CASE("results are chained until the first failure")
{
    CHECK(half(8).and_then(half).value() == 2);
    CHECK(half(6).and_then(half).error().sentence == "3 is odd");
    CHECK(evenOnly(4).has_value());
}
