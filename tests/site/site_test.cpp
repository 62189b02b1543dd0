// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "site/site.h"

#include "site/record_changes.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::site;

namespace {

run::TankPut tank(const char* name, const char* volume)
{
    return {{.name = name, .volume = run::TypedVolume::parse(volume).value(), .fluid = {.kind = "gear", .grade = ""}},
            "P"};
}

run::CartPut cart()
{
    run::CartPut put{{.name = "C", .flow = run::TypedFlow::parse("20 L/min").value(), .lastFluid = {}, .gauges = {}},
                     {}};
    const auto* psi = *units::unitNamed<units::Pressure>("psi");
    put.cart.gauges = {{.unit = psi, .grade = ""}, {.unit = psi, .grade = ""}};
    put.stages = {{.kind = "particle", .type = "P10"}};
    return put;
}

Site after(const std::vector<run::RecordPut>& puts)
{
    std::vector<run::Entered<run::RecordPut>> records;
    for (const run::RecordPut& put : puts) {
        records.push_back({{}, put});
    }
    return withRecords({}, records);
}

} // namespace

TEST_CASE("the latest record of a name holds, in the place of the one before")
{
    const Site site = after({tank("A", "10 L"), tank("B", "20 L"), tank("A", "15 L"), cart(),
                             run::FluidPut{"F", {.kind = "gear", .grade = ""}},
                             run::ElementTypePut{{.kind = "water", .type = "W"}}});
    REQUIRE(site.tanks.size() == 2);
    CHECK(site.tanks[0].volume.toText() == "15 L");
    CHECK(site.carts.size() == 1);
    CHECK(site.fluids.size() == 1);
    CHECK(site.elementTypes.size() == 1);
}

TEST_CASE("what is out of service is kept and marked, and comes back as it was last put")
{
    const run::RecordServiced out{"tank", "A", false, "dismantled"};
    Site site = after({tank("A", "10 L"), tank("B", "20 L"), out});
    REQUIRE(site.tanks.size() == 1);
    CHECK(site.tanks[0].name == "B");
    REQUIRE(outOfServiceOf(site, "tank", "A") != nullptr);
    CHECK(outOfServiceOf(site, "tank", "A")->why == "dismantled");
    CHECK(outOfServiceOf(site, "cart", "A") == nullptr);
    CHECK(recordsOf(site, "tank").size() == 2);

    site = after({tank("A", "10 L"), out, tank("A", "12 L")});
    CHECK(site.tanks.empty()); // putting it again does not bring it back
    site = after({tank("A", "10 L"), out, tank("A", "12 L"), run::RecordServiced{"tank", "A", true, ""}});
    REQUIRE(site.tanks.size() == 1);
    CHECK(site.tanks[0].volume.toText() == "12 L");
    CHECK(site.plates.at("A") == "P");
    CHECK(site.outOfService.empty());
}

TEST_CASE("out of service is told of nothing that is not there, and told twice it is so once")
{
    const run::RecordServiced out{"cart", "C", false, "sold"};
    CHECK(after({out}).outOfService.empty());
    CHECK(after({cart(), out, out}).outOfService.size() == 1);
    CHECK(after({cart(), run::RecordServiced{"cart", "C", true, ""}}).carts.size() == 1);
}

TEST_CASE("oils to choose from are those of the catalogue and of the tanks, each once")
{
    run::TankPut same = tank("A", "10 L");
    run::TankPut other = tank("B", "10 L");
    other.tank.fluid.kind = "turbine";
    const Site site = after({same, other, run::FluidPut{"Gear oil", same.tank.fluid}});
    const auto fluids = knownFluids(site);
    REQUIRE(fluids.size() == 2);
    CHECK(fluids[0].name == "Gear oil");
    CHECK(fluids[1].name == "turbine");
}

TEST_CASE("changes are told member by member with the words for it")
{
    const auto words = words::Words::in("en").value();
    run::CartPut was = cart();
    run::CartPut is = cart();
    is.cart.gauges[1].span = Decimal(100, 0);
    is.stages[0].changeLimit = run::TypedPressure::parse("25 psi").value();
    const auto changes = changesBetween(was, is);
    REQUIRE(changes.size() == 2);
    CHECK(changeText(words, changes[0]) == "Gauge 2 full scale: – → 100");
    CHECK(changeText(words, changes[1]) == "Stage 1 change limit: – → 25 psi");
    CHECK(changesBetween(is, is).empty());
    CHECK(changeText(words, changesBetween(is, was)[1]) == "Stage 1 change limit: 25 psi → –");
    run::TankPut tankIs = tank("A", "10 L");
    tankIs.tank.fluid.density = run::TypedDensity::parse("870 kg/m3").value();
    CHECK(changeText(words, changesBetween(tank("A", "10 L"), tankIs)[0]) == "Density at 15\u00a0°C: – → 870 kg/m³");
}

TEST_CASE("a site file may tell prices, none of them below 0")
{
    const auto with = [](const std::string& prices) {
        const char* psi = R"("gauges":{"unit":"psi","span":100,"graduation":1})";
        return siteFrom(
            R"({"name":"S","tanks":[{"name":"T","volume":"400 L","fluid":{"kind":"hydraulic","grade":"ISO VG 46"}}],)"
            R"("carts":[{"cart":{"name":"C","flow":"20 L/min",)"
            + std::string(psi)
            + R"(},"stages":[{"elements":2,"kind":"particle"},{"elements":2,"kind":"particle"}]}],)"
              R"("people":[{"id":"018f3b5e-0001-7000-8000-000000000001","name":"Ines"}])"
            + prices + "}");
    };
    const auto none = with("");
    REQUIRE(none);
    CHECK_FALSE(none->prices.has_value());
    const auto some = with(R"(,"prices":{"currency":"EUR","element":85.50,"hour":0})");
    REQUIRE(some);
    REQUIRE(some->prices);
    CHECK(some->prices->currency == "EUR");
    CHECK(some->prices->element->toText() == "85.50");
    CHECK_FALSE(some->prices->oilPerLitre.has_value());
    const auto below = with(R"(,"prices":{"currency":"EUR","element":-1})");
    REQUIRE_FALSE(below);
    CHECK(below.error().sentence.find("prices.element") != std::string::npos);
    CHECK_FALSE(with(R"(,"prices":{"element":85})")); // of which currency?
}
