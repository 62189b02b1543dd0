// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Which family a fluid belongs to, as far as the words by which a person names its kind tell: what may be computed for
// it, and what must not be mixed with it.
//
// Source: common practice, no source, unless said otherwise; the letters of ISO 6743, ISO 12922 and DIN 51524 from
//   memory.
// Validity: a family says nothing of maker, additives and grade. Words that leave the base open, such as "synthetic
//   gear oil" (hydrocarbon, ester or polyglycol) or "fire-resistant", are no family: unknown is said, nothing is
//   guessed.

#pragma once

#include "base/result.h"

#include <optional>
#include <string_view>

namespace loopside::oil {

enum class FluidFamily
{
    Unknown,
    Hydraulic,            ///< Mineral; HM, HLP.
    Gear,                 ///< Mineral; CLP.
    Turbine,              ///< Mineral.
    Circulating,          ///< Mineral.
    Compressor,           ///< Mineral.
    PolymerThickened,     ///< Mineral with a viscosity index improver; HV, HVLP, multigrade.
    SyntheticHydrocarbon, ///< Polyalphaolefin (PAO); HEPR.
    Ester,                ///< Synthetic or natural; HEES, HETG, HFDU.
    Polyglycol,           ///< PAG; HEPG.
    WaterGlycol,          ///< HFC.
    Emulsion,             ///< HFA, HFB.
    PhosphateEster,       ///< HFD, HFDR.
    FoodGrade,            ///< Of any base; H1.
};

/// What holds for every fluid of a family. The sentences are whole and end in a full stop.
struct FamilyTraits
{
    std::string_view name; ///< "hydraulic oil", fit to stand within a sentence.
    bool isWaterBased;
    std::optional<std::string_view> whyNoLine;    ///< Why the viscosity line (walther.h) does not hold; none: it does.
    std::optional<std::string_view> whyNoDensity; ///< The same of the density formula (density.h).
};

/// The family that `kind`, free text such as "hydraulic", "PAO gear" or "HFC", names; `Unknown` if it names none.
/// Words for what is special come first: "food-grade PAO gear oil" is food-grade, "phosphate ester turbine" an ester.
[[nodiscard]] FluidFamily familyOf(std::string_view kind);

/// The same, but where no family is named NotFound, in a sentence that quotes `kind` and lists what is known.
[[nodiscard]] Result<FluidFamily> familyNamed(std::string_view kind);

[[nodiscard]] const FamilyTraits& traitsOf(FluidFamily family);

/// What may be done with two fluids that would come together, as in a cart that last held another one.
enum class Mixing
{
    Same,         ///< One family. Whether it is one product, only its name tells.
    SameFamily,   ///< Bases that mix; additives and grade may not suit: flush, and have it approved.
    CannotTell,   ///< The family of one is not known: to be treated as incompatible until it is.
    Incompatible, ///< Not to be mixed: another base.
    Never,        ///< Food-grade or fire-resistant on one side only: stop; its own cart.
};

/// How two fluids go together, and why, in one whole sentence.
struct MixingAdvice
{
    Mixing mixing;
    std::string_view why;
};

/// The advice for two families; the order does not matter.
[[nodiscard]] MixingAdvice mixing(FluidFamily a, FluidFamily b);

} // namespace loopside::oil
