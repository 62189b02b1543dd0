// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app/caution_text.h"

#include "app_bench.h"
#include "held.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

/// A run at the second tank of the site, closed after its oil was read.
void readHotOil(AppBench& bench)
{
    bench.playScene(text("valve-in-bypass"));
    const Id scene = bench.tablet().shown()->id;
    run::Setup setup = bench.tablet().shown()->setup;
    setup.tank.name = bench.tablet().site().tanks[1].name;
    REQUIRE(bench.tablet().openRun(setup));
    REQUIRE(bench.tablet().say(setOf({20, 14, 4}, "67 °C")));
    for (const Id& run : {scene, bench.tablet().shown()->id}) {
        REQUIRE(bench.tablet().submit(run::CloseRun{run, run::Ending::StoppedEarly, "shift over"}));
    }
}

} // namespace

TEST_CASE("a caution gives way to the site's procedure once, at its end, whatever else is known")
{
    AppBench bench;
    const QString procedure = bench.tablet().label("caution.rule.site");
    const run::Circumstances all{.oil = run::TypedTemperature::parse("70 °C").value(), .clicks = true, .leaks = true};
    for (const run::Act act : run::acts) {
        for (const run::Circumstances& known : {run::Circumstances{}, all}) {
            const QString told = app::cautionText(bench.tablet(), act, known);
            CAPTURE(told.toStdString());
            CHECK(told.count(procedure) <= 1);
            CHECK((told.count(procedure) == 0 || told.endsWith(procedure)));
        }
    }
}

TEST_CASE("a flush has the cautions of coupling, of pumping, of uncoupling")
{
    AppBench bench;
    app::FlushView& flush = *bench.app()->flush();
    flush.open();
    CHECK(flush.caution().contains(bench.tablet().label("caution.hose-pressure")));
    flush.chooseCart(0);
    flush.chooseFluid(1);
    for (int field = 0; field < 2; ++field) {
        flush.fields()->select(field);
        flush.fields()->key(QStringLiteral("9"));
    }
    flush.chooseWanted(0);
    flush.chooseApprover(0);
    flush.goOn();
    REQUIRE(flush.phase() == app::FlushView::Phase::Flushing);
    CHECK(flush.caution().contains(bench.tablet().label("caution.attended")));
    CHECK(flush.caution().contains(bench.tablet().label("caution.mist")));
    flush.close(true);
    CHECK(flush.caution().contains(bench.tablet().label("caution.uncouple")));
}

TEST_CASE("a transfer tells of hot oil that was read at its tank not long ago, and of no other")
{
    const auto [minutes, tank, isTold] = GENERATE(
        table<int, int, bool>({{0, 1, true}, {239, 1, true}, {241, 1, false}, {0, 0, false}}));
    CAPTURE(minutes, tank);
    AppBench bench;
    readHotOil(bench);
    bench.pass(minutes * 60);
    bench.app()->transfer()->chooseTank(tank);
    CHECK(bench.app()->transfer()->caution().contains(held("67~°C")) == isTold);
}

TEST_CASE("a caution that stands in the line above is not told twice, and the rules that it yields to are")
{
    AppBench bench;
    const app::Site& site = bench.tablet().site();
    const auto& [cart, stages] = site.carts.front();
    REQUIRE(bench.tablet().openRun({.title = {}, .tank = site.tanks.front(), .cart = cart, .stages = stages}));
    REQUIRE(bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt})));
    bench.pass(120);
    REQUIRE(bench.tablet().say(setOf({145, 110, 40}, "24 °C")));
    REQUIRE(bench.tablet().say(run::Said(run::SignsSeen{{"clicking"}})));
    REQUIRE(bench.tablet().say(setOf({145, 110, 40}, "24 °C")));
    const app::RunView& run = *bench.app()->run();
    CAPTURE(run.lineText().toStdString(), run.caution().toStdString());
    REQUIRE(run.lineText().contains(text("Clicking")));
    CHECK_FALSE(run.caution().contains(bench.tablet().label("caution.clicking")));
    CHECK(run.caution().contains(bench.tablet().label("caution.rule.tell")));
    CHECK(run.caution().endsWith(bench.tablet().label("caution.rule.site")));
}
