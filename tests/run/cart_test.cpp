// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the journal knows of a cart: the oil it pumped last, and whether waste went through it since its last flush.

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

WasteTransferred waste()
{
    return {.volume = litres("160"), .container = "drum 7", .stream = "used oil"};
}

TransferOpened transfer()
{
    return {.tank = "SP-4",
            .cart = "C1",
            .fluid = "ISO VG 220 gear",
            .family = "gear",
            .capacity = litres("205"),
            .planned = litres("160")};
}

FlushOpened flush()
{
    return {.cart = "C1", .toFluid = "ISO VG 68 gear", .toFamily = "gear", .left = litres("1.5")};
}

bool isMarked(const Walk& walk)
{
    return walk.cart().flushBeforeCleanUse.has_value();
}

State folded(const Walk& walk)
{
    State state;
    for (const Walk::Entry& entry : walk.entries()) {
        state = apply(std::move(state), entry.header, entry.event);
    }
    return state;
}

} // namespace

TEST_CASE("a run leaves its oil in the cart once it pumps, through the filters or not")
{
    CHECK(Walk().cart().lastFluid.empty());
    CHECK(Walk().stoppedAt(1).state().cartOf("C1")->lastFluid.empty());
    for (const Mode mode : {Mode::Filtering, Mode::Bypassing}) {
        const Walk walk = Walk().sayAt(1, ModeChanged{mode});
        CHECK(walk.cart().lastFluid == "ISO VG 46 hydraulic");
        CHECK(walk.cart().lastFamily == "hydraulic");
        CHECK_FALSE(isMarked(walk));
    }
    CHECK(Walk().filteringAt(1).state().cartOf("C2") == nullptr);
}

TEST_CASE("a run on a cart without a name is known of no cart")
{
    Setup setup = ordinary();
    setup.cart.name.clear();
    CHECK(Walk(setup).filteringAt(1).state().carts.empty());
}

TEST_CASE("waste within a run marks the cart, whatever the valve shows, and credits nothing")
{
    const Walk bypassing = Walk().bypassingAt(0).sayAt(8, waste());
    CHECK(isMarked(bypassing));
    CHECK(bypassing.cart().flushBeforeCleanUse->by == bypassing.id());
    CHECK(bypassing.standingAt(8).credit.turnovers == TurnoverBand{});

    const Walk filtering = Walk().filteringAt(0).readingAt(2, "20 14 4").sayAt(4, waste());
    CHECK(isMarked(filtering));
    // 4 min at 20 L/min of 400 L were told as filtering, and count as such
    CHECK_THAT(filtering.standingAt(4).credit.turnovers.best, Catch::WithinAbs(0.2, 1e-9));
    CHECK(std::holds_alternative<WasteTransferred>(filtering.run().facts.back().original));
}

TEST_CASE("waste with volumes that cannot be is refused")
{
    const auto refusalOf = [](const WasteTransferred& what) {
        const Walk walk = Walk().bypassingAt(0);
        const auto decided = walk.attempt(1, Say{walk.id(), what});
        return decided ? "" : decided.error().say.id;
    };
    CHECK(refusalOf(waste()).empty());
    CHECK(refusalOf({.volume = litres("-160")}) == "refused.transfer-moved");
    CHECK(refusalOf({.volume = litres("160"), .capacity = litres("0")}) == "refused.container-capacity");
    CHECK(refusalOf({.volume = litres("160"), .holds = litres("-1")}) == "refused.container-holds");
    CHECK(refusalOf({.volume = litres("160"), .capacity = litres("205"), .holds = typed<units::Volume>("60 gal")})
          == "refused.container-holds-more");
}

TEST_CASE("a transfer that was kept as text by an earlier version marks the cart too")
{
    CHECK(isMarked(Walk().bypassingAt(0).sayAt(8, Kept{"transfer", R"({"volume":"160 L"})"})));
    CHECK_FALSE(isMarked(Walk().bypassingAt(0).sayAt(8, Kept{"tag", R"({"tank":"T1"})"})));
}

