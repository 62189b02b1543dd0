// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a tag reader says on each page. The demo site's plates and carts stand in assets/demo/site.json.

#include "app_bench.h"

#include <catch2/catch.hpp>

namespace loopside::test {

namespace {

using Page = app::AppView::Page;

/// A tank of the site that has a plate, and the next one with another.
struct TwoTanks
{
    explicit TwoTanks(const app::Site& site)
    {
        for (std::size_t i = 0; i < site.tanks.size(); ++i) {
            if (site.plates.contains(site.tanks[i].name)) {
                (first < 0 ? first : second) = static_cast<int>(i);
            }
        }
    }

    int first = -1;
    int second = -1;
};

QString plateOf(const app::Site& site, int tank)
{
    return QString::fromStdString(site.plates.at(site.tanks[static_cast<std::size_t>(tank)].name));
}

struct TagBench : AppBench
{
    TagBench() { REQUIRE(tanks.second >= 0); }

    const app::Site& site = tablet().site();
    TwoTanks tanks{site};
};

} // namespace

TEST_CASE("on the shift page a tank's tag begins a set-up for that tank, whatever the case of its letters")
{
    TagBench bench;
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.second).toLower());
    CHECK(bench.app()->page() == Page::SetUp);
    CHECK(bench.app()->setup()->tanks()->rows().at(bench.tanks.second).last().toBool());
    bench.app()->takeTag(QString::fromStdString(bench.site.carts.front().cart.name));
    CHECK(bench.app()->setup()->carts()->rows().at(0).last().toBool());
    CHECK(bench.entries(QStringLiteral("run-opened")) == 0);
}

TEST_CASE("at the tank of the run its tag is logged, at another tank it is asked whether this is the right one")
{
    TagBench bench;
    const auto setupAt = [&](int tank) {
        const auto& cart = bench.site.carts.front();
        return run::Setup{.title = {},
                          .tank = bench.site.tanks[static_cast<std::size_t>(tank)],
                          .cart = cart.cart,
                          .stages = cart.stages};
    };
    REQUIRE(bench.tablet().openRun(setupAt(bench.tanks.first)));
    bench.app()->showRun(0);
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.first));
    CHECK(bench.lastBody(QStringLiteral("kept")).contains(plateOf(bench.site, bench.tanks.first)));
    CHECK(bench.app()->trouble().isEmpty());
    const int before = bench.entries(QStringLiteral("kept"));
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.second));
    CHECK(bench.app()->trouble().contains(QStringLiteral("right tank")));
    CHECK(bench.entries(QStringLiteral("kept")) == before);
    CHECK(bench.app()->page() == Page::Run);
    bench.app()->dismissTrouble();
    bench.app()->showShift();
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.first));
    CHECK(bench.app()->page() == Page::Run); // the run that is open there
}

TEST_CASE("a tag that nobody knows is told and changes nothing")
{
    TagBench bench;
    bench.app()->takeTag(QStringLiteral("4006381333931"));
    CHECK(bench.app()->trouble().contains(QStringLiteral("4006381333931")));
    CHECK(bench.app()->page() == Page::Shift);
    CHECK(bench.entries(QStringLiteral("kept")) == 0);
}

} // namespace loopside::test
