// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tables.h"

#include <catch2/catch.hpp>

using namespace loopside;

TEST_CASE("a table is put between its marks and found there")
{
    const std::string document = "before\n<!-- begin sizes -->\nold\n<!-- end sizes -->\nafter\n";
    const auto written = scene::withTable(document, "sizes", "new\n");
    REQUIRE(written);
    CHECK(*written == "before\n<!-- begin sizes -->\nnew\n<!-- end sizes -->\nafter\n");
    CHECK(scene::tableIn(*written, "sizes").value() == "new\n");
    CHECK_FALSE(scene::withTable(document, "colours", "new\n"));
}

TEST_CASE("a task is timed by its touches: thinking before a command, none before a digit")
{
    using scene::Touch;
    // worked by hand from the operators in keystrokes.h
    const std::vector<Touch> touches = {{QStringLiteral("key3"), 0.0, 20.0, true},
                                        {QStringLiteral("key8"), 20.0, 20.0, true},
                                        {QStringLiteral("key8"), 0.0, 20.0, true},
                                        {QStringLiteral("keyMain"), 60.0, 20.0, false}};
    CHECK(scene::operatorsOf(touches) == "H 2P K M P");
    // 0.40 + 0.8 (at once) + (0.8 + 0.1 log2 1.5 = 0.858) + 0.28 + 1.35 + (0.8 + 0.1 log2 3.5 = 0.981)
    CHECK(scene::secondsOf(touches) == Approx(4.669).margin(0.002));
}
