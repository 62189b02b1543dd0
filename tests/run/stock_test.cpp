// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/stock.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

Setup typed(std::string first, std::string second)
{
    Setup setup = ordinary();
    setup.stages.at(0).type = std::move(first);
    setup.stages.at(1).type = std::move(second);
    return setup;
}

int stockOf(const Walk& walk, const std::string& type)
{
    const auto found = walk.state().stock.find(type);
    return found == walk.state().stock.end() ? 0 : found->second.elements;
}

Walk stopped(Setup setup)
{
    return Walk(std::move(setup)).filteringAt(0).readingAt(2, "20 14 4").stoppedAt(5);
}

} // namespace

TEST_CASE("a changeover takes its elements out of the stock of that type, once")
{
    Walk walk = stopped(typed("ten", "three")).changeoverAt(8, 2, 2);
    CHECK(stockOf(walk, "three") == -2);
    CHECK(stockOf(walk, "ten") == 0);
    walk.filteringAt(10).readingAt(12, "20 14 4");
    CHECK(stockOf(walk, "three") == -2);
}

TEST_CASE("an amended or struck changeover gives back what was not used")
{
    Walk walk = stopped(typed("ten", "three")).changeoverAt(8, 2, 2);
    const Id changeover = walk.last();
    Amended one{.of = changeover, .elements = 1, .why = "only one was changed"};
    CHECK(stockOf(Walk(walk).sayAt(9, one), "three") == -1);
    CHECK(stockOf(walk.strikeAt(9, changeover), "three") == 0);
    CHECK(walk.run().used.back().why == correctedByAmendment);
}

TEST_CASE("another type that was put in is the one that leaves the stock, then and from then on")
{
    Walk walk = stopped(typed("ten", "three")).sayAt(8, ElementsChanged{2, 2, "three, glass"});
    CHECK(stockOf(walk, "three, glass") == -2);
    CHECK(stockOf(walk, "three") == 0);
    walk.changeoverAt(20, 2, 1);
    CHECK(stockOf(walk, "three, glass") == -3);
}

TEST_CASE("elements of a type that nobody named, and practice, leave the stock alone")
{
    CHECK(stopped(typed("", "")).changeoverAt(8, 2, 2).state().stock.empty());
    Setup practice = typed("ten", "three");
    practice.isPractice = true;
    CHECK(stopped(practice).changeoverAt(8, 2, 2).state().stock.empty());
}

TEST_CASE("a person tells what came in, and only then the number counts what is there")
{
    Walk walk = stopped(typed("ten", "three")).changeoverAt(8, 2, 2);
    CHECK_FALSE(walk.state().stock.at("three").isCounted);
    const auto told = walk.attempt(9, MoveStock{"three", 8, "delivery"});
    REQUIRE(told.has_value());
    REQUIRE(told->size() == 1);
    CHECK(told->front().run == Id{});
    const State after = apply(walk.state(), Header{}, told->front().event);
    CHECK(after.stock.at("three").elements == 6);
    CHECK(after.stock.at("three").isCounted);
}

TEST_CASE("a stock move that says nothing is refused")
{
    const Walk walk = stopped(ordinary());
    for (const MoveStock& move : {MoveStock{"", 2, {}}, MoveStock{"three", 0, {}}, MoveStock{"three", 2'000'000, {}}}) {
        const auto told = walk.attempt(9, move);
        REQUIRE_FALSE(told.has_value());
        CHECK(told.error().say.id == "refused.stock");
    }
}

TEST_CASE("a stage holds the type that was put in last")
{
    Walk walk = stopped(typed("ten", "three"));
    CHECK(elementTypeIn(walk.run(), 2) == "three");
    walk.sayAt(8, ElementsChanged{2, 2, "three, glass"});
    const Id changeover = walk.last();
    CHECK(elementTypeIn(walk.run(), 2) == "three, glass");
    CHECK(elementTypeIn(walk.strikeAt(9, changeover).run(), 2) == "three");
}
