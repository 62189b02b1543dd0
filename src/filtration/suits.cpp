// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/suits.h"

#include "base/text.h"
#include "filtration/checks.h"
#include "filtration/element_ratings.h"
#include "filtration/suit_sentence.h"
#include "oil/water.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace loopside::filtration {

using oil::FluidFamily;
using units::litre;
using units::Volume;

namespace {

constexpr double finestForNewOilUm = 3.0;
constexpr double wetPpm = 200.0; // mineral hydraulic oil takes 200 to 300 ppm at 20 °C, read in two explainers

std::string um(double number)
{
    return fixed(number, number == std::floor(number) ? 0 : 1);
}

std::string litres(Volume volume)
{
    return fixed(volume.in(litre), 2) + " L";
}

std::string lowered(std::string text)
{
    for (char& sign : text) {
        sign = sign >= 'A' && sign <= 'Z' ? static_cast<char>(sign - 'A' + 'a') : sign;
    }
    return text;
}

bool saysOneOf(const std::string& lowText, std::initializer_list<std::string_view> words)
{
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view word) { return lowText.find(word) != std::string::npos; });
}

/// Places of the particle stages, from 0.
std::vector<std::size_t> particlePlaces(std::span<const FittedStage> stages)
{
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < stages.size(); ++i) {
        if (!stages[i].isWater) {
            places.push_back(i);
        }
    }
    return places;
}

int number(std::size_t place)
{
    return static_cast<int>(place) + 1;
}

Suit waterPlace(std::size_t place, const std::vector<std::size_t>& particles)
{
    const SuitTopic topic{SuitLevel::Ok, SuitSubject::StageOrder, number(place)};
    if (place < particles.front()) {
        return suit(topic,
                    {"suit.order.water-first",
                     "Stage {stage} removes water ahead of the particle stages: they stay drier, but its elements "
                     "meet the coarse dirt. Allowed.",
                     commonPractice});
    }
    if (place > particles.back()) {
        return suit(topic,
                    {"suit.order.water-last",
                     "Stage {stage} removes water behind the particle stages: its elements are kept from dirt, but "
                     "the particle elements stand in wet oil. Allowed.",
                     commonPractice});
    }
    return suit(topic,
                {"suit.order.water-between",
                 "Stage {stage} removes water between particle stages: the coarse one keeps dirt from it, and it "
                 "keeps water from the fine one. Allowed.",
                 commonPractice});
}

/// The order of the particle stages alone.
std::vector<Suit> particleOrder(std::span<const FittedStage> stages, const std::vector<std::size_t>& particles)
{
    std::vector<Suit> suits;
    std::optional<double> finest;
    bool allKnown = true;
    for (const std::size_t place : particles) {
        const auto rating = stages[place].ratingUm;
        if (!rating) {
            allKnown = false;
            suits.push_back(suit({SuitLevel::Note, SuitSubject::StageOrder, number(place)},
                                 {"suit.order.unknown",
                                  "The rating of stage {stage} is not known: cannot tell whether the stages go from "
                                  "coarse to fine.",
                                  ""}));
            continue;
        }
        if (finest && *rating > *finest) {
            suits.push_back(suit({SuitLevel::Caution, SuitSubject::StageOrder, number(place)},
                                 {"suit.order.reversed",
                                  "Stage {stage}, {rating} µm, stands behind a finer one of {finest} µm, which takes "
                                  "all the dirt: are they swapped?",
                                  commonPractice},
                                 {{"rating", um(*rating)}, {"finest", um(*finest)}}));
        }
        finest = std::min(finest.value_or(*rating), *rating);
    }
    if (suits.empty() && allKnown) {
        suits.push_back(
            suit({SuitLevel::Ok, SuitSubject::StageOrder},
                 {"suit.order.coarse-to-fine", "The particle stages go from coarse to fine.", commonPractice}));
    }
    return suits;
}

/// The starting points side by side: "3–5 µm (who says so; how it is known); …".
std::string sideBySide(const std::vector<ElementRating>& ratings)
{
    std::string text;
    for (const ElementRating& rating : ratings) {
        const bool isLimit = rating.role == RatingRole::Limit;
        const std::string range = rating.fromUm == rating.toUm ? um(rating.toUm)
                                                               : um(rating.fromUm) + "–" + um(rating.toUm);
        text += (text.empty() ? "" : "; ") + (isLimit ? "at most " + um(rating.toUm) : range) + " µm (" + rating.source
            + ", " + rating.provenance + ")";
    }
    return text;
}

/// Whether one source at least would take this rating, and no limit is passed.
bool isAmong(double ratingUm, const std::vector<ElementRating>& ratings)
{
    bool taken = false;
    bool asked = false;
    for (const ElementRating& rating : ratings) {
        const bool inside = ratingUm >= rating.fromUm && ratingUm <= rating.toUm;
        if (rating.role == RatingRole::Limit) {
            if (!inside) {
                return false;
            }
            continue;
        }
        asked = true;
        taken = taken || inside;
    }
    return taken || !asked;
}

