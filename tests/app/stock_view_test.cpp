// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The types are those of the demo site; the sums are worked out here.

#include "app_bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::test;

namespace {

void tell(app::StockView& stock, int kind, const char* number)
{
    stock.chooseKind(kind);
    for (const char sign : std::string_view(number)) {
        stock.fields()->key(QString(QLatin1Char(sign)));
    }
    stock.log();
}

int stockOf(const Bench& bench, const char* type)
{
    return bench.tablet().state().stock.at(type).elements;
}

} // namespace

TEST_CASE("what came in, was used elsewhere and was counted adds up, each a move with its reason")
{
    AppBench bench;
    app::StockView& stock = *bench.app()->stock();
    stock.chooseType(0);
    REQUIRE(stock.typeName() == text("P10 glass"));
    tell(stock, 0, "8");
    CHECK(stockOf(bench, "P10 glass") == 8);
    CHECK(bench.lastBody(QStringLiteral("stock-moved"))
          == text(R"({"type":"P10 glass","elements":8,"why":"received"})"));
    tell(stock, 2, "3");
    CHECK(stockOf(bench, "P10 glass") == 5);
    tell(stock, 1, "4"); // one less than the sum
    CHECK(stockOf(bench, "P10 glass") == 4);
    CHECK(bench.lastBody(QStringLiteral("stock-moved")).contains(text(R"("elements":-1,"why":"counted")")));
    REQUIRE(stock.moves()->rowCount() == 3);
    CHECK(stock.moves()->rows()[0][1].toString().contains(text("put right by a count")));
    CHECK(stock.moves()->rows()[2][0].toString() == text("+8"));
    CHECK(stock.moves()->rows()[2][1].toString().contains(text("Ines")));
}

TEST_CASE("the main key says what is missing, and logs nothing before it is there")
{
    AppBench bench;
    app::StockView& stock = *bench.app()->stock();
    CHECK(stock.problem() == text("Choose an element type."));
    stock.chooseType(0);
    CHECK(stock.problem() == text("Choose what happened."));
    stock.chooseKind(0);
    CHECK(stock.problem() == text("Type how many elements."));
    stock.fields()->key(text("0"));
    CHECK_FALSE(stock.problem().isEmpty());
    stock.log();
    CHECK(bench.entries(QStringLiteral("stock-moved")) == 0);
}

TEST_CASE("a count that agrees moves nothing and says so")
{
    AppBench bench;
    app::StockView& stock = *bench.app()->stock();
    stock.chooseType(0);
    tell(stock, 0, "8");
    tell(stock, 1, "8");
    CHECK(bench.entries(QStringLiteral("stock-moved")) == 1);
    CHECK(stock.problem() == text("The count agrees with the stock. Nothing is to be logged."));
}

TEST_CASE("a number typed for one type is no number for another, survives a kill, and is never logged by itself")
{
    AppBench bench;
    bench.app()->stock()->chooseType(0);
    bench.app()->stock()->fields()->key(text("7"));
    bench.app()->stock()->chooseType(1);
    CHECK(bench.app()->stock()->fields()->text(0).isEmpty());
    bench.restart();
    bench.app()->stock()->chooseType(0);
    CHECK(bench.app()->stock()->fields()->text(0) == text("7"));
    CHECK(bench.app()->stock()->notice().contains(text("Typed before, not logged")));
    CHECK(bench.entries(QStringLiteral("stock-moved")) == 0);
}

TEST_CASE("a full disk keeps the number where it is")
{
    AppBench bench;
    app::StockView& stock = *bench.app()->stock();
    stock.chooseType(0);
    bench.breakDisk(true);
    tell(stock, 0, "8");
    CHECK(bench.entries(QStringLiteral("stock-moved")) == 0);
    CHECK(stock.fields()->text(0) == text("8"));
    CHECK(bench.app()->trouble().contains(text("disk is full")));
}

TEST_CASE("a changeover takes its elements out, and the history says of which cart")
{
    AppBench bench;
    app::StockView& stock = *bench.app()->stock();
    stock.chooseType(0);
    tell(stock, 0, "8");
    const auto& site = bench.tablet().site();
    REQUIRE(bench.tablet().openRun({{}, site.tanks[0], site.carts[0].cart, site.carts[0].stages, {}}));
    REQUIRE(bench.tablet().say(run::Said(run::ElementsChanged{1, 2, {}})));
    CHECK(stockOf(bench, "P10 glass") == 6);
    const QString line = stock.moves()->rows()[0][1].toString();
    CHECK(stock.moves()->rows()[0][0].toString() == QStringLiteral("−2"));
    CHECK(line.contains(text("changeover")));
    CHECK(line.contains(text("Press hydraulic unit, Cart B")));
}

TEST_CASE("a type that is new in the catalogue can be received and counted before a cart holds it")
{
    AppBench bench;
    app::StockView& stock = *bench.app()->stock();
    const int before = stock.types()->rowCount();
    REQUIRE(bench.tablet().submit(run::PutRecord{run::ElementTypePut{{.kind = "water", .type = "W9"}}}));
    REQUIRE(stock.types()->rowCount() == before + 1);
    CHECK(stock.types()->rows()[before][0].toString() == text("W9"));
    stock.chooseType(before);
    tell(stock, 0, "6");
    tell(stock, 1, "5");
    CHECK(stockOf(bench, "W9") == 5);
    bench.restart();
    CHECK(bench.app()->stock()->types()->rowCount() == before + 1); // once, though the stock knows it too
}
