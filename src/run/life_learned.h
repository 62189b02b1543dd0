// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How long the next elements may last, as lives that are over tell (next_value.h), and how many a run takes.
//
// Lives are in litres' worth of the dirt at the start of their run; they stray beforehand as the dirt of a day does
// that nobody counted (learning.h).

#pragma once

#include "run/next_value.h"
#include "run/state.h"
#include "run/tank_past.h"

#include <optional>
#include <span>
#include <vector>

namespace loopside::run {

/// What lives that are over tell of the next.
struct LifeLearned
{
    int whole = 0; ///< That reached their limit.
    int cutShort = 0;
    std::optional<filtration::Band> litres = {};  ///< Of the next life; none while no life was whole.
    int shapes = 0;                               ///< Lives whose way to the limit is known.
    std::optional<filtration::Band> halfWay = {}; ///< ΔP half-way ÷ at the end, of the next life; none without any.
};

/// Elements, 5 %, 50 % and 95 % of what is likely.
struct ElementsBand
{
    int low = 0;
    int best = 0;
    int high = 0;
    friend bool operator==(const ElementsBand&, const ElementsBand&) = default;
};

/// A number of elements as it is told: whole, from 0, none that nobody could count.
[[nodiscard]] int wholeElements(double elements);

/// As many elements of a stage that has `inStage` as `turnovers` of the tank are likely to use up: the dirt that comes
/// by (forecast/load_axis.h) ÷ how long the elements last. Rounded down at the low end and up at the high one, because
/// those that are in may be new or nearly over.
[[nodiscard]] ElementsBand elementsFor(double turnovers, const TankRecord& tank, const filtration::Band& life_l,
                                       int inStage);

/// Of the next life. Lives that are not above 0 are left out.
[[nodiscard]] NextValue nextLife(std::span<const ElementLife> lives);

/// How many of them reached their limit.
[[nodiscard]] int wholeLives(std::span<const ElementLife> lives);

/// Lives that are not above 0 are left out.
[[nodiscard]] LifeLearned lifeLearned(std::span<const ElementLife> lives);

/// The lives that `learned` tells of elements of one type at one tank; not those that were used before or taken back.
[[nodiscard]] std::vector<ElementLife> livesOf(const std::vector<LoadingLearned>& learned, const std::string& tank,
                                               const std::string& type);

/// So many whole lives are a history that elements can be held against: our choice.
inline constexpr int livesForFinding = 3;

} // namespace loopside::run