Suit ratingSuit(int stage, double ratingUm, const std::vector<ElementRating>& ratings)
{
    if (ratings.empty()) {
        return suit({SuitLevel::Note, SuitSubject::Rating, stage},
                    {"suit.rating.none",
                     "No starting points are known for the rating of stage {stage}, {rating} µm, in this fluid: ask "
                     "the supplier.",
                     ""},
                    {{"rating", um(ratingUm)}});
    }
    const std::string points = sideBySide(ratings);
    if (isAmong(ratingUm, ratings)) {
        return suit(
            {SuitLevel::Ok, SuitSubject::Rating, stage},
            {"suit.rating.among", "Stage {stage}, {rating} µm, is among the starting points for this fluid.", points},
            {{"rating", um(ratingUm)}});
    }
    return suit({SuitLevel::Note, SuitSubject::Rating, stage},
                {"suit.rating.outside",
                 "Stage {stage}, {rating} µm, is not among the starting points for this fluid. A hint, no verdict: the "
                 "expected clean ΔP decides.",
                 points},
                {{"rating", um(ratingUm)}});
}

std::optional<Suit> celluloseSuit(int stage, FluidFamily fluid, std::optional<units::Fraction> water)
{
    if (oil::traitsOf(fluid).isWaterBased) {
        return suit({SuitLevel::Conflict, SuitSubject::Media, stage},
                    {"suit.media.cellulose-water-based",
                     "The elements of stage {stage} are of cellulose, which swells in a water-based fluid: fit "
                     "synthetic media.",
                     commonPractice});
    }
    if (!water) {
        return suit({SuitLevel::Note, SuitSubject::Media, stage},
                    {"suit.media.cellulose-look",
                     "The elements of stage {stage} are of cellulose, which swells in wet oil. The water is not known: "
                     "look for haze.",
                     commonPractice});
    }
    if (water->in(units::partPerMillion) > wetPpm) {
        return suit({SuitLevel::Caution, SuitSubject::Media, stage},
                    {"suit.media.cellulose-wet",
                     "The elements of stage {stage} are of cellulose, which swells in wet oil, and the oil holds {ppm} "
                     "ppm of water.",
                     "common practice; 200 ppm as what mineral oil may hold dissolved at 20 °C"},
                    {{"ppm", fixed(water->in(units::partPerMillion), 0)}});
    }
    return std::nullopt;
}

/// Seals for phosphate ester. Source: EPDM and butyl last, NBR and polyurethane do not, FKM depends: from memory.
std::optional<Suit> sealSuit(int stage, const std::string& seals)
{
    const std::string low = lowered(seals);
    constexpr std::string_view source = "from memory; the supplier of fluid or element tells";
    if (saysOneOf(low, {"nbr", "nitrile", "hnbr", "buna", "polyurethane", "neoprene"})) {
        return suit({SuitLevel::Conflict, SuitSubject::Media, stage},
                    {"suit.media.seals-attacked",
                     "The seals of stage {stage} are told as {seals}: phosphate ester attacks them.", source},
                    {{"seals", quotable(seals)}});
    }
    if (saysOneOf(low, {"epdm", "epr", "butyl", "iir"})) {
        return std::nullopt;
    }
    if (low.empty()) {
        return suit({SuitLevel::Caution, SuitSubject::Media, stage},
                    {"suit.media.seals-unknown",
                     "The seals of stage {stage} are not told, and phosphate ester needs seals made for it: ask.",
                     source});
    }
    return suit({SuitLevel::Caution, SuitSubject::Media, stage},
                {"suit.media.seals-ask",
                 "The seals of stage {stage} are told as {seals}: ask whether they are made for this phosphate ester.",
                 source},
                {{"seals", quotable(seals)}});
}

} // namespace

std::string_view nameOf(SuitLevel level)
{
    constexpr std::array<std::string_view, 4> names = {"ok", "note", "caution", "conflict"};
    return names.at(static_cast<std::size_t>(level));
}

std::string_view nameOf(SuitSubject subject)
{
    constexpr std::array<std::string_view, 5> names = {"stage order", "rating", "media", "cart's last fluid", "water"};
    return names.at(static_cast<std::size_t>(subject));
}

std::vector<Suit> stageOrder(std::span<const FittedStage> stages)
{
    const auto particles = particlePlaces(stages);
    if (particles.empty()) {
        return {};
    }
    std::vector<Suit> suits = particleOrder(stages, particles);
    for (std::size_t i = 0; i < stages.size(); ++i) {
        if (stages[i].isWater) {
            suits.push_back(waterPlace(i, particles));
        }
    }
    return suits;
}

