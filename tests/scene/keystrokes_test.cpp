// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "keystrokes.h"

#include "stage.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;

TEST_CASE("every task that is counted leaves in the journal what it is about")
{
    struct Left
    {
        const char* task; ///< How its name begins.
        const char* kind; ///< Of the entry.
        const char* holds;
    };
    const auto [name, kind, holds] = GENERATE(
        Left{"put a gauge", "amended", "83"}, Left{"log what is seen", "signs-seen", "leak"},
        Left{"keep a note", "noted", "sticks"}, Left{"stock", "stock-moved", "12"},
        Left{"change a record", "tank-put", "740 L"}, Left{"import", "tank-put", "Alcove pump"},
        Left{"plan a job", "job-put", "WO 4711"}, Left{"plan a flush", "flush-opened", "1.5 L"});
    CAPTURE(name);
    scene::theProgram();
    const auto& all = scene::tasks();
    const auto task = std::ranges::find_if(all, [&](const scene::Task& one) { return one.name.starts_with(name); });
    REQUIRE(task != all.end());
    test::Bench bench;
    scene::Hand hand(bench);
    task->prepare(hand);
    CHECK_FALSE(bench.lastBody(QLatin1String(kind)).contains(QLatin1String(holds)));
    task->perform(hand);
    CHECK(bench.lastBody(QLatin1String(kind)).contains(QLatin1String(holds)));
}

TEST_CASE("a reading takes no more than nine touches and ten seconds in the common case")
{
    scene::theProgram();
    const scene::Task& reading = scene::tasks().front();
    test::Bench bench;
    scene::Hand hand(bench);
    reading.prepare(hand);
    const int before = bench.entries(QStringLiteral("reading-logged"));
    static_cast<void>(hand.take());
    reading.perform(hand);
    CHECK(bench.entries(QStringLiteral("reading-logged")) == before + 1);
    CHECK(bench.lastBody(QStringLiteral("reading-logged"))
          == QStringLiteral(R"({"gauges":["38","24","18"],"oil":"55 °C"})"));
    const auto touches = hand.take();
    CHECK(touches.size() <= 9);
    CHECK(scene::secondsOf(touches) <= 10.0);
}
