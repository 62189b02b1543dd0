// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/suits.h"

#include "filtration/element_ratings.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using Catch::Contains;
using Catch::WithinAbs;
using namespace loopside::filtration;
using namespace loopside::units;
using loopside::oil::FluidFamily;

namespace {

FittedStage particles(std::optional<double> ratingUm)
{
    FittedStage stage;
    stage.ratingUm = ratingUm;
    return stage;
}

FittedStage water(std::optional<Volume> capacity = std::nullopt)
{
    FittedStage stage;
    stage.isWater = true;
    stage.waterCapacity = capacity;
    return stage;
}

std::vector<std::string> idsOf(const std::vector<Suit>& suits)
{
    std::vector<std::string> ids;
    for (const Suit& suit : suits) {
        ids.push_back(suit.told.id);
    }
    return ids;
}

using Ids = std::vector<std::string>;

std::vector<Suit> meeting(const std::string& last, const std::string& fluid)
{
    return cartFluidSuits({last, fluid, 8.0 * litre, 60.0 * litre, 1.5 * litre}).value();
}

} // namespace

TEST_CASE("particle stages go from coarse to fine, and a swap is asked about")
{
    const auto fine = stageOrder(std::vector{particles(10.0), particles(3.0)});
    CHECK(idsOf(fine) == Ids{"suit.order.coarse-to-fine"});
    CHECK(fine[0].level == SuitLevel::Ok);
    CHECK(stageOrder(std::vector{particles(10.0), particles(10.0)})[0].level == SuitLevel::Ok);
    const auto swapped = stageOrder(std::vector{particles(3.0), particles(10.0)});
    REQUIRE(idsOf(swapped) == Ids{"suit.order.reversed"});
    CHECK(swapped[0].level == SuitLevel::Caution);
    CHECK(swapped[0].stage == 2);
    CHECK(swapped[0].sentence
          == "Stage 2, 10 µm, stands behind a finer one of 3 µm, which takes all the dirt: are they swapped?");
    CHECK(idsOf(stageOrder(std::vector{particles({}), particles(10.0)})) == Ids{"suit.order.unknown"});
    CHECK(stageOrder(std::vector{water()}).empty());
}

TEST_CASE("a water stage is allowed anywhere, with what it means there")
{
    const auto first = stageOrder(std::vector{water(), particles(3.0)});
    CHECK(idsOf(first) == Ids{"suit.order.coarse-to-fine", "suit.order.water-first"});
    const auto last = stageOrder(std::vector{particles(3.0), water()});
    CHECK(idsOf(last) == Ids{"suit.order.coarse-to-fine", "suit.order.water-last"});
    CHECK(idsOf(stageOrder(std::vector{particles(10.0), water(), particles(3.0)})).back()
          == "suit.order.water-between");
    CHECK(first[1].level == SuitLevel::Ok);
    CHECK(last[1].level == SuitLevel::Ok);
}

TEST_CASE("the table of ratings is whole and each line says where it comes from")
{
    CHECK(elementRatings().size() == 19); // its lines
    for (const ElementRating& rating : elementRatings()) {
        CHECK(rating.fromUm <= rating.toUm);
        CHECK(rating.toUm <= 50.0);
        CHECK_FALSE(rating.source.empty());
        CHECK_FALSE(rating.provenance.empty());
        CHECK(rating.vgFrom.has_value() == rating.vgTo.has_value());
    }
}

TEST_CASE("a rating is held against the starting points for the fluid, as a hint at most")
{
    struct Case
    {
        const char* fluid;
        double first;
        double last;
        SuitLevel firstLevel;
        SuitLevel lastLevel;
    };
    // Common practice: hydraulic 10–12 and 3–5 µm, gear VG 320 rather 5/10/20 than 3, gear VG 220 25 and 10–12.
    const auto one = GENERATE(Case{"ISO VG 46 hydraulic", 10.0, 3.0, SuitLevel::Ok, SuitLevel::Ok},
                              Case{"ISO VG 46 hydraulic", 25.0, 3.0, SuitLevel::Note, SuitLevel::Ok},
                              Case{"ISO VG 320 gear", 20.0, 3.0, SuitLevel::Ok, SuitLevel::Note},
                              Case{"ISO VG 320 gear", 25.0, 10.0, SuitLevel::Ok, SuitLevel::Ok},
                              Case{"ISO VG 220 gear", 25.0, 12.0, SuitLevel::Ok, SuitLevel::Ok},
                              Case{"ISO VG 220 gear", 25.0, 30.0, SuitLevel::Ok, SuitLevel::Note},
                              Case{"somebody's fluid", 25.0, 10.0, SuitLevel::Note, SuitLevel::Note});
    CAPTURE(one.fluid, one.first, one.last);
    const auto suits = ratingSuits(std::vector{particles(one.first), particles(one.last)}, fluidNamed(one.fluid));
    REQUIRE(suits.size() == 2);
    CHECK(suits[0].level == one.firstLevel);
    CHECK(suits[1].level == one.lastLevel);
}

