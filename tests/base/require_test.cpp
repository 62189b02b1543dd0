// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/require.h"

#include "support/death.h"

#include <catch2/catch.hpp>

using loopside::require;
using loopside::support::lastWords;

TEST_CASE("a broken rule of the program stops it with the rule, the file and the line")
{
    const auto words = lastWords([] { require(1 > 2, "one is less than two"); });
    constexpr int line = __LINE__ - 1;
    REQUIRE(words);
    CHECK(words->find("one is less than two") != std::string::npos);
    CHECK(words->find("require_test.cpp:" + std::to_string(line)) != std::string::npos);
}

TEST_CASE("a rule that holds stops nothing and says nothing")
{
    CHECK_FALSE(lastWords([] { require(1 < 2, "one is less than two"); }));
}
