// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What suits and what does not, before the start: stages, elements, fluid, what the cart held last, water. Each answer
// is a sentence with its source. They are asked and shown, never enforced: a person decides.
//
// Source: common practice unless an answer says otherwise. What is not known is said, not guessed.

#pragma once

#include "base/result.h"
#include "oil/fluid_family.h"
#include "oil/grade.h"
#include "units/quantity.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::filtration {

enum class SuitLevel
{
    Ok,
    Note,    ///< Worth knowing.
    Caution, ///< To be settled before the start.
    Conflict ///< Does not go together.
};

enum class SuitSubject
{
    StageOrder,
    Rating,
    Media,
    CartFluid,
    Water
};

/// "ok", "note", "caution", "conflict".
[[nodiscard]] std::string_view nameOf(SuitLevel level);

/// "stage order", "rating", "media", "cart's last fluid", "water".
[[nodiscard]] std::string_view nameOf(SuitSubject subject);

/// Whether one thing suits another, and why.
struct Suit
{
    SuitLevel level;
    SuitSubject subject;
    std::optional<int> stage; ///< From 1; none: not of one stage.
    std::string sentence;     ///< In English.
    Message told;             ///< The same for the word catalogue.
    std::string source;
};

/// One stage as it is fitted. Texts are free, empty if not known.
struct FittedStage
{
    bool isWater = false; ///< Else it takes particles.
    int elements = 2;
    std::optional<double> ratingUm = {};
    std::string media = {};                          ///< Such as glass, cellulose.
    std::string seals = {};                          ///< Such as NBR, FKM, EPDM.
    std::optional<units::Volume> waterCapacity = {}; ///< Of one element.
};

/// A fluid as its words tell it.
struct NamedFluid
{
    oil::FluidFamily family = oil::FluidFamily::Unknown;
    std::optional<oil::Grade> grade = {};
};

/// Family and ISO VG grade from free text such as "ISO VG 46 hydraulic", "HLP 46" or "VG220 gear"; what it does not
/// tell stays unknown. A number counts as a grade behind "VG", or alone where no SAE grade can be meant.
[[nodiscard]] NamedFluid fluidNamed(std::string_view text);

/// Whether the particle stages go from coarse to fine, and what it means where a water stage stands. Ahead of or behind
/// the particle stages are both allowed.
[[nodiscard]] std::vector<Suit> stageOrder(std::span<const FittedStage> stages);

/// Each particle stage's rating against assets/reference/element_ratings.csv: a hint with all sources, at most a note.
[[nodiscard]] std::vector<Suit> ratingSuits(std::span<const FittedStage> stages, const NamedFluid& fluid);

/// Kind, media and seals of each stage against the fluid; `water` by mass, if it is known.
[[nodiscard]] std::vector<Suit> mediaSuits(std::span<const FittedStage> stages, oil::FluidFamily fluid,
                                           std::optional<units::Fraction> water);

/// Cart and tank that are to meet.
struct CartMeetsTank
{
    std::string lastFluid; ///< What the cart held last, free text such as "ISO VG 46 hydraulic" or "used oil".
    std::string fluid;     ///< What the tank holds, free text.
    std::optional<units::Volume> holdUp = {};
    std::optional<units::Volume> tank = {}; ///< The oil in it.
    std::optional<units::Volume> left = {}; ///< Stays in the cart after draining; none: nothing drains, the worst case.
};

/// The cart's last fluid against the tank's: what it is, how much would be carried over, how to flush. A flush is told
/// in batches of the hold-up, and only where flushing is enough.
/// OutOfRange, naming it, for a volume that is not above 0.
[[nodiscard]] Result<std::vector<Suit>> cartFluidSuits(const CartMeetsTank& meeting);

/// Which rest of the cart's last fluid may stay, by default.
struct WantedRest
{
    std::optional<units::Fraction> rest; ///< None: it cannot be reached by flushing, or nobody can tell.
    std::string_view why;
};

/// 1 % where the two mix; none, for their own cart is needed, where they do not or where one is food-grade, phosphate
/// ester, polyglycol, ester or water-based and the other is not; none where either is unknown. Source: judgement from
/// common practice.
[[nodiscard]] WantedRest defaultRest(oil::FluidFamily from, oil::FluidFamily to);

/// Water in the tank against what the water elements hold.
struct WaterBalance
{
    units::Volume water;                   ///< To take out; free water that has settled comes on top.
    std::optional<units::Volume> capacity; ///< Of all fitted water elements; none if not known.
    int elements;                          ///< Water elements that are fitted.
    int setsMore;                          ///< Further sets of as many that are needed; 0 where it is not known.
};

/// Without a density 870 kg/m³ is taken, usual for mineral oil. `to`: how wet the oil may stay.
/// OutOfRange as of `oil::waterToRemove`, and for a capacity that is not above 0.
[[nodiscard]] Result<WaterBalance> waterBalance(std::span<const FittedStage> stages, units::Volume oil,
                                                std::optional<units::Density> density, units::Fraction water,
                                                units::Fraction to = {});

/// What a balance means, in sentences.
[[nodiscard]] std::vector<Suit> waterSuits(const WaterBalance& balance);

} // namespace loopside::filtration
