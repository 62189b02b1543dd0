// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A tablet that was found in a drawer, a run still open on it: the window stands at once, however long that was.

#include "app/window.h"
#include "bench.h"
#include "stage.h"

#include <QQuickItem>
#include <QQuickWindow>

#include <catch2/catch.hpp>

using namespace loopside;

namespace {

int itemsIn(const QQuickItem& item)
{
    int count = 1;
    for (const QQuickItem* child : item.childItems()) {
        count += itemsIn(*child);
    }
    return count;
}

/// A run that filters with one set logged, of which nothing can be foreseen.
void logOneSet(test::Bench& bench)
{
    const app::Site& site = bench.tablet().site();
    REQUIRE(bench.tablet().openRun({"", site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
    bench.tablet().say(run::Said(run::ModeChanged{run::Mode::Filtering, std::nullopt}));
    const auto number = [](int value) { return run::GaugeTyped{Decimal(value, 0), std::nullopt}; };
    const auto oil = run::TypedTemperature::parse("30 C");
    bench.tablet().say(
        run::Said(run::ReadingLogged{{number(150), number(110), number(40)}, nullptr, *oil, std::nullopt}));
}

int itemsAfterDaysOff(int days)
{
    scene::theProgram();
    test::Bench bench;
    bench.begin();
    logOneSet(bench);
    bench.leaveOff(days);
    bench.app()->backToRun();
    const app::Window window(*bench.app());
    REQUIRE(window.window() != nullptr);
    REQUIRE_FALSE(window.window()->grabWindow().isNull());
    return itemsIn(*window.window()->contentItem());
}

} // namespace

TEST_CASE("a window over a run that was left open for a year has no more in it than over one of yesterday")
{
    const int yesterday = itemsAfterDaysOff(1);
    CHECK(yesterday > 100);
    CHECK(itemsAfterDaysOff(400) < yesterday + 50);
}
