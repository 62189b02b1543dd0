// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/field_told.h"

#include "run/catalogue.h"
#include "words/words.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::words;

namespace {

Words wordsIn(std::string_view language)
{
    return Words::in(language).value();
}

} // namespace

TEST_CASE("a field of a record is named by its words, whichever way its place is written")
{
    const Words words = wordsIn("en");
    CHECK(fieldName(words, "/stages/0/change_limit") == "Stage 1 change limit");
    CHECK(fieldName(words, "stages[11].change_limit") == "Stage 12 change limit");
    CHECK(fieldName(words, "cart.gauges[2].span") == "Gauge 3 full scale");
    CHECK(fieldName(words, "/gauges/0/unit") == "Gauge 1 unit");
    CHECK(fieldName(words, "tank.volume") == "Volume of oil");
    CHECK(fieldName(words, "/fluid/points/1/viscosity") == "Second measured viscosity");
    CHECK(fieldName(words, "tank.fluid.grade") == "grade");
    CHECK(fieldName(words, "stage.bypass") == "bypass setting");
    CHECK(fieldName(words, "target.turnovers") == "Target, turnovers");
}

TEST_CASE("a field that has no words is named as it came")
{
    const Words words = wordsIn("de");
    CHECK(fieldName(words, "/colour") == "colour");
    CHECK(fieldName(words, "stages[x].colour") == "stages.x.colour");
    CHECK(fieldName(words, "stages[99999].colour") == "stages.99999.colour");
    CHECK(fieldName(words, "tank.") == "tank.");
    CHECK(fieldName(words, "").empty());
}

TEST_CASE("a fault names its field and quotes what was typed, in the language of the person")
{
    run::StageRecord stage;
    stage.kind = "particle";
    stage.changeLimit = units::Typed<units::Pressure>::parse("0 psi").value();
    const auto fault = run::faultIn(stage);
    REQUIRE(fault.has_value());
    CHECK(wordsIn("en").say(fault->say) == "change limit: must be above 0, not 0 psi.");
    CHECK(wordsIn("de").say(fault->say) == "Wechselgrenze: muss über 0 liegen, nicht bei 0 psi.");
    run::TankRecord tank{.name = "Press", .volume = units::Typed<units::Volume>::parse("900 L").value(), .fluid = {}};
    tank.latitude = "48 61 N";
    const auto odd = run::faultIn(tank);
    REQUIRE(odd.has_value());
    CHECK(wordsIn("en").say(odd->say) == "Latitude, 48 61 N: Minutes and seconds stay below 60.");
}
