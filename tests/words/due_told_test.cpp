// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/due_told.h"

#include <catch2/catch.hpp>

using namespace loopside;
using std::chrono::hours;
using std::chrono::minutes;

TEST_CASE("the more a reading is late, the less the minutes are told")
{
    const auto words = words::Words::in("en").value();
    CHECK(words::dueText(words, minutes(2)) == "2 min");
    CHECK(words::dueText(words, minutes(0)) == "0 min");
    CHECK(words::dueText(words, minutes(-4)) == "4 min late");
    CHECK(words::lateText(words, hours(2) - minutes(1)) == "119 min");
    CHECK(words::lateText(words, hours(2) + minutes(4)) == "2:04 h");
    CHECK(words::lateText(words, hours(10) - minutes(1)) == "9:59 h");
    CHECK(words::lateText(words, hours(14) + minutes(50)) == "14 h");
}
