// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "ledger/tank_look.h"

#include "ledger/some_setup.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::ledger;
using run::LookBy;
using run::TankKnown;
using run::TankLook;

namespace {

/// A run at `tank` of which these facts are kept.
run::RunState runWith(const std::string& tank, const std::vector<run::Kept>& kept)
{
    run::Setup setup = test::bareSetup();
    setup.tank.name = tank;
    run::Header header;
    header.run = Id{.bytes = {1}};
    header.id = Id{.bytes = {2}};
    run::State state = run::apply({}, header, run::RunOpened{setup, {}});
    for (const run::Kept& fact : kept) {
        ++header.clock;
        header.id.bytes[1] = static_cast<std::uint8_t>(header.clock);
        state = run::apply(std::move(state), header, fact);
    }
    return state.runs.at(header.run);
}

} // namespace

TEST_CASE("a look at a tank is read back as it was kept")
{
    const TankLook look = GENERATE(
        TankLook{LookBy::Reader, "BM-HY-012", "HT-11", true},
        TankLook{LookBy::Typed, "ht \"12\"", "HT-11", false, "HT-12"},
        TankLook{LookBy::Oil, "ISO VG 46", "HT-11", false, {}, "the plate is old: ask Ruth"});
    CHECK(lookIn(asKept(look)) == look);
}

TEST_CASE("a position is read back as it was kept, to the last digit")
{
    const run::Fix fix{{53.550123456789, -9.99}, 4.25};
    const auto read = fixIn(asKept(fix));
    REQUIRE(read);
    CHECK(read->place.latitude_deg == 53.550123456789);
    CHECK(read->place.longitude_deg == -9.99);
    CHECK(read->accuracy_m == 4.25);
    CHECK_FALSE(fixIn(asKept(run::Fix{{1, 2}, {}}))->accuracy_m);
}

TEST_CASE("what older journals and stories keep of a tag is read, and claims no more than it says")
{
    CHECK(lookIn({"tag", R"("BM-HY-012")"}) == TankLook{LookBy::Reader, "BM-HY-012", {}, false});
    CHECK(lookIn({"tag", R"({"read": "HT-12", "expected": "HT-11"})"})
          == TankLook{LookBy::Typed, "HT-12", "HT-11", false});
    CHECK(lookIn({"tag", R"({"read": "ht-11", "expected": "HT-11"})"})
          == TankLook{LookBy::Typed, "ht-11", "HT-11", true});
    CHECK(lookIn({"tag", R"({"read": "", "typed": "HT-11"})"}) == TankLook{LookBy::Typed, {}, {}, false});
    CHECK_FALSE(lookIn({"tag", "[1]"}));
    CHECK_FALSE(lookIn({"fix", R"({"read": "HT-11"})"}));
    CHECK_FALSE(fixIn({"fix", R"({"latitude": "north"})"}));
    CHECK_FALSE(fixIn({"tag", R"({"latitude": 1, "longitude": 2})"}));
}

TEST_CASE("how well a run's tank is known follows from its looks")
{
    const TankLook scanned{LookBy::Reader, "BM-HY-012", "HT-11", true};
    const TankLook typed{LookBy::Typed, "BM-HY-012", "HT-11", true};
    CHECK(tankKnown(runWith("HT-11", {})) == TankKnown::Not);
    CHECK(tankKnown(runWith("HT-11", {asKept(scanned)})) == TankKnown::Once);
    CHECK(tankKnown(runWith("HT-11", {asKept(scanned), asKept(typed)})) == TankKnown::Twice);
    CHECK(tankKnown(runWith("HT-12", {asKept(scanned), asKept(typed)})) == TankKnown::Not);
}

TEST_CASE("where a tank stands is the finest position of its confirmed runs")
{
    const TankLook scanned{LookBy::Reader, "BM-HY-012", "HT-11", true};
    const auto at = [](double latitude, std::optional<double> accuracy_m) {
        return asKept(run::Fix{{latitude, 10}, accuracy_m});
    };
    const auto placesWith = [](const std::vector<run::Kept>& kept) {
        const run::RunState run = runWith("HT-11", kept);
        return placesOf(run::State{.runs = {{run.id, run}}});
    };
    CHECK(placesWith({at(50, 4.0)}).empty()); // nobody knows whether the run was at its tank
    CHECK(placesWith({asKept(scanned), at(50, std::nullopt)}).empty());
    const auto places = placesWith({asKept(scanned), at(50, 9.0), at(51, 4.0), at(52, 4.0), at(53, 12.0)});
    REQUIRE(places.contains("HT-11"));
    CHECK(places.at("HT-11").place.latitude_deg == 52);
}
