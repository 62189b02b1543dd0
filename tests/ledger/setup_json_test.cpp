// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/setup_json.h"

#include "ledger/some_setup.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <functional>

using namespace loopside;
using namespace loopside::ledger;
using namespace loopside::test;

namespace {

using Json = nlohmann::ordered_json;

std::string refusalOf(const std::string& text)
{
    const auto setup = readJson(text, readSetup);
    return setup ? "" : setup.error().sentence;
}

/// The refusal of the full set-up after `change`.
std::string refusalAfter(const std::function<void(Json&)>& change)
{
    Json object = setupJson(fullSetup());
    change(object);
    return refusalOf(object.dump());
}

} // namespace

TEST_CASE("a set-up comes back as it went in, known or unknown")
{
    for (const run::Setup& setup : {bareSetup(), fullSetup()}) {
        const std::string text = setupJson(setup).dump();
        const auto read = readJson(text, readSetup);
        REQUIRE(read.has_value());
        CHECK(*read == setup);
        CHECK(setupJson(*read).dump() == text);
    }
}

TEST_CASE("one gauge description serves all gauges of a cart")
{
    Json object = setupJson(bareSetup());
    object["cart"]["gauges"] = {{"unit", "bar"}, {"span", 6}};
    const auto read = readJson(object.dump(), readSetup);
    REQUIRE(read.has_value());
    REQUIRE(read->cart.gauges.size() == 3);
    CHECK(read->cart.gauges[2].span == number("6"));
}

TEST_CASE("what cannot be is refused with its place")
{
    const auto check = [](const std::string& place, const std::function<void(Json&)>& change) {
        CAPTURE(place);
        CHECK_THAT(refusalAfter(change), Catch::StartsWith(place + ": "));
    };
    check("tank.volume", [](Json& o) { o["tank"]["volume"] = "-400 L"; });
    check("tank.volume", [](Json& o) { o["tank"]["volume"] = "0 L"; });
    check("tank.volume", [](Json& o) { o["tank"]["volume"] = "400"; });
    check("tank.volume", [](Json& o) { o["tank"]["volume"] = 400; });
    check("tank.mixing", [](Json& o) { o["tank"]["mixing"] = 1.5; });
    check("tank.capacity", [](Json& o) { o["tank"]["capacity"] = "100 gal"; });
    check("tank.shape", [](Json& o) { o["tank"]["shape"]["form"] = "round"; });
    check("tank.shape", [](Json& o) { o["tank"]["shape"]["diameter"] = nullptr; });
    check("tank.shape", [](Json& o) { o["tank"]["shape"] = nullptr; });
    check("tank.level", [](Json& o) { o["tank"]["level"] = "81 cm"; });
    check("tank.volume", [](Json& o) {
        o["tank"]["volume"] = "170 gal";
        o["tank"]["capacity"] = nullptr;
    });
    check("tank.water", [](Json& o) { o["tank"]["water"] = "101 %"; });
    check("tank.code", [](Json& o) { o["tank"]["code"] = "17/18/12"; });
    check("tank.fluid.points", [](Json& o) {
        o["tank"]["fluid"]["points"].erase(0);
        o["tank"]["fluid"]["vi"] = nullptr;
    });
    check("tank.fluid.points",
          [](Json& o) { o["tank"]["fluid"]["points"].push_back(o["tank"]["fluid"]["points"][0]); });
    check("cart.suction_hose.bore", [](Json& o) { o["cart"]["suction_hose"]["bore"] = "0 mm"; });
    check("cart.return_hose.length", [](Json& o) { o["cart"]["return_hose"]["length"] = "-3 m"; });
    check("cart.lowest_flow", [](Json& o) { o["cart"]["lowest_flow"] = "20 L/min"; });
    check("cart.suction_limit", [](Json& o) { o["cart"]["suction_limit"] = "-17 kPa"; });
    check("cart.suction_allowance", [](Json& o) { o["cart"]["suction_allowance"] = "1.2"; });
    check("cart.viscosity_ceiling", [](Json& o) { o["cart"]["viscosity_ceiling"] = "0 cSt"; });
    check("cart.motor.power", [](Json& o) { o["cart"]["motor"]["power"] = "0 kW"; });
    check("cart.motor.current", [](Json& o) { o["cart"]["motor"]["current"] = "0 A"; });
    check("cart.motor.voltage", [](Json& o) { o["cart"]["motor"]["voltage"] = "-230 V"; });
    check("cart.circuit", [](Json& o) { o["cart"]["circuit"] = "0 A"; });
    check("target.code", [](Json& o) { o["target"]["code"] = "seventeen"; });
    check("tank.fluid.grade", [](Json& o) { o["tank"]["fluid"]["grade"] = "ISO VG 47"; });
    check("cart.flow", [](Json& o) { o["cart"]["flow"] = "0 L/min"; });
    check("cart.gauges", [](Json& o) { o["cart"]["gauges"].erase(0); });
    check("cart.gauges[1].unit", [](Json& o) { o["cart"]["gauges"][1]["unit"] = "ell"; });
    check("cart.relief", [](Json& o) { o["cart"]["relief"] = "0 psi"; });
    check("stages[1].elements", [](Json& o) { o["stages"][1]["elements"] = 13; });
    check("stages[1].kind", [](Json& o) { o["stages"][1]["kind"] = "magnet"; });
    check("stages[1].clean_dp_housing", [](Json& o) { o["stages"][1]["clean_dp_housing"] = "1 bar"; });
    check("stages[1].change_limit", [](Json& o) { o["stages"][1]["change_limit"] = "-25 psi"; });
    check("stages[1].loaded", [](Json& o) { o["stages"][1]["loaded"] = 0; });
    check("target.turnovers", [](Json& o) { o["target"]["turnovers"] = 0; });
    check("target.counter_on_site", [](Json& o) { o["target"]["counter_on_site"] = "yes"; });
    check("stages", [](Json& o) { o["stages"] = Json::array(); });
}

TEST_CASE("an unknown field is refused by its name and place")
{
    CHECK_THAT(refusalAfter([](Json& o) { o["tank"]["colour"] = "grey"; }),
               Catch::StartsWith("tank: \"colour\" is not a field here; known are name, volume"));
    CHECK_THAT(refusalAfter([](Json& o) { o["stages"][0]["limit"] = "25 psi"; }),
               Catch::StartsWith("stages[0]: \"limit\""));
    CHECK_THAT(refusalAfter([](Json& o) { o["cart"]["suction_hose"]["colour"] = 1; }),
               Catch::StartsWith("cart.suction_hose: "));
}

TEST_CASE("what reading refuses is refused before it is written")
{
    run::Setup setup = fullSetup();
    setup.stages[0].kind.clear();
    CHECK(run::faultIn(setup)->place == "stages[0].kind");
    setup = fullSetup();
    setup.tank.fluid.points.pop_back();
    CHECK_FALSE(run::faultIn(setup).has_value()); // one point with a viscosity index is a laboratory's value
    setup.tank.fluid.viscosityIndex.reset();
    CHECK(run::faultIn(setup)->place == "tank.fluid.points");
    setup = fullSetup();
    setup.cart.gauges[1].unit = nullptr;
    CHECK(run::faultIn(setup)->place == "cart.gauges[1].unit");
    CHECK_FALSE(run::faultIn(fullSetup()).has_value());
    CHECK_FALSE(run::faultIn(bareSetup()).has_value());
}