TEST_CASE("sources that differ stand side by side")
{
    const auto suits = ratingSuits(std::vector{particles(5.0)}, fluidNamed("gear VG 320"));
    REQUIRE(suits.size() == 1);
    CHECK_THAT(suits[0].source,
               Contains("25–40 µm") && Contains("5–20 µm") && Contains("at most 25 µm") && Contains("without source")
                   && Contains("AGMA"));
}

TEST_CASE("an element finer than 3 µm brings a neutral note about new oil")
{
    const auto suits = ratingSuits(std::vector{particles(1.0)}, fluidNamed("ISO VG 46 hydraulic"));
    CHECK(idsOf(suits).back() == "suit.rating.fine");
    CHECK(suits.back().level == SuitLevel::Note);
    CHECK(idsOf(ratingSuits(std::vector{particles(3.0)}, fluidNamed("ISO VG 46 hydraulic"))).back()
          == "suit.rating.among");
}

TEST_CASE("media and seals are held against the fluid")
{
    FittedStage cellulose = particles(10.0);
    cellulose.media = "Cellulose";
    const auto media = [](const FittedStage& stage, FluidFamily fluid, std::optional<Fraction> wet = std::nullopt) {
        return idsOf(mediaSuits(std::vector{stage}, fluid, wet));
    };
    CHECK(media(water(), FluidFamily::WaterGlycol) == Ids{"suit.media.water-element"});
    CHECK(media(water(), FluidFamily::Emulsion) == Ids{"suit.media.water-element"});
    CHECK(media(water(), FluidFamily::Hydraulic).empty());
    CHECK(media(cellulose, FluidFamily::Hydraulic) == Ids{"suit.media.cellulose-look"});
    CHECK(media(cellulose, FluidFamily::Hydraulic, 1400.0 * partPerMillion) == Ids{"suit.media.cellulose-wet"});
    CHECK(media(cellulose, FluidFamily::Hydraulic, 50.0 * partPerMillion).empty());
    CHECK(media(cellulose, FluidFamily::WaterGlycol) == Ids{"suit.media.cellulose-water-based"});
    CHECK(media(particles(10.0), FluidFamily::WaterGlycol).empty());

    FittedStage sealed = particles(3.0);
    CHECK(media(sealed, FluidFamily::PhosphateEster) == Ids{"suit.media.seals-unknown"});
    sealed.seals = "NBR";
    CHECK(media(sealed, FluidFamily::PhosphateEster) == Ids{"suit.media.seals-attacked"});
    CHECK(media(sealed, FluidFamily::Hydraulic).empty());
    sealed.seals = "FKM";
    CHECK(media(sealed, FluidFamily::PhosphateEster) == Ids{"suit.media.seals-ask"});
    sealed.seals = "EPDM";
    CHECK(media(sealed, FluidFamily::PhosphateEster).empty());
}