std::vector<Suit> ratingSuits(std::span<const FittedStage> stages, const NamedFluid& fluid)
{
    const auto particles = particlePlaces(stages);
    std::vector<Suit> suits;
    for (const std::size_t place : particles) {
        const auto rating = stages[place].ratingUm;
        if (!rating) {
            continue; // `stageOrder` has said so
        }
        const StagePlace among{place == particles.front(), place == particles.back()};
        suits.push_back(ratingSuit(number(place), *rating, ratingsFor(fluid.family, fluid.grade, among)));
        if (*rating < finestForNewOilUm) {
            suits.push_back(suit({SuitLevel::Note, SuitSubject::Rating, number(place)},
                                 {"suit.rating.fine",
                                  "Stage {stage} is finer than 3 µm. Whether so fine an element takes additives from "
                                  "new oil is disputed: ask the oil supplier.",
                                  "trade articles that disagree, read in part"}));
        }
    }
    return suits;
}

std::vector<Suit> mediaSuits(std::span<const FittedStage> stages, FluidFamily fluid,
                             std::optional<units::Fraction> water)
{
    std::vector<Suit> suits;
    const auto add = [&](std::optional<Suit> one) {
        if (one) {
            suits.push_back(*std::move(one));
        }
    };
    for (std::size_t i = 0; i < stages.size(); ++i) {
        if (stages[i].isWater && oil::traitsOf(fluid).isWaterBased) {
            add(suit(
                {SuitLevel::Conflict, SuitSubject::Media, number(i)},
                {"suit.media.water-element",
                 "Stage {stage} removes water, and the fluid is water-based: the water belongs to it. Fit no water "
                 "element.",
                 commonPractice}));
        }
        if (saysOneOf(lowered(stages[i].media), {"cellulose", "paper"})) {
            add(celluloseSuit(number(i), fluid, water));
        }
        if (fluid == FluidFamily::PhosphateEster) {
            add(sealSuit(number(i), stages[i].seals));
        }
    }
    return suits;
}

Result<WaterBalance> waterBalance(std::span<const FittedStage> stages, Volume oil,
                                  std::optional<units::Density> density, units::Fraction water, units::Fraction to)
{
    WaterBalance balance{};
    Volume capacity;
    bool isKnown = true;
    for (const FittedStage& stage : stages) {
        if (!stage.isWater) {
            continue;
        }
        if (stage.waterCapacity) {
            if (auto checked = checkAboveZero(stage.waterCapacity->in(litre), "water capacity of an element", "L");
                !checked) {
                return fail(checked.error());
            }
        }
        isKnown = isKnown && stage.waterCapacity.has_value();
        balance.elements += stage.elements;
        capacity += stage.elements * stage.waterCapacity.value_or(Volume{});
    }
    const auto taken = oil::waterToRemove(oil, density.value_or(870.0 * units::kilogramPerCubicMetre), water, to);
    if (!taken) {
        return fail(taken.error());
    }
    balance.water = *taken;
    if (isKnown && balance.elements > 0) {
        balance.capacity = capacity;
        balance.setsMore = std::max(0, static_cast<int>(std::ceil(*taken / capacity * (1.0 - 1e-12))) - 1);
    }
    return balance;
}

std::vector<Suit> waterSuits(const WaterBalance& balance)
{
    const std::string water = litres(balance.water);
    if (balance.elements == 0) {
        return {suit({SuitLevel::Note, SuitSubject::Water},
                     {"suit.water.no-stage",
                      "The oil holds about {water} of water to take out, and no water elements are fitted.",
                      "mass balance"},
                     {{"water", water}})};
    }
    if (!balance.capacity) {
        return {suit({SuitLevel::Caution, SuitSubject::Water},
                     {"suit.water.capacity-unknown",
                      "The oil holds about {water} of water to take out. What the water elements hold is not known: "
                      "cannot tell whether they suffice.",
                      "mass balance"},
                     {{"water", water}})};
    }
    if (balance.setsMore == 0) {
        return {suit({SuitLevel::Ok, SuitSubject::Water},
                     {"suit.water.enough",
                      "The oil holds about {water} of water to take out, besides free water; the fitted elements hold "
                      "{capacity}.",
                      "mass balance"},
                     {{"water", water}, {"capacity", litres(*balance.capacity)}})};
    }
    return {suit({SuitLevel::Caution, SuitSubject::Water},
                 {"suit.water.short",
                  "The fitted water elements cannot finish: about {water} of water and any free water, and they hold "
                  "{capacity}. Drain free water first, and bring at least {elements} more of them.",
                  "mass balance"},
                 {{"water", water},
                  {"capacity", litres(*balance.capacity)},
                  {"elements", std::to_string(balance.setsMore * balance.elements)}})};
}

} // namespace loopside::filtration
