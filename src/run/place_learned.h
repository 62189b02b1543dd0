// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What runs that are over taught of a tank and of a cart's dials: values with the number of runs behind each. How they
// come about: tank_learned.h.

#pragma once

#include "filtration/clean_up_learned.h"

#include <optional>
#include <vector>

namespace loopside::run {

/// How well a tank mixes, with what the elements catch.
struct MixingLearned
{
    filtration::Band captureTimesMixing = {}; ///< k, 0 to 1.
    double told = 0.0;                        ///< What was taken beforehand.
    int runs = 0;                             ///< Behind it; with 0 the band is what was taken beforehand.
    friend bool operator==(const MixingLearned&, const MixingLearned&) = default;
};

/// At one size.
struct IngressLearned
{
    filtration::Band perMlADay = {}; ///< By how much the count rises.
    int gaps = 0;                    ///< Between runs, behind it: 1 or more.

    /// Whether the counts tell that anything gets in. If not, only the high end means something. As of
    /// `filtration::LearnedTank::isFloorTold`.
    [[nodiscard]] bool isTold() const { return perMlADay.low * 10.0 >= perMlADay.best; }
    friend bool operator==(const IngressLearned&, const IngressLearned&) = default;
};

/// What dials show of clean elements, at the stage's reference conditions.
struct CleanLearned
{
    std::optional<filtration::Band> drop_pa = {}; ///< Of the next set; none where nothing was told or seen.
    int runs = 0;                                 ///< Sets of elements behind it.
    friend bool operator==(const CleanLearned&, const CleanLearned&) = default;
};

/// So many sets of new elements are a history that the next can be held against: our choice.
inline constexpr int setsForClean = 3;

/// What holds for one run, for good.
struct PlaceLearned
{
    std::optional<MixingLearned> mixing = {}; ///< None where no run at the tank taught it.
    filtration::PerSize<std::optional<IngressLearned>> ingress = {};
    std::vector<CleanLearned> clean = {}; ///< By stage; those behind the last that was seen are left out.

    /// What so many sets showed of the clean elements of `stage` (from 1); nothing from fewer than `setsForClean`.
    [[nodiscard]] const CleanLearned* cleanOf(int stage) const
    {
        const auto place = static_cast<std::size_t>(stage) - 1;
        const bool isKnown = place < clean.size() && clean[place].drop_pa && clean[place].runs >= setsForClean;
        return isKnown ? &clean[place] : nullptr;
    }

    friend bool operator==(const PlaceLearned&, const PlaceLearned&) = default;
};

} // namespace loopside::run
