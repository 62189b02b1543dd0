// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What counts taken during a run tell of the tank and its cart, at one size: the model of clean_up.h with C₀, k and F
// as they are likely after the counts, on a grid.
//
//   ln cᵢ = ln C(nᵢ) + error,   error normal with σᵢ² = scatter² + 1/Nᵢ + spread²
//
// Beforehand: k alike likely from 0 to 1; ln C₀ within five σ of the first count; ln F from a thousandth of the lowest
// count up to three σ above it. The grid is laid five times, ever closer about what the counts allow, first with errors
// of eight times their size so that a narrow answer is not stepped over. No randomness: the same counts tell the same.
// Source: Bayes' rule; Poisson statistics for 1/N; scatter of one scale number between two tests of one oil is common
//   practice, taken as two standard deviations: ln 2 / 2.
// Validity: the validity of the model; counts of one sampling place, method and counter. A first count of a layered
//   tank misleads.
// Uncertainty: it is the answer: bands hold 90 % of what is likely.

#pragma once

#include "base/result.h"
#include "filtration/clean_up.h"

#include <optional>
#include <span>
#include <vector>

namespace loopside::filtration {

/// A count, and at how many turnovers its bottle was filled.
struct CountSeen
{
    double turnovers;                     ///< From 0.
    double perMl;                         ///< Above 0.
    std::optional<double> particles = {}; ///< N, how many were counted, above 0; none: not included.
    double spread = 0.0;                  ///< Standard deviation of ln c because only a range is known.
};

/// What is known of a count from its scale number: the middle of its range (geometric) with the range's spread; for
/// number 0 half of its limit. Unavailable for ">28", "*" and "−".
[[nodiscard]] Result<CountSeen> countSeen(double turnovers, const oil::ScaleNumber& scale);

/// Standard deviation of ln c between two tests of the same oil.
inline constexpr double testScatter = 0.34657359027997264; // ln 2 / 2

/// 5 %, 50 % and 95 % of what is likely.
struct Band
{
    double low;
    double best;
    double high;
    friend bool operator==(const Band&, const Band&) = default;
};

/// When a target is reached.
struct Reach
{
    std::optional<double> low; ///< Turnovers since the first count, as of `Band`; none: never, in so many cases.
    std::optional<double> best;
    std::optional<double> high;
    double neverShare; ///< How likely it is that the target is never reached, 0 to 1.
};

/// The tank as the counts tell it.
class LearnedTank
{
public:
    /// A tank that is likely, and how likely, with all of them adding to 1.
    struct Case
    {
        double startPerMl; ///< At the first count.
        MixedTank tank;
        double weight;
    };

    /// From two counts or more at different turnovers; their order does not matter.
    /// OutOfRange, naming it, for a number that cannot be; Unavailable for too few counts.
    [[nodiscard]] static Result<LearnedTank> from(std::span<const CountSeen> counts, double scatter = testScatter);

    [[nodiscard]] Band captureTimesMixing() const;
    [[nodiscard]] Band floorPerMl() const;

    /// Whether the counts tell the floor at all. If not, its band is what was assumed beforehand and only its upper end
    /// means something. Our rule: the band's low end is at least a tenth of its middle.
    [[nodiscard]] bool isFloorTold() const;

    /// The likeliest case: the weighted least squares fit, to the grid's width.
    [[nodiscard]] const Case& likeliest() const;

    /// The true count so many turnovers after the first count (from 0).
    [[nodiscard]] Result<Band> countAfter(double turnovers) const;

    /// When `targetPerMl` (above 0) is reached, counted from the first count.
    [[nodiscard]] Result<Reach> turnoversTo(double targetPerMl) const;

    [[nodiscard]] std::span<const Case> cases() const { return cases_; }

private:
    explicit LearnedTank(std::vector<Case> cases) : cases_{std::move(cases)} {}

    std::vector<Case> cases_;
};

} // namespace loopside::filtration
