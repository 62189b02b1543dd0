// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a tag reader says on each page. The demo site's plates and carts stand in assets/demo/site.json.

#include "app_bench.h"
#include "ledger/tank_look.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

using Page = app::AppView::Page;

const QString kept = QStringLiteral("kept");

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

    /// A run at that tank, on the screen.
    void openRunAt(int tank) const
    {
        const auto& cart = site.carts.front();
        REQUIRE(tablet().openRun({.title = {},
                                  .tank = site.tanks[static_cast<std::size_t>(tank)],
                                  .cart = cart.cart,
                                  .stages = cart.stages}));
        app()->go(Page::Run);
    }

    [[nodiscard]] QString nameOf(int tank) const
    {
        return QString::fromStdString(site.tanks[static_cast<std::size_t>(tank)].name);
    }

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

TEST_CASE("at the tank of the run its tag is logged, and the run is found again by it")
{
    TagBench bench;
    bench.openRunAt(bench.tanks.first);
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.first));
    CHECK(bench.lastBody(QStringLiteral("kept")).contains(plateOf(bench.site, bench.tanks.first)));
    CHECK(bench.app()->trouble().isEmpty());
    bench.app()->showShift();
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.first));
    CHECK(bench.app()->page() == Page::Run); // the run that is open there
}

TEST_CASE("the tag of another tank takes the screen of an open run until somebody says where the cart is")
{
    TagBench bench;
    bench.openRunAt(bench.tanks.first);
    const app::OtherTank& other = *bench.app()->otherTank();
    CHECK_FALSE(other.isMismatch());
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.second));
    CHECK(other.isMismatch());
    CHECK(other.wantsReason());
    CHECK(other.mismatchTitle().contains(bench.nameOf(bench.tanks.second)));
    CHECK(other.rightText().contains(bench.nameOf(bench.tanks.first)));
    CHECK(bench.entries(kept) == 0); // nothing is said for anybody
    bench.pass(40);
    bench.app()->otherTank()->goToRight();
    CHECK_FALSE(other.isMismatch());
    CHECK(bench.entries(kept) == 1);
    CHECK(bench.lastBody(kept).contains(QStringLiteral(R"(\"fits\":false)")));
    CHECK(bench.tablet().shown()->setup.tank.name == bench.nameOf(bench.tanks.first).toStdString());
    CHECK(bench.app()->page() == Page::Run);
    CHECK(bench.app()->trouble().isEmpty());
}

TEST_CASE("a run whose cart is at the other tank moves there with a reason, and with none it stays")
{
    TagBench bench;
    bench.openRunAt(bench.tanks.first);
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.second));
    app::OtherTank& other = *bench.app()->otherTank();
    other.askWhy();
    other.goOnBecause(QStringLiteral("  "));
    CHECK(other.isMismatch());
    CHECK(bench.entries(QStringLiteral("run-moved")) == 0);
    other.goOnBecause(other.reasons()->rows()[0][0].toString());
    CHECK_FALSE(other.isMismatch());
    CHECK(bench.entries(QStringLiteral("run-moved")) == 1);
    CHECK(bench.lastBody(QStringLiteral("run-moved")).contains(QStringLiteral("The tanks were mixed up")));
    CHECK(bench.tablet().shown()->setup.tank.name == bench.nameOf(bench.tanks.second).toStdString());
    CHECK(ledger::tankKnown(*bench.tablet().shown()) == run::TankKnown::Once); // by the tag that was read there
    CHECK(bench.compareWithFold().isEmpty());
}

TEST_CASE("a run that moves goes on where the disk refused, and nothing of it is logged twice")
{
    const int logged = GENERATE(0, 1, 2);
    CAPTURE(logged);
    TagBench bench;
    bench.openRunAt(bench.tanks.first);
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.second));
    app::OtherTank& other = *bench.app()->otherTank();
    const QString why = other.reasons()->rows()[0][0].toString();
    bench.breakDiskAfter(logged);
    other.goOnBecause(why);
    CHECK(other.isMismatch());
    CHECK(bench.entries(kept) + bench.entries(QStringLiteral("run-moved")) == logged);
    bench.breakDisk(false);
    other.goOnBecause(why);
    CHECK_FALSE(other.isMismatch());
    CHECK(bench.entries(kept) == 2);
    CHECK(bench.entries(QStringLiteral("run-moved")) == 1);
    CHECK(bench.compareWithFold().isEmpty());
}

TEST_CASE("where a run is open at the other tank it can be shown, and neither of the two is told of a mismatch")
{
    TagBench bench;
    bench.openRunAt(bench.tanks.second);
    const Id there = bench.tablet().shown()->id;
    bench.openRunAt(bench.tanks.first);
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.second));
    app::OtherTank& other = *bench.app()->otherTank();
    CHECK_FALSE(other.wantsReason());
    other.goOnBecause(QString());
    CHECK(bench.tablet().shown()->id == there);
    CHECK(bench.app()->page() == Page::Run);
    CHECK(bench.entries(kept) == 1);
    CHECK(ledger::tankKnown(*bench.tablet().shown()) == run::TankKnown::Once);
}

TEST_CASE("at a changeover and at the bottles a tag does not leave the page by itself")
{
    TagBench bench;
    bench.openRunAt(bench.tanks.first);
    bench.app()->showKit();
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.first));
    CHECK(bench.app()->page() == Page::Kit);
    CHECK(bench.entries(kept) == 1);
    bench.app()->takeTag(plateOf(bench.site, bench.tanks.second));
    CHECK(bench.app()->page() == Page::Kit);
    CHECK(bench.app()->otherTank()->isMismatch());
}

TEST_CASE("a tag that nobody knows is told and changes nothing")
{
    TagBench bench;
    bench.app()->takeTag(QStringLiteral("4006381333931"));
    CHECK(bench.app()->trouble().contains(QStringLiteral("4006381333931")));
    CHECK(bench.app()->page() == Page::Shift);
    CHECK(bench.entries(QStringLiteral("kept")) == 0);
}