TEST_CASE("grade and kind are read out of what people write")
{
    struct Case
    {
        const char* text;
        FluidFamily family;
        std::optional<int> vg;
    };
    const auto one = GENERATE(
        Case{"ISO VG 46 hydraulic", FluidFamily::Hydraulic, 46}, Case{"vg220 GEAR oil", FluidFamily::Gear, 220},
        Case{"HLP 46", FluidFamily::Hydraulic, 46}, Case{"turbine 32", FluidFamily::Turbine, 32},
        Case{"gear oil", FluidFamily::Gear, {}}, Case{"VG 70 hydraulic", FluidFamily::Hydraulic, {}}, // no such grade
        Case{"SAE 10 hydraulic", FluidFamily::Hydraulic, {}}, Case{"hydraulic 32 or 46", FluidFamily::Hydraulic, {}},
        Case{"hydraulic VG", FluidFamily::Hydraulic, {}}, Case{"", FluidFamily::Unknown, {}},
        Case{"the blue stuff", FluidFamily::Unknown, {}});
    CAPTURE(one.text);
    const NamedFluid fluid = fluidNamed(one.text);
    CHECK(fluid.family == one.family);
    CHECK(fluid.grade.has_value() == one.vg.has_value());
    CHECK((fluid.grade ? fluid.grade->vg : 0) == one.vg.value_or(0));
}

TEST_CASE("the cart's last fluid is held against the tank's")
{
    struct Case
    {
        const char* last;
        const char* fluid;
        SuitLevel level;
        const char* id;
        std::size_t answers;
    };
    const auto one = GENERATE(
        Case{"ISO VG 46 hydraulic", "hydraulic ISO VG 46", SuitLevel::Ok, "suit.cart.same", 1},
        Case{"ISO VG 46 hydraulic", "hydraulic ISO VG 68", SuitLevel::Caution, "suit.cart.other-grade", 3},
        Case{"hydraulic", "hydraulic ISO VG 68", SuitLevel::Caution, "suit.cart.other-grade", 3},
        Case{"ISO VG 46 hydraulic", "ISO VG 220 gear", SuitLevel::Caution, "suit.cart.related", 3},
        Case{"ISO VG 220 gear", "ISO VG 46 polyglycol", SuitLevel::Conflict, "suit.cart.incompatible", 2},
        Case{"ISO VG 46 hydraulic", "food-grade VG 46", SuitLevel::Conflict, "suit.cart.never", 2},
        Case{"ISO VG 46 hydraulic", "phosphate ester", SuitLevel::Conflict, "suit.cart.never", 2},
        Case{"the blue stuff", "ISO VG 46 hydraulic", SuitLevel::Caution, "suit.cart.cannot-tell", 2},
        Case{"", "ISO VG 46 hydraulic", SuitLevel::Caution, "suit.cart.not-told", 1},
        Case{"used oil", "ISO VG 46 hydraulic", SuitLevel::Conflict, "suit.cart.waste", 1},
        Case{"waste: flush before clean use", "ISO VG 46 hydraulic", SuitLevel::Conflict, "suit.cart.waste", 1});
    CAPTURE(one.last, one.fluid);
    const auto suits = meeting(one.last, one.fluid);
    REQUIRE(suits.size() == one.answers);
    CHECK(suits[0].level == one.level);
    CHECK(suits[0].told.id == one.id);
}

TEST_CASE("carry-over and flush are told with their numbers")
{
    // Common practice, computed: 8 L into 60 L are 13 %. 1.5 L left, 8 L a batch: 15.8 %, 2.5 %, 0.39 %.
    const auto suits = meeting("ISO VG 46 hydraulic", "ISO VG 220 gear");
    REQUIRE(idsOf(suits) == Ids{"suit.cart.related", "suit.cart.carry-over", "suit.cart.flush"});
    CHECK_THAT(suits[1].sentence, Contains("13.3 %") && Contains("8.0 L into 60 L"));
    CHECK_THAT(suits[2].sentence, Contains("3 × 8.0 L") && Contains("24 L in all") && Contains("0.39 %"));
    // Where nothing drains, half is left each time: seven batches.
    const auto undrained = cartFluidSuits({"ISO VG 46 hydraulic", "ISO VG 220 gear", 8.0 * litre, {}, {}}).value();
    REQUIRE(idsOf(undrained) == Ids{"suit.cart.related", "suit.cart.flush"});
    CHECK_THAT(undrained[1].sentence, Contains("7 × 8.0 L"));
    CHECK_THAT(cartFluidSuits({"a", "b", Volume{}, {}, {}}).error().sentence, Contains("hold-up"));
    CHECK_THAT(cartFluidSuits({"a", "b", {}, -1.0 * litre, {}}).error().sentence, Contains("tank volume"));
    CHECK_THAT(cartFluidSuits({"a", "b", {}, {}, std::nan("") * litre}).error().sentence, Contains("left in the cart"));
}

