// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/awake.h"

#include "app_bench.h"

#include <catch2/catch.hpp>

namespace loopside::test {

namespace {

/// A display that notes what it is told.
class NotedDisplay final : public app::Display
{
public:
    bool keepOn(const QString& why) override
    {
        isOn = isWilling;
        asked += why.isEmpty() ? 0 : 1;
        return isWilling;
    }
    void letSleep() override { isOn = false; }
    bool setBrightness(double share) override
    {
        brightness = share;
        return true;
    }

    bool isWilling = true;
    bool isOn = false;
    int asked = 0;
    double brightness = -1.0;
};

} // namespace

TEST_CASE("the display stays on while a run is open and may sleep afterwards")
{
    AppBench bench;
    NotedDisplay display;
    app::Awake awake(bench.tablet(), display);
    CHECK_FALSE(display.isOn);
    bench.playScene(QStringLiteral("valve-in-bypass"));
    CHECK(display.isOn);
    CHECK(display.asked == 1); // once, not with every entry
    const Id run = bench.tablet().shown()->id;
    REQUIRE(bench.tablet().submit(run::CloseRun{run, run::Ending::StoppedEarly, "shift over"}));
    CHECK_FALSE(display.isOn);
}

TEST_CASE("a job keeps the display on as a run does")
{
    AppBench bench;
    NotedDisplay display;
    app::Awake awake(bench.tablet(), display);
    REQUIRE(bench.tablet().openJob(run::FlushOpened{
        .cart = "Cart C", .toFluid = "ISO VG 220 gear", .left = run::TypedVolume::parse("1.5 L").value()}));
    CHECK(display.isOn);
}

TEST_CASE("where the system does not let it, it is asked again with the next entry, and the program goes on")
{
    AppBench bench;
    NotedDisplay display;
    display.isWilling = false;
    app::Awake awake(bench.tablet(), display);
    bench.playScene(QStringLiteral("valve-in-bypass"));
    CHECK(display.asked > 1);
    display.isWilling = true;
    bench.tablet().say(run::Said(run::Noted{"a word"}));
    CHECK(display.isOn);
}

TEST_CASE("the display sleeps again when the program ends")
{
    AppBench bench;
    NotedDisplay display;
    bench.playScene(QStringLiteral("valve-in-bypass"));
    {
        app::Awake awake(bench.tablet(), display);
        CHECK(display.isOn);
    }
    CHECK_FALSE(display.isOn);
}

TEST_CASE("the night theme dims the display, the others brighten it")
{
    AppBench bench;
    NotedDisplay display;
    app::Awake awake(bench.tablet(), display);
    awake.setTheme(QStringLiteral("night"));
    CHECK(display.brightness < 0.5);
    awake.setTheme(QStringLiteral("sun"));
    CHECK(display.brightness == 1.0);
}

} // namespace loopside::test
