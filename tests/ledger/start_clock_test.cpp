// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/start_clock.h"

#include "ledger/memory_journal.h"
#include "ledger/recorder.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::ledger;
using namespace loopside::test;

TEST_CASE("a start with a clock that cannot be right by the last entry is told, with both times")
{
    MemoryJournal journal;
    const auto noticeAt = [&](std::int64_t wallMs) { return clockNotice(journal, {wallMs, 120, 0, {}}).value(); };
    CHECK(noticeAt(0).id.empty()); // nothing to hold it against
    REQUIRE(journal.append(Recorder(1).chainOf(3)));
    const std::int64_t last =
        allOf(journal).back().entry.header.entered.wallMs; // 2025-07-08T07:06:44Z, as date -u says
    CHECK(noticeAt(last).id.empty());
    CHECK(noticeAt(last - startBehindMs).id.empty());
    CHECK(noticeAt(last + startAheadMs).id.empty());
    CHECK(noticeAt(last - startBehindMs - 1).id == "clock-at-start");
    CHECK(noticeAt(last + startAheadMs + 1).id == "clock-at-start");
    const Message wrongYear = noticeAt(0);
    CHECK(wrongYear.id == "clock-at-start");
    CHECK(wrongYear.arguments
          == std::vector<Message::Argument>{{"now", "1970-01-01 00:00 UTC"}, {"last", "2025-07-08 07:06 UTC"}});
}
