// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/waiting_alerts.h"
#include "app_bench.h"
#include "held.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

TEST_CASE("a change limit in cold oil offers no change of elements")
{
    AppBench bench;
    bench.playScene(QStringLiteral("cold-oil"));
    const app::AlertView& alert = *bench.app()->alert();
    REQUIRE(alert.isUp());
    CHECK(alert.level() == text("change"));
    CHECK_FALSE(alert.offersChange());
    CHECK(alert.steps().isEmpty());
    CHECK(alert.advice().contains(text("The elements are not loaded.")));
    CHECK(alert.evidence().contains(held("35~psi"))); // the limit of stage 2
    CHECK(alert.evidence().contains(text("by Ines")));
}

TEST_CASE("bypass set in cold oil is kept and acknowledges the limit, and nothing else offers it")
{
    AppBench bench;
    bench.playScene(QStringLiteral("cold-oil"));
    app::AlertView& alert = *bench.app()->alert();
    REQUIRE(alert.offersBypass());
    alert.bypassed();
    CHECK_FALSE(alert.isUp());
    CHECK(bench.lastBody(QStringLiteral("mode-changed")) == text(R"({"mode":"bypassing"})"));
    CHECK(bench.app()->run()->mode() == text("bypassing"));
    CHECK(bench.app()->page() == app::AppView::Page::Run);
    bench.begin();
    bench.playScene(QStringLiteral("torn"));
    REQUIRE(bench.app()->alert()->isUp());
    CHECK_FALSE(bench.app()->alert()->offersBypass());
    const int modes = bench.entries(QStringLiteral("mode-changed"));
    bench.app()->alert()->bypassed();
    CHECK(bench.entries(QStringLiteral("mode-changed")) == modes);
}

TEST_CASE("a full disk leaves a limit in cold oil up")
{
    AppBench bench;
    bench.playScene(QStringLiteral("cold-oil"));
    bench.breakDisk(true);
    bench.app()->alert()->bypassed();
    CHECK(bench.app()->alert()->isUp());
}

TEST_CASE("stop-now tells its finding, why, what to do and what to mind")
{
    AppBench bench;
    bench.playScene(QStringLiteral("torn"));
    const app::AlertView& alert = *bench.app()->alert();
    REQUIRE(alert.isUp());
    CHECK(alert.level() == text("stop"));
    CHECK(alert.place() == text("Calender hydraulic unit") + QStringLiteral(" · ") + text("Cart D"));
    CHECK(alert.title().contains(text("Stage 2 is leaking or bypassed")));
    CHECK(alert.evidence().contains(held("fell from 34.0~psi to 5.0~psi"))); // 39 - 5, then 10 - 5
    CHECK(alert.advice().startsWith(text("Stop.")));
    CHECK(alert.caution().contains(text("site procedure")));
    CHECK_FALSE(alert.offersChange());
}

TEST_CASE("that the pump was stopped is kept, and acknowledges stop-now")
{
    AppBench bench;
    bench.playScene(QStringLiteral("no-flow"));
    const int modes = bench.entries(QStringLiteral("mode-changed"));
    bench.app()->alert()->stopped();
    CHECK_FALSE(bench.app()->alert()->isUp());
    CHECK(bench.entries(QStringLiteral("mode-changed")) == modes + 1);
    CHECK(bench.lastBody(QStringLiteral("mode-changed")).contains(text("stopped")));
    CHECK(bench.app()->run()->mode() == text("stopped"));
    CHECK(bench.app()->page() == app::AppView::Page::Run);
    bench.app()->run()->answer(text("yes")); // to whether the jump is what the gauges show
    CHECK(bench.app()->run()->lineText() == text("No oil moves. Find out why before the pump runs again."));
}