TEST_CASE("what may stay of the last fluid is 1 % where the two mix, else no flush reaches it")
{
    CHECK(defaultRest(FluidFamily::Hydraulic, FluidFamily::Gear).rest == 1.0 * percent);
    CHECK(defaultRest(FluidFamily::Ester, FluidFamily::Ester).rest == 1.0 * percent);
    for (const auto own : {FluidFamily::FoodGrade, FluidFamily::PhosphateEster, FluidFamily::Polyglycol,
                           FluidFamily::Ester, FluidFamily::WaterGlycol}) {
        CHECK_FALSE(defaultRest(FluidFamily::Hydraulic, own).rest.has_value());
        CHECK_THAT(std::string(defaultRest(own, FluidFamily::Hydraulic).why), Contains("own cart"));
    }
    CHECK_FALSE(defaultRest(FluidFamily::Unknown, FluidFamily::Gear).rest.has_value());
    CHECK_THAT(std::string(defaultRest(FluidFamily::Unknown, FluidFamily::Gear).why), Contains("cannot tell"));
}

TEST_CASE("a pair of water elements that cannot finish is said, with how many more")
{
    // A case from the trade: 800 L with 1400 ppm hold about 0.97 L; two elements of 0.35 L hold 0.70 L: one pair more.
    const std::vector stages = {water(0.35 * litre), particles(3.0)};
    const auto balance =
        waterBalance(stages, 800.0 * litre, 870.0 * kilogramPerCubicMetre, 1400.0 * partPerMillion).value();
    CHECK_THAT(balance.water.in(litre), WithinAbs(0.97, 0.01));
    CHECK_THAT(balance.capacity.value().in(litre), WithinAbs(0.70, 1e-9));
    CHECK(balance.elements == 2);
    CHECK(balance.setsMore == 1);
    const auto suits = waterSuits(balance);
    REQUIRE(idsOf(suits) == Ids{"suit.water.short"});
    CHECK(suits[0].level == SuitLevel::Caution);
    CHECK_THAT(suits[0].sentence,
               Contains("cannot finish") && Contains("Drain free water") && Contains("at least 2 more"));
}

TEST_CASE("water that the elements hold, no water elements, or an unknown capacity is told so")
{
    const auto idFor = [](const std::vector<FittedStage>& stages, double ppm) {
        const auto balance = waterBalance(stages, 800.0 * litre, {}, ppm * partPerMillion).value();
        return waterSuits(balance).at(0).told.id;
    };
    CHECK(idFor({water(0.35 * litre)}, 500.0) == "suit.water.enough");
    CHECK(idFor({particles(3.0)}, 500.0) == "suit.water.no-stage");
    CHECK(idFor({water()}, 500.0) == "suit.water.capacity-unknown");
    const auto wrong = waterBalance(std::vector{water(Volume{})}, 800.0 * litre, {}, 500.0 * partPerMillion);
    REQUIRE_FALSE(wrong.has_value());
    CHECK_THAT(wrong.error().sentence, Contains("water capacity"));
    CHECK_FALSE(waterBalance(std::vector{water()}, -1.0 * litre, {}, 500.0 * partPerMillion).has_value());
}

TEST_CASE("every answer fills its values and ends in a full stop or a question")
{
    FittedStage odd = particles(1.0);
    odd.media = "cellulose";
    odd.seals = "NBR";
    const std::vector stages = {odd, particles(30.0), water(0.35 * litre)};
    std::vector<Suit> all = stageOrder(stages);
    for (const auto& more : {ratingSuits(stages, fluidNamed("gear VG 320")),
                             mediaSuits(stages, FluidFamily::PhosphateEster, 900.0 * partPerMillion),
                             meeting("VG 46 hydraulic", "VG 320 gear")}) {
        all.insert(all.end(), more.begin(), more.end());
    }
    CHECK(all.size() > 8);
    for (const Suit& suit : all) {
        CAPTURE(suit.sentence);
        CHECK(suit.sentence.find_first_of("{}") == std::string::npos);
        CHECK((suit.sentence.ends_with('.') || suit.sentence.ends_with('?')));
        CHECK_FALSE(nameOf(suit.level).empty());
        CHECK_FALSE(nameOf(suit.subject).empty());
    }
}
