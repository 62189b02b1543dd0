// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What past loadings teach: their shapes, how far shapes differ at each phase, and how long they lived.
//
// A loading that was cut short teaches no shape. Its life is longer than what was seen, so its weight goes to the lives
// that are longer, in equal parts (Efron's redistribution to the right, Proc. 5th Berkeley Symp. IV, 1967, from
// memory); where none is, to lives of 1.25 to 12 times as long
// (our choice: wide). At most `pastMax` loadings count: the nearest kin, of those the
// last given. So memory and time are bounded.

#pragma once

#include "base/result.h"
#include "forecast/shape.h"

#include <Eigen/Core>

#include <cstddef>
#include <span>
#include <vector>

namespace loopside::forecast {

inline constexpr std::size_t pastMax = 128;

/// Densities over ln(life), in equal steps, a row for each shape: all of it sums to the number of shapes.
struct LifeTable
{
    double lnFirst = 0.0;
    double lnStep = 0.0;
    Eigen::ArrayXXd densities; ///< Empty where nothing was learned.
};

/// A group of shapes that stand equally near, with how a new loading may differ from them.
struct Family
{
    /// Drop ÷ limit: a row for each shape, a column for each phase.
    Eigen::ArrayXXd drops;
    std::vector<double> lnLives; ///< One for each shape; empty where shapes have none (blocking laws).
    double weight = 1.0;         ///< Of the whole family, before any reading.
    double deviation = 0.0;      ///< Least standard deviation of ln(drop) about a shape.
    double memory = 0.15;        ///< Phase over which a deviation lasts (to 1/e).
    double ownPart = 1.0;        ///< How much of a shape is its own; the rest is the family's mean.
    double spreadPart = 0.0;     ///< Part of the family's spread that a new loading deviates by.
    double ownLife = 0.0;        ///< How strongly a shape goes with its own life, 0 to 1.
    LifeTable lives = {};        ///< Where shapes and lives were learned together; else `History::lives` holds.
};

/// One life that may be, on the scale of ln(load).
struct Life
{
    double lnLoad;
    double weight;
};

/// What is known of lives before any reading: bells of one width, and a wide one.
struct Lives
{
    std::vector<Life> bells; ///< Weights sum to 1. Empty where nothing is known.
    double width = 0.0;
    double widePart = 0.0;
    double wideMean = 0.0;
    double wideWidth = 0.0;
};

/// The blocking laws once more, for loadings that keep to one of them: what belongs to a history that knows something
/// of lives but little of shapes. Where nothing at all is known they would be too sure of it.
[[nodiscard]] Family smoothLaws();

/// All that a forecast may learn from. Immutable; may be shared.
struct History
{
    std::vector<Family> families; ///< The blocking laws last.
    Lives lives;
    double likelihoodPower = 1.0; ///< Below 1 where axis and laws are only nearly right, so that many readings do not
                                  ///< make a wrong law sure (power posterior).
    int loadings = 0;             ///< That reached the limit and count.
    int ofType = 0;               ///< Of these, of the same element type, on this tank or another.
    int cutShort = 0;             ///< That count by their life alone.
};

/// Learns from `past` against a corrected `limit`. `loadUnitError`: standard deviation of the logarithm by which the
/// unit of loads differs from one loading to another; 0 for litres or seconds at a steady feed, about 0.5 for turnovers
/// of a tank whose dirt nobody counted. Loadings that cannot be used (no load, fewer than three points) are left out.
/// OutOfRange, naming it, if the limit is not above 0, the error negative or a number not finite.
[[nodiscard]] Result<History> learn(std::span<const PastLoading> past, units::Pressure limit,
                                    double loadUnitError = 0.0);

} // namespace loopside::forecast
