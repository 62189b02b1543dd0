// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "story/story.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::story;

TEST_CASE("a time is hours, minutes and seconds since the first entry, and hours may pass 24")
{
    CHECK(timeFrom("00:00:00").value() == run::RunTime{0});
    CHECK(timeFrom("01:02:03").value() == run::RunTime{3'723'000});
    CHECK(timeFrom("26:00:00").value() == std::chrono::hours(26));
    const auto odd = GENERATE(as<std::string>{}, "", "1:2:3", "00:60:00", "00:00:60", "-1:00:00", "00:00",
                              "00:00:00:00", "0a:00:00", "00:0 :00", "99999999:00:00", "::");
    CAPTURE(odd);
    CHECK_FALSE(timeFrom(odd).has_value());
}

TEST_CASE("a wall time is a moment with its offset")
{
    // 2026-11-05 is 20 762 days after 1970-01-01 (Gregorian calendar, computed elsewhere)
    const WallTime utc = wallTimeFrom("2026-11-05T07:25:00Z").value();
    CHECK(utc.utcMs == (20'762LL * 86'400 + 7 * 3'600 + 25 * 60) * 1000);
    CHECK(utc.offsetMin == 0);
    const WallTime india = wallTimeFrom("2026-11-05T12:55:00+05:30").value();
    CHECK(india.utcMs == utc.utcMs);
    CHECK(india.offsetMin == 330);
    CHECK(wallTimeFrom("2026-11-05T02:25:00-05:00").value().utcMs == utc.utcMs);
    const auto odd = GENERATE(as<std::string>{}, "", "2026-11-05", "2026-11-05T07:25:00", "2026-02-30T07:25:00Z",
                              "2026-11-05T24:25:00Z", "2026-11-05T07:25:00+5:30", "2026-11-05T07:25:00+15:00",
                              "2026-11-05 07:25:00Z", "2026-11-05T07:25:00Zulu", "99999-11-05T07:25:00Z");
    CAPTURE(odd);
    CHECK_FALSE(wallTimeFrom(odd).has_value());
}
