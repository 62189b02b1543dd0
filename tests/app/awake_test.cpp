// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/awake.h"

#include "app_bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

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
    [[nodiscard]] std::optional<double> brightness() const override
    {
        return canBeRead ? std::optional(light) : std::nullopt;
    }
    bool setBrightness(double share) override
    {
        light = share;
        return true;
    }

    bool isWilling = true;
    bool isOn = false;
    int asked = 0;
    bool canBeRead = true;
    double light = 0.6; ///< As somebody set it.
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

TEST_CASE("without open work nobody's brightness is changed, whatever the theme")
{
    AppBench bench;
    NotedDisplay display;
    {
        app::Awake awake(bench.tablet(), display);
        for (const char* theme : {"day", "night", "sun"}) {
            awake.setTheme(QString::fromLatin1(theme));
            CHECK(display.light == 0.6);
        }
    }
    CHECK(display.light == 0.6);
}

TEST_CASE("while a run is open the night theme dims the display, the others brighten it, then it is as it was found")
{
    AppBench bench;
    NotedDisplay display;
    app::Awake awake(bench.tablet(), display);
    awake.setTheme(QStringLiteral("day"));
    bench.playScene(QStringLiteral("valve-in-bypass"));
    CHECK(display.light == 1.0);
    awake.setTheme(QStringLiteral("night"));
    CHECK(display.light < 0.5);
    awake.setTheme(QStringLiteral("sun"));
    CHECK(display.light == 1.0);
    REQUIRE(bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::StoppedEarly, "shift over"}));
    CHECK(display.light == 0.6);
    awake.setTheme(QStringLiteral("night"));
    CHECK(display.light == 0.6);
}

TEST_CASE("at the end of the program the brightness is as it was found")
{
    AppBench bench;
    NotedDisplay display;
    bench.playScene(QStringLiteral("valve-in-bypass"));
    {
        app::Awake awake(bench.tablet(), display);
        awake.setTheme(QStringLiteral("night"));
        CHECK(display.light < 0.5);
    }
    CHECK(display.light == 0.6);
}

TEST_CASE("what somebody set during a run stays, between entries and at the end")
{
    AppBench bench;
    NotedDisplay display;
    bench.playScene(QStringLiteral("valve-in-bypass"));
    app::Awake awake(bench.tablet(), display);
    awake.setTheme(QStringLiteral("day"));
    display.light = 0.4;
    bench.tablet().say(run::Said(run::Noted{"a word"}));
    CHECK(display.light == 0.4);
    REQUIRE(bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::StoppedEarly, "shift over"}));
    CHECK(display.light == 0.4);
}

TEST_CASE("a brightness that cannot be read, and so not put back, is not changed")
{
    AppBench bench;
    NotedDisplay display;
    display.canBeRead = false;
    bench.playScene(QStringLiteral("valve-in-bypass"));
    app::Awake awake(bench.tablet(), display);
    awake.setTheme(QStringLiteral("night"));
    CHECK(display.light == 0.6);
}

TEST_CASE("an exercise lights and keeps the display as a run does")
{
    AppBench bench;
    NotedDisplay display;
    app::Awake awake(bench.tablet(), display);
    awake.setTheme(QStringLiteral("night"));
    awake.setPractising(true);
    CHECK(display.isOn);
    CHECK(display.light < 0.5);
    awake.setPractising(false);
    CHECK_FALSE(display.isOn);
    CHECK(display.light == 0.6);
}
