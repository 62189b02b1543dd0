// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What suits is told twice: by filtration in English, and by the catalogues. Both must say the same.

#include "filtration/suits.h"
#include "words/words.h"

#include <catch2/catch.hpp>

#include <set>
#include <string>
#include <vector>

using namespace loopside;
using namespace loopside::filtration;
using namespace loopside::units;

namespace {

void add(std::vector<Suit>& all, const std::vector<Suit>& more)
{
    all.insert(all.end(), more.begin(), more.end());
}

FittedStage particles(std::optional<double> ratingUm, const std::string& media = "", const std::string& seals = "")
{
    return {.ratingUm = ratingUm, .media = media, .seals = seals};
}

FittedStage water(std::optional<Volume> capacity)
{
    return {.isWater = true, .waterCapacity = capacity};
}

std::vector<Suit> aboutStages()
{
    std::vector<Suit> all;
    const Fraction wet = 1400.0 * partPerMillion;
    const FittedStage drop = water(0.35 * litre);
    add(all, stageOrder(std::vector{drop, particles(10.0), drop, particles(3.0), drop}));
    add(all, stageOrder(std::vector{particles(3.0), particles({}), particles(10.0)}));
    add(all, ratingSuits(std::vector{particles(30.0), particles(1.0)}, fluidNamed("VG 320 gear")));
    add(all, ratingSuits(std::vector{particles(10.0), particles(3.0)}, fluidNamed("VG 46 hydraulic")));
    add(all, ratingSuits(std::vector{particles(10.0)}, fluidNamed("the blue stuff")));
    const std::vector cellulose = {particles(10.0, "cellulose"), drop};
    add(all, mediaSuits(cellulose, oil::FluidFamily::WaterGlycol, wet));
    add(all, mediaSuits(cellulose, oil::FluidFamily::Hydraulic, wet));
    add(all, mediaSuits(cellulose, oil::FluidFamily::Hydraulic, std::nullopt));
    add(all,
        mediaSuits(std::vector{particles(3.0), particles(3.0, "", "NBR"), particles(3.0, "", "FKM")},
                   oil::FluidFamily::PhosphateEster, wet));
    for (const auto& stages : {std::vector{drop}, std::vector{water(std::nullopt)}, std::vector{particles(3.0)},
                               std::vector{water(2.0 * litre)}}) {
        add(all, waterSuits(waterBalance(stages, 800.0 * litre, {}, wet).value()));
    }
    return all;
}

std::vector<Suit> aboutCarts()
{
    std::vector<Suit> all;
    for (const char* last : {"VG 46 hydraulic", "VG 68 hydraulic", "VG 46 gear", "polyglycol", "food-grade",
                             "the blue stuff", "used oil", ""}) {
        add(all, cartFluidSuits({last, "VG 46 hydraulic", 8.0 * litre, 60.0 * litre, 1.5 * litre}).value());
    }
    return all;
}

} // namespace

TEST_CASE("the English catalogue says what suits as filtration does, and no sentence of it is left over")
{
    const auto english = words::Words::in("en").value();
    std::vector<Suit> all = aboutStages();
    add(all, aboutCarts());
    std::set<std::string> told;
    for (const Suit& suit : all) {
        CHECK(english.say(suit.told) == suit.sentence);
        told.insert(suit.told.id);
    }
    std::set<std::string> inCatalogue;
    for (const auto& [id, sentence] : english.all()) {
        if (id.starts_with("suit.")) {
            inCatalogue.insert(id);
        }
    }
    CHECK(told == inCatalogue);
}
