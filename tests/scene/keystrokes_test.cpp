// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "keystrokes.h"

#include "stage.h"

#include <catch2/catch.hpp>

using namespace loopside;

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
