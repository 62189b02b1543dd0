// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/fluid_family.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <string>

namespace loopside::oil {

namespace {

using enum FluidFamily;

struct FamilyWord
{
    std::string_view begins; ///< What a word of the text begins with; with a blank behind it, the whole word.
    FluidFamily family;
};

/// The words by which a family is known. The first that is found decides, so that what is special stands first, and
/// words that leave the base open stand before those that would make it mineral.
constexpr std::array familyWords = {
    FamilyWord{"food", FoodGrade},
    FamilyWord{"h1 ", FoodGrade},
    FamilyWord{"phosphate", PhosphateEster},
    FamilyWord{"hfd ", PhosphateEster},
    FamilyWord{"hfdr", PhosphateEster},
    FamilyWord{"water glycol", WaterGlycol},
    FamilyWord{"waterglycol", WaterGlycol},
    FamilyWord{"hfc", WaterGlycol},
    FamilyWord{"emulsion", Emulsion},
    FamilyWord{"hfa", Emulsion},
    FamilyWord{"hfb", Emulsion},
    FamilyWord{"polyglycol", Polyglycol},
    FamilyWord{"polyalkylene glycol", Polyglycol},
    FamilyWord{"polyalkyleneglycol", Polyglycol},
    FamilyWord{"pag ", Polyglycol},
    FamilyWord{"hepg", Polyglycol},
    FamilyWord{"ester", Ester},
    FamilyWord{"diester", Ester},
    FamilyWord{"polyolester", Ester},
    FamilyWord{"vegetable", Ester},
    FamilyWord{"hees", Ester},
    FamilyWord{"hetg", Ester},
    FamilyWord{"hfdu", Ester},
    FamilyWord{"pao ", SyntheticHydrocarbon},
    FamilyWord{"polyalphaolefin", SyntheticHydrocarbon},
    FamilyWord{"synthetic hydrocarbon", SyntheticHydrocarbon},
    FamilyWord{"hepr", SyntheticHydrocarbon},
    FamilyWord{"fire", Unknown},
    FamilyWord{"hfd", Unknown},
    FamilyWord{"water", Unknown},
    FamilyWord{"glycol", Unknown},
    FamilyWord{"synthetic", Unknown},
    FamilyWord{"biodegradable", Unknown},
    FamilyWord{"silicone", Unknown},
    FamilyWord{"multigrade", PolymerThickened},
    FamilyWord{"multi grade", PolymerThickened},
    FamilyWord{"vi improved", PolymerThickened},
    FamilyWord{"polymer", PolymerThickened},
    FamilyWord{"hvlp", PolymerThickened},
    FamilyWord{"hv ", PolymerThickened},
    FamilyWord{"hydraulic", Hydraulic},
    FamilyWord{"hlp", Hydraulic},
    FamilyWord{"hm ", Hydraulic},
    FamilyWord{"gear", Gear},
    FamilyWord{"clp", Gear},
    FamilyWord{"turbine", Turbine},
    FamilyWord{"circulating", Circulating},
    FamilyWord{"compressor", Compressor},
};

constexpr std::string_view waterNoLine =
    "The viscosity of a water-based fluid does not follow the line of an oil and shifts as its water evaporates: "
    "measure it.";
constexpr std::string_view waterNoDensity =
    "The density formula is for lubricating oil and does not hold for a water-based fluid.";
constexpr std::string_view polymerNoLine =
    "An oil thickened with polymers is far thicker in the cold than the viscosity line says, and thinner under shear.";
constexpr std::string_view notOilNoDensity =
    "The density formula is for lubricating oil of hydrocarbons; this fluid expands differently.";
constexpr std::string_view unknownNoLine =
    "The kind of fluid is not known, so that it cannot be told whether the viscosity line holds.";
constexpr std::string_view unknownNoDensity =
    "The kind of fluid is not known, so that it cannot be told whether the density formula holds.";

/// In the order of `FluidFamily`.
constexpr std::array traits = {
    FamilyTraits{"fluid of unknown kind", false, unknownNoLine, unknownNoDensity},
    FamilyTraits{"hydraulic oil", false, {}, {}},
    FamilyTraits{"gear oil", false, {}, {}},
    FamilyTraits{"turbine oil", false, {}, {}},
    FamilyTraits{"circulating oil", false, {}, {}},
    FamilyTraits{"compressor oil", false, {}, {}},
    FamilyTraits{"polymer-thickened oil", false, polymerNoLine, {}},
    FamilyTraits{"synthetic hydrocarbon", false, {}, {}},
    FamilyTraits{"ester", false, {}, notOilNoDensity},
    FamilyTraits{"polyglycol", false, {}, notOilNoDensity},
    FamilyTraits{"water-glycol", true, waterNoLine, waterNoDensity},
    FamilyTraits{"emulsion", true, waterNoLine, waterNoDensity},
    FamilyTraits{"phosphate ester", false, {}, notOilNoDensity},
    FamilyTraits{"food-grade fluid", false, {}, {}},
};
static_assert(traits.size() == static_cast<std::size_t>(FoodGrade) + 1);

/// A reason to stop, which holds for a family beside every other; what stands first counts for both.
struct Barrier
{
    FluidFamily family;
    Mixing mixing;
    std::string_view why;
};

constexpr std::array barriers = {
    Barrier{Unknown, Mixing::CannotTell,
            "The kind of one fluid is not known: treat them as incompatible until the supplier has said."},
    Barrier{FoodGrade, Mixing::Never, "Food-grade fluid takes no other into it, not a trace: it has its own cart."},
    Barrier{
        PhosphateEster, Mixing::Never,
        "Phosphate ester attacks the seals and hoses made for other fluids, and oil in it takes away its resistance to "
        "fire: it has its own cart."},
    Barrier{WaterGlycol, Mixing::Never,
            "Water-glycol does not mix with other fluids, and oil in it takes away its resistance to fire: it has its "
            "own cart."},
    Barrier{Emulsion, Mixing::Never,
            "An emulsion breaks with other fluids in it, and water from it harms them: it has its own cart."},
    Barrier{Polyglycol, Mixing::Incompatible,
            "Polyglycol does not mix with other fluids: they separate or gel, and plug elements."},
    Barrier{Ester, Mixing::Incompatible,
            "Ester swells seals that suit other fluids and loosens their deposits; not even a little is to be carried "
            "over."},
};

/// Lower-case words with single blanks between and at both ends.
std::string wordsOf(std::string_view text)
{
    std::string words = " ";
    for (const char sign : text) {
        const bool upper = sign >= 'A' && sign <= 'Z';
        const bool other = (sign >= 'a' && sign <= 'z') || (sign >= '0' && sign <= '9') || (sign & '\x80') != 0;
        if (upper || other) {
            words += upper ? static_cast<char>(sign - 'A' + 'a') : sign;
        } else if (words.back() != ' ') {
            words += ' ';
        }
    }
    return words.back() == ' ' ? words : words + ' ';
}

} // namespace

FluidFamily familyOf(std::string_view kind)
{
    const std::string words = wordsOf(kind);
    const auto found = std::find_if(familyWords.begin(), familyWords.end(), [&](const FamilyWord& word) {
        return words.find(" " + std::string(word.begins)) != std::string::npos;
    });
    return found == familyWords.end() ? Unknown : found->family;
}

Result<FluidFamily> familyNamed(std::string_view kind)
{
    const FluidFamily family = familyOf(kind);
    if (family == Unknown) {
        return fail(Errc::NotFound,
                    "\"" + quotable(kind)
                        + "\" does not tell the kind of fluid; known are hydraulic, gear, turbine, circulating, "
                          "compressor, multigrade, PAO, ester, polyglycol, water-glycol, emulsion, phosphate ester and "
                          "food-grade.");
    }
    return family;
}

const FamilyTraits& traitsOf(FluidFamily family)
{
    return traits.at(static_cast<std::size_t>(family));
}

MixingAdvice mixing(FluidFamily a, FluidFamily b)
{
    for (const Barrier& barrier : barriers) {
        if ((a == barrier.family || b == barrier.family) && (a != b || a == Unknown)) {
            return {barrier.mixing, barrier.why};
        }
    }
    if (a == b) {
        return {Mixing::Same, "Both are of one family; whether they are one product and grade, the labels must tell."};
    }
    const auto isEither = [&](FluidFamily family) { return a == family || b == family; };
    if (isEither(Turbine) && isEither(Gear)) {
        return {Mixing::Incompatible,
                "The additives of gear oil make turbine oil foam and hold water, even in traces."};
    }
    if (isEither(SyntheticHydrocarbon)) {
        return {Mixing::SameFamily,
                "Synthetic hydrocarbons and mineral oils mix, but additives may not suit each other: flush first, and "
                "have it approved."};
    }
    return {Mixing::SameFamily,
            "Both are mineral oils, but additives and grade may not suit each other: flush first, and have it "
            "approved."};
}

} // namespace loopside::oil
