// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How long the next elements may last, as lives that are over tell, and whether those that are in last as they should.
//
//   ln life normal with mean m and standard deviation s; a life that was cut short counts by the chance of being longer
//
// m and s are learned together on a grid. Beforehand: m alike likely from an e-th of the shortest to twenty times the
// longest; ln s normal about ln 0.5 with 0.5 (k = 1), so that one life or two say little. No randomness.
// Source: Bayes' rule; the likelihood of lives that were cut short as in survival analysis (Kaplan and Meier's problem,
//   1958, from memory). What is taken beforehand is our choice: 0.5 is by how much the dirt of a day differs where
//   nobody counts (learning.h).
// Validity: elements of one type, in litres' worth of the dirt at the start of their run.
// Uncertainty: it is the answer: the band holds 90 % of what is likely for the next life.

#pragma once

#include "filtration/clean_up_learned.h"
#include "run/standing.h"
#include "run/tank_past.h"

#include <optional>
#include <span>
#include <vector>

namespace loopside::run {

/// What lives that are over tell of the next.
struct LifeLearned
{
    /// A mean and a standard deviation of ln(litres) that are likely, and how likely; all add to 1.
    struct Case
    {
        double lnMean;
        double lnSpread;
        double weight;
    };

    int whole = 0; ///< Runs' elements that reached their limit.
    int cutShort = 0;
    std::optional<filtration::Band> litres = {}; ///< Of the next life; none while no life was whole.
    std::vector<Case> cases = {};                ///< Empty likewise.

    /// The chance that a life is over by `litres`, 0 to 1; a half while no life was whole.
    [[nodiscard]] double chanceShorter(double litres) const;
};

/// Lives that are not above 0 are left out.
[[nodiscard]] LifeLearned lifeLearned(std::span<const ElementLife> lives);

/// The lives that `learned` tells of elements of one type at one tank; not those that were used before or taken back.
[[nodiscard]] std::vector<ElementLife> livesOf(const std::vector<LoadingLearned>& learned, const std::string& tank,
                                               const std::string& type);

/// So many whole lives are a history that elements can be held against: our choice.
inline constexpr int livesForFinding = 3;

/// element-life-short: a stage reached its limit sooner than 19 of 20 lives of that type at that tank, in two thirds of
/// the middle one or less. element-life-long: it is below its limit though 19 of 20 would be over, by half and more of
/// the middle one: much longer than ever is no good luck before somebody looked. None where fewer than
/// `livesForFinding` lives are known, or the elements are used or mixed. By what the run was opened with.
[[nodiscard]] std::vector<Finding> findingsOfLives(const RunState& run, const Standing& standing);

} // namespace loopside::run
