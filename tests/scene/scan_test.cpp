// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A bar-code reader types what it reads: into the real window, as quickly as readers do, and slowly as a person does.

#include "app/scan_filter.h"
#include "hand.h"
#include "stage.h"

#include <QQuickWindow>
#include <QTest>

#include <catch2/catch.hpp>

using namespace loopside;

namespace {

/// The window with the filter in front of it, as the program sets it up.
struct Reader
{
    Reader() : bench{(scene::theProgram(), nullptr)}
    {
        bench.begin();
        window = std::make_unique<app::Window>(*bench.app());
        window->window()->installEventFilter(&filter);
        QObject::connect(&filter, &app::ScanFilter::scanned, bench.app(), &app::AppView::takeTag);
    }

    void type(const std::string& signs, int pauseMs)
    {
        for (const char sign : signs) {
            QTest::keyClick(window->window(), sign);
            QTest::qWait(pauseMs);
        }
    }
    void enter() { QTest::keyClick(window->window(), Qt::Key_Return); }

    /// A run at the tank that has the first plate of the site.
    void openRun()
    {
        const app::Site& site = bench.tablet().site();
        const auto tank = std::ranges::find_if(
            site.tanks, [&](const run::TankRecord& one) { return site.plates.contains(one.name); });
        plate = site.plates.at(tank->name);
        run::Setup setup{tank->name, *tank, site.carts[0].cart, site.carts[0].stages, {}};
        REQUIRE(bench.tablet().openRun(setup));
        bench.app()->backToRun();
        QTest::qWait(50);
    }

    test::Bench bench;
    app::ScanFilter filter;
    std::unique_ptr<app::Window> window;
    std::string plate;
};

constexpr int readerMs = 2;
constexpr int personMs = 60;

} // namespace

TEST_CASE("the tag of the run's tank is logged from the window, and no sign of it gets into a gauge's field")
{
    Reader reader;
    reader.openRun();
    REQUIRE(reader.plate.size() >= 4);
    reader.type(reader.plate, readerMs);
    reader.enter();
    QTest::qWait(80);
    CHECK(reader.bench.lastBody(QStringLiteral("kept")).toStdString().find(reader.plate) != std::string::npos);
    CHECK(reader.bench.app()->pad()->fields()->rows().at(0).at(1).toString().isEmpty());
    CHECK(reader.bench.entries(QStringLiteral("reading-logged")) == 0);
}

TEST_CASE("digits that a person types into the window get into the field, each of them")
{
    Reader reader;
    reader.openRun();
    reader.type("145", personMs);
    QTest::qWait(80);
    CHECK(reader.bench.app()->pad()->fields()->rows().at(0).at(1).toString() == QStringLiteral("145"));
}

TEST_CASE("on the shift the tag of a tank begins a set-up for it")
{
    Reader reader;
    const app::Site& site = reader.bench.tablet().site();
    REQUIRE_FALSE(site.plates.empty());
    reader.type(site.plates.begin()->second, readerMs);
    reader.enter();
    QTest::qWait(80);
    CHECK(reader.bench.app()->page() == app::AppView::Page::SetUp);
}
