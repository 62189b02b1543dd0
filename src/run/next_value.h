// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the next value of a kind may be, such as the next element's life, from those that were seen.
//
//   ln value normal with mean m and standard deviation s; of a value that is known only to be larger the chance counts
//
// m and s are learned together on a grid; no randomness. Beforehand: m normal about what was told, or alike likely from
// an e-th of the smallest value seen to twenty times the largest; ln s normal about what is usual, with 0.5 (k = 1):
// few values say little. Source: Bayes' rule; values that are cut short as in survival analysis (Kaplan and Meier's
// problem, 1958, from
//   memory). What is taken beforehand is our choice.
// Validity: values above 0, independent of each other.
// Uncertainty: it is the answer: the band holds 90 % of what is likely.

#pragma once

#include "filtration/clean_up_learned.h"

#include <optional>
#include <span>
#include <vector>

namespace loopside::run {

struct ValueSeen
{
    double value = 0.0;     ///< Above 0.
    bool isAtLeast = false; ///< It would have become larger.
    double lnUnsure = 0.0;  ///< Standard deviation of its logarithm, from reading it.
};

/// What is taken before any value is seen.
struct Beforehand
{
    double spread = 0.5;             ///< Usual standard deviation of ln(value), above 0.
    std::optional<double> told = {}; ///< What somebody said the value is.
    double toldUnsure = 0.3;         ///< Standard deviation of the logarithm of that, above 0.
};

class NextValue
{
public:
    /// From `seen`, which may be empty only where a value was told. Nothing is known where neither was told nor any
    /// value seen that is not only a bound: then there is no band.
    [[nodiscard]] static NextValue from(std::span<const ValueSeen> seen, const Beforehand& beforehand);

    [[nodiscard]] bool isKnown() const { return !cases_.empty(); }

    /// The chance that the next value is below `value` (above 0), 0 to 1; a half where nothing is known.
    [[nodiscard]] double chanceBelow(double value) const;

    /// Takes some hundred times as long as a chance. `isKnown` must hold.
    [[nodiscard]] filtration::Band band() const;

private:
    /// A mean and a standard deviation that are likely, and how likely; all add to 1.
    struct Case
    {
        double lnMean;
        double spread;
        double weight;
    };

    explicit NextValue(std::vector<Case> cases) : cases_{std::move(cases)} {}
    [[nodiscard]] static double lnWeight(const Case& one, std::span<const ValueSeen> seen,
                                         const Beforehand& beforehand);
    [[nodiscard]] double quantile(double part) const;

    std::vector<Case> cases_;
};

} // namespace loopside::run