TEST_CASE("why the pump was to be stopped can still be read when it has been")
{
    AppBench bench;
    bench.playScene(QStringLiteral("dead-headed"));
    const QString evidence = bench.app()->alert()->evidence();
    bench.app()->alert()->stopped();
    bench.app()->run()->answer(text("yes")); // to whether the jump is what the gauges show
    REQUIRE(bench.app()->run()->lineHasReasons());
    REQUIRE(bench.app()->run()->findings()->rowCount() > 0);
    const app::RowModel::Row& first = bench.app()->run()->findings()->rows().first();
    CHECK(first[0] == text("stop"));
    CHECK(first[1].toString().startsWith(text("Seen before the stop: ")));
    CHECK_FALSE(first[2].toString().isEmpty()); // what to do
    CHECK_FALSE(first[3].toString().isEmpty()); // the caution
    REQUIRE_FALSE(first[4].toString().isEmpty());
    CHECK(evidence.startsWith(first[4].toString().section(QLatin1Char('\n'), 0, 0)));
}

TEST_CASE("the reasons of a stop are over with the next readings")
{
    AppBench bench;
    bench.playScene(QStringLiteral("no-flow"));
    bench.app()->alert()->stopped();
    bench.app()->run()->answer(text("yes")); // to whether the jump is what the gauges show
    REQUIRE(bench.app()->run()->findings()->rows().first()[1].toString().startsWith(text("Seen before the stop: ")));
    REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt})));
    REQUIRE(bench.tablet().say(setOf({23, 17, 5}, "32 C")));
    for (const app::RowModel::Row& row : bench.app()->run()->findings()->rows()) {
        CHECK_FALSE(row[1].toString().startsWith(text("Seen before the stop: ")));
    }
}

TEST_CASE("a full disk leaves stop-now up")
{
    AppBench bench;
    bench.playScene(QStringLiteral("no-flow"));
    bench.breakDisk(true);
    bench.app()->alert()->stopped();
    CHECK(bench.app()->alert()->isUp());
    CHECK(bench.app()->trouble().contains(text("disk is full")));
}

TEST_CASE("running on in spite of stop-now wants a reason that fits")
{
    AppBench bench;
    bench.playScene(QStringLiteral("return-off"));
    app::AlertView& alert = *bench.app()->alert();
    alert.keepRunning();
    CHECK(alert.asksWhy());
    CHECK(alert.isUp());
    CHECK(alert.reasons()->rows().first().first().toString().contains(text("Misread")));
    alert.because(1);
    CHECK_FALSE(alert.isUp());
    CHECK(bench.lastBody(QStringLiteral("alert-acknowledged")).contains(text("I looked")));
    CHECK(bench.app()->run()->mode() == text("filtering"));
}

TEST_CASE("of two alerts stop-now goes first, and says that another waits")
{
    AppBench bench;
    bench.playScene(QStringLiteral("no-flow"));
    const run::RunState* stopped = bench.tablet().shown();
    REQUIRE(bench.app()->alert()->moreText().isEmpty());
    // A second run, shown, at its change limit: it stands behind the stop-now of the first.
    auto setup = stopped->setup;
    setup.tank.name = "Second tank";
    REQUIRE(bench.tablet().openRun(setup));
    REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt})));
    bench.pass(120);
    REQUIRE(bench.tablet().say(setOf({91, 68, 21}, "8 C")));
    const app::AlertView& alert = *bench.app()->alert();
    CHECK(alert.level() == text("stop"));
    CHECK(alert.moreText().contains(text("Second tank")));
    bench.app()->alert()->stopped();
    CHECK(alert.isUp());
    CHECK(alert.level() == text("change"));
}

TEST_CASE("stop-now whose ground is over still wants to be looked at, and cannot be silenced")
{
    AppBench bench;
    bench.playScene(QStringLiteral("no-flow"));
    REQUIRE(bench.tablet().say(setOf({23, 17, 5}, "32 C")));
    const app::AlertView& alert = *bench.app()->alert();
    const auto waiting = app::waitingAlerts(bench.tablet().state(), Id{});
    REQUIRE(alert.isUp());
    REQUIRE(waiting.front().alert->id == run::AlertId::StopNow);
    if (waiting.front().alert->state == run::AlertState::Returned) {
        CHECK(alert.title() == text("No oil moves"));
        CHECK(alert.evidence().contains(text("do not show it any more")));
        CHECK_FALSE(alert.canBeSilenced());
        bench.app()->alert()->because(0);
        CHECK_FALSE(alert.isUp());
    }
}
