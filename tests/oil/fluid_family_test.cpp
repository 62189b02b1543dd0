// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/fluid_family.h"

#include <catch2/catch.hpp>

#include <string>

using Catch::Contains;
using namespace loopside::oil;
using enum FluidFamily;

namespace {

constexpr int families = static_cast<int>(FoodGrade) + 1;

FluidFamily family(int place)
{
    return static_cast<FluidFamily>(place);
}

} // namespace

TEST_CASE("the words for a fluid tell its family")
{
    // Common practice; the letters of ISO 6743, ISO 12922 and DIN 51524 from memory.
    const auto [kind, expected] = GENERATE(table<std::string, FluidFamily>({
        {"hydraulic", Hydraulic},
        {"Hydraulic oil, zinc-free", Hydraulic},
        {"HLP 46", Hydraulic},
        {"gear", Gear},
        {"EP gear oil", Gear},
        {"turbine", Turbine},
        {"circulating", Circulating},
        {"compressor", Compressor},
        {"multigrade", PolymerThickened},
        {"VI-improved", PolymerThickened},
        {"polymer-thickened", PolymerThickened},
        {"multigrade hydraulic", PolymerThickened},
        {"HVLP", PolymerThickened},
        {"PAO", SyntheticHydrocarbon},
        {"PAO gear oil", SyntheticHydrocarbon},
        {"synthetic hydrocarbon", SyntheticHydrocarbon},
        {"ester", Ester},
        {"polyol ester", Ester},
        {"HFDU", Ester},
        {"polyglycol", Polyglycol},
        {"PAG gear oil", Polyglycol},
        {"water-glycol", WaterGlycol},
        {"Water glycol hydraulic", WaterGlycol},
        {"HFC", WaterGlycol},
        {"HFC-46", WaterGlycol},
        {"emulsion", Emulsion},
        {"HFA", Emulsion},
        {"HFB", Emulsion},
        {"HFAE", Emulsion},
        {"phosphate ester", PhosphateEster},
        {"phosphate ester turbine control", PhosphateEster},
        {"HFD", PhosphateEster},
        {"HFDR", PhosphateEster},
        {"food-grade", FoodGrade},
        {"H1", FoodGrade},
        {"food-grade PAO gear", FoodGrade},
        {"NSF H1 hydraulic", FoodGrade},
    }));
    CAPTURE(kind);
    CHECK(familyOf(kind) == expected);
    CHECK(familyNamed(kind).value() == expected);
}

TEST_CASE("words that leave the base open are not guessed at")
{
    const std::string kind = GENERATE("", "   ", "the green drum", "synthetic gear", "fire-resistant hydraulic",
                                      "biodegradable hydraulic", "water", "H12", "regear", "46");
    CAPTURE(kind);
    CHECK(familyOf(kind) == Unknown);
    const auto named = familyNamed(kind);
    REQUIRE_FALSE(named.has_value());
    CHECK(named.error().code == loopside::Errc::NotFound);
    CHECK_THAT(named.error().sentence, Contains("\"" + kind + "\"") && Contains("water-glycol"));
}

TEST_CASE("a family whose line or density does not hold says why in a sentence")
{
    for (int i = 0; i < families; ++i) {
        const FamilyTraits& traits = traitsOf(family(i));
        CAPTURE(traits.name);
        for (const auto& why : {traits.whyNoLine, traits.whyNoDensity}) {
            CHECK((!why.has_value() || why->ends_with('.')));
        }
        CHECK((!traits.isWaterBased || (traits.whyNoLine.has_value() && traits.whyNoDensity.has_value())));
    }
    CHECK(traitsOf(WaterGlycol).isWaterBased);
    CHECK(traitsOf(Emulsion).isWaterBased);
    CHECK_FALSE(traitsOf(PhosphateEster).isWaterBased);
    CHECK_FALSE(traitsOf(Hydraulic).whyNoLine.has_value());
    CHECK_FALSE(traitsOf(Hydraulic).whyNoDensity.has_value());
    CHECK_THAT(std::string(*traitsOf(PolymerThickened).whyNoLine), Contains("thicker in the cold"));
}

TEST_CASE("what may be mixed")
{
    // Trade practice: food-grade and fire-resistant fluids stop; nothing is carried over into polyglycol and ester.
    const auto [a, b, expected] = GENERATE(table<FluidFamily, FluidFamily, Mixing>({
        {Hydraulic, Hydraulic, Mixing::Same},
        {FoodGrade, FoodGrade, Mixing::Same},
        {PhosphateEster, PhosphateEster, Mixing::Same},
        {Hydraulic, Circulating, Mixing::SameFamily},
        {Hydraulic, PolymerThickened, Mixing::SameFamily},
        {Gear, SyntheticHydrocarbon, Mixing::SameFamily},
        {Gear, Turbine, Mixing::Incompatible},
        {Gear, Polyglycol, Mixing::Incompatible},
        {Hydraulic, Ester, Mixing::Incompatible},
        {Ester, Polyglycol, Mixing::Incompatible},
        {Hydraulic, FoodGrade, Mixing::Never},
        {Hydraulic, PhosphateEster, Mixing::Never},
        {Hydraulic, WaterGlycol, Mixing::Never},
        {Hydraulic, Emulsion, Mixing::Never},
        {Polyglycol, WaterGlycol, Mixing::Never},
        {Ester, PhosphateEster, Mixing::Never},
        {FoodGrade, Polyglycol, Mixing::Never},
        {Unknown, Hydraulic, Mixing::CannotTell},
        {Unknown, FoodGrade, Mixing::CannotTell},
        {Unknown, Unknown, Mixing::CannotTell},
    }));
    CAPTURE(traitsOf(a).name, traitsOf(b).name);
    CHECK(mixing(a, b).mixing == expected);
}

TEST_CASE("mixing is the same both ways round, has a reason, and only one family is the same")
{
    for (int i = 0; i < families; ++i) {
        for (int j = 0; j < families; ++j) {
            const MixingAdvice advice = mixing(family(i), family(j));
            CAPTURE(traitsOf(family(i)).name, traitsOf(family(j)).name);
            CHECK(advice.mixing == mixing(family(j), family(i)).mixing);
            CHECK(advice.why == mixing(family(j), family(i)).why);
            CHECK(advice.why.ends_with('.'));
            CHECK((advice.mixing == Mixing::Same) == (i == j && family(i) != Unknown));
        }
    }
}