TEST_CASE("a transfer leaves its oil in the cart and marks it from the start of the pump")
{
    const Walk walk = Walk().filteringAt(0).openJobAt(5, 1, transfer());
    CHECK(walk.cart().lastFluid == "ISO VG 220 gear");
    CHECK(walk.cart().lastFamily == "gear");
    REQUIRE(isMarked(walk));
    CHECK(walk.cart().flushBeforeCleanUse->by == Walk::idOfJob(1));
    CHECK(walk.cart().flushBeforeCleanUse->since == walk.job(1).opened.entered);
    const Walk twice = Walk(walk).openJobAt(20, 2, transfer());
    CHECK(twice.cart().flushBeforeCleanUse->by == Walk::idOfJob(1)); // since the first
}

TEST_CASE("a flush takes the mark away when it is closed with a batch, not before")
{
    Walk walk = Walk().openJobAt(1, 1, transfer()).openJobAt(10, 2, flush());
    walk.sayOfJobAt(12, 2, FlushBatch{litres("10")});
    CHECK(isMarked(walk));
    walk.sayOfJobAt(15, 2, FlushClosed{true, {}});
    CHECK_FALSE(isMarked(walk));
    CHECK(walk.cart().lastFluid == "ISO VG 68 gear");
    CHECK(walk.cart().lastFamily == "gear");
    CHECK(walk.cart().lastFlush == Walk::idOfJob(2));
    CHECK(isMarked(walk.openJobAt(20, 3, transfer())));
}

TEST_CASE("a flush that was given up without a batch changes nothing about the cart")
{
    const Walk walk =
        Walk().openJobAt(1, 1, transfer()).openJobAt(10, 2, flush()).sayOfJobAt(15, 2, FlushClosed{false, "no oil"});
    CHECK(isMarked(walk));
    CHECK(walk.cart().lastFluid == "ISO VG 220 gear");
    CHECK(walk.cart().lastFlush.isNone());
}

TEST_CASE("a marked cart may be used: the mark stays and nobody is stopped")
{
    Walk walk = Walk().bypassingAt(0).sayAt(8, waste()).openRunAt(20, 5, ordinary());
    walk.sayOfRunAt(21, 5, ModeChanged{Mode::Filtering});
    CHECK(isMarked(walk));
    CHECK(walk.cart().lastFluid == "ISO VG 46 hydraulic");
}

TEST_CASE("waste that was struck marks no cart, and a start that was struck leaves no oil")
{
    Walk walk = Walk().bypassingAt(0);
    const Id start = walk.last();
    walk.sayAt(8, waste());
    const Id told = walk.last();
    walk.strikeAt(9, told);
    CHECK_FALSE(isMarked(walk));
    CHECK(walk.cart().lastFluid == "ISO VG 46 hydraulic");
    walk.strikeAt(10, start);
    CHECK(walk.cart().lastFluid.empty());
    CHECK(printed(folded(walk)) == printed(walk.state()));
}

TEST_CASE("striking one thing leaves all others of the cart as they were, in the order of the journal")
{
    Walk walk = Walk().bypassingAt(0).sayAt(8, waste());
    const Id told = walk.last();
    walk.openJobAt(10, 1, flush()).sayOfJobAt(11, 1, FlushBatch{litres("10")});
    walk.sayOfJobAt(12, 1, FlushClosed{true, {}}).openJobAt(13, 2, transfer()).filteringAt(15);
    walk.strikeAt(20, told);
    CHECK(isMarked(walk));
    CHECK(walk.cart().flushBeforeCleanUse->by == Walk::idOfJob(2));
    CHECK(walk.cart().lastFluid == "ISO VG 46 hydraulic"); // of the run, which pumped last
    CHECK(walk.cart().lastFlush == Walk::idOfJob(1));
    CHECK(printed(folded(walk)) == printed(walk.state()));
}

TEST_CASE("a fluid is named by what is known of it")
{
    CHECK(fluidText({.kind = "hydraulic", .grade = "ISO VG 46"}) == "ISO VG 46 hydraulic");
    CHECK(fluidText({.kind = "gear", .grade = {}}) == "gear");
    CHECK(fluidText({.kind = {}, .grade = "ISO VG 46"}) == "ISO VG 46");
    CHECK(fluidText({.kind = {}, .grade = {}, .viscosity = typed<units::KinematicViscosity>("46 cSt")}) == "46 cSt");
    CHECK(fluidText({}).empty());
}
