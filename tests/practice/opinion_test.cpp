// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/opinion.h"

#include <catch2/catch.hpp>

using namespace loopside::practice;

TEST_CASE("an opinion comes back from its text")
{
    for (const ThoughtNature& nature : thoughts()) {
        const Opinion opinion{nature.thought, nature.place == FaultPlace::Whole ? 0 : 2};
        CHECK(opinionOf(textOf(opinion)) == opinion);
    }
}

TEST_CASE("a text that is no opinion is none")
{
    const auto* text = GENERATE("", "gauge-stuck", "gauge-stuck 0", "gauge-stuck2", "gauge-stuck 22", "cold-oil 1",
                                "x");
    CHECK_FALSE(opinionOf(text).has_value());
}

TEST_CASE("every spot has a name that finds it")
{
    for (const auto name : spotNames()) {
        CHECK(spotNamed(name).has_value());
    }
    CHECK_FALSE(spotNamed("roof").has_value());
}
