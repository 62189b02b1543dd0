// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "app_bench.h"

#include <QRegularExpression>

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

int rowOf(const app::ServiceView& service, const char* name)
{
    const auto& rows = const_cast<app::ServiceView&>(service).alerts()->rows();
    for (int row = 0; row < rows.size(); ++row) {
        if (rows[row][0].toString() == text(name)) {
            return row;
        }
    }
    return -1;
}

} // namespace

TEST_CASE("an alert leaves service with a reason, is not raised then, and comes back")
{
    AppBench bench;
    bench.playScene(QStringLiteral("valve-in-bypass"));
    app::ServiceView& service = *bench.app()->service();
    const int overdue = rowOf(service, "Reading late");
    REQUIRE(overdue >= 0);
    service.press(overdue);
    CHECK(service.asked() == text("Reading late"));
    CHECK(bench.entries(QStringLiteral("alert-serviced")) == 0); // the reason is asked first
    service.because(0);
    CHECK(bench.lastBody(QStringLiteral("alert-serviced"))
          == text(R"({"alert":"reading-overdue","in_service":false,"why":"Readings are kept on paper"})"));
    CHECK(service.alerts()->rows()[overdue][2].toBool());
    CHECK(service.alerts()->rows()[overdue][1].toString().contains(text("Ines: Readings are kept on paper")));
    const int raised = bench.entries(QStringLiteral("alert-raised"));
    bench.pass(3600);
    CHECK(bench.entries(QStringLiteral("alert-raised")) == raised);
    service.press(overdue);
    CHECK(bench.lastBody(QStringLiteral("alert-serviced")).contains(text(R"("in_service":true)")));
    bench.pass(2);
    CHECK(bench.entries(QStringLiteral("alert-raised")) == raised + 1);
}

TEST_CASE("stop-now and the change limit stay in service, and the page says why")
{
    AppBench bench;
    bench.playScene(QStringLiteral("valve-in-bypass"));
    app::ServiceView& service = *bench.app()->service();
    for (const char* name : {"A stage at its change limit", "Stop the pump now"}) {
        const int row = rowOf(service, name);
        REQUIRE(row >= 0);
        CHECK_FALSE(service.alerts()->rows()[row][3].toBool());
        CHECK(service.alerts()->rows()[row][1].toString().contains(text("it warns of danger to people")));
        service.press(row);
        CHECK(service.asked().isEmpty());
    }
    CHECK(bench.entries(QStringLiteral("alert-serviced")) == 0);
}

TEST_CASE("an alert out of service is told on the line, and as no alert")
{
    AppBench bench;
    const auto& site = bench.tablet().site();
    REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
    app::ServiceView& service = *bench.app()->service();
    service.press(0);
    service.because(1);
    CHECK(bench.app()->run()->lineLevel() == text("note"));
    CHECK(bench.app()->run()->lineText().contains(text("out of service")));
    CHECK(bench.app()->chips()->rows()[0][2].toString() == text("ok"));
}

TEST_CASE("which run the alerts are of is told, and that none is open on the screen")
{
    AppBench bench;
    app::ServiceView& service = *bench.app()->service();
    CHECK_FALSE(service.canChange());
    CHECK(service.about() == bench.tablet().label("app.service.no-run"));
    bench.playScene(QStringLiteral("valve-in-bypass"));
    CHECK(service.canChange());
    CHECK(service.about().contains(QString::fromStdString(bench.tablet().shown()->setup.tank.name)));
    REQUIRE(bench.tablet().submit(run::CloseRun{bench.tablet().shown()->id, run::Ending::StoppedEarly, "shift over"}));
    CHECK_FALSE(service.canChange());
}

TEST_CASE("the settings tell the program's version and its licence")
{
    AppBench bench;
    bench.app()->showSettings();
    CHECK(bench.app()->page() == app::AppView::Page::Settings);
    const auto& rows = bench.app()->about()->rows();
    REQUIRE(rows.size() == 2);
    CHECK(rows[0][1].toString().contains(QRegularExpression(QStringLiteral("^Loopside \\d+\\.\\d+\\.\\d+$"))));
    CHECK(rows[1][1].toString().contains(QStringLiteral("version 3 or later")));
}
