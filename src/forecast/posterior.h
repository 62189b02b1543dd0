// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How likely each life is, given the readings: the heart of the forecast.
//
//   s = ln(p + p₀)      p: drop ÷ limit; p₀: softening, so that gauge error near nothing stays small
//   s(x) = shapeⱼ(x/L) + σ(x/L)·z(x/L) + reading error
//
// Each pair of a shape j and a life L is one hypothesis. The shape is drawn towards the mean of its family. z is a
// process of unit variance whose correlation falls off as e^(−Δphase/memory), and σ goes to nothing at the limit, where
// L is what it is by its meaning. Given j and L the readings are Gaussian, so a scalar Kalman filter gives their
// likelihood exactly (Jazwinski, Stochastic Processes and Filtering Theory, 1970, from memory). Lives lie on a fixed
// grid: no random numbers.
// A reading that even the best hypothesis finds odd (beyond √6 standard deviations) weighs less, as under Student's t
// with four degrees of freedom; one second pass.
// Uncertainty: steps of the process (lumps that land or break off) are larger on open bench data than the gauges'
// errors and set the limit: in the middle of a life they are worth about 5 % of it.

#pragma once

#include "forecast/history.h"

#include <Eigen/Core>

#include <span>
#include <vector>

namespace loopside::forecast {

/// Readings as the filter takes them: loads above 0 and rising, drops and variances in units of the limit (squared).
struct Observation
{
    double load;
    double drop;
    double variance;
};

/// At most `observationsMax` observations that say what `all` say: neighbours within a fortieth of the last load become
/// their mean. `all` in the order of loads.
inline constexpr std::size_t observationsMax = 41;
[[nodiscard]] std::vector<Observation> gathered(std::span<const Observation> all);

/// The mean of the first three drops, or of all if there are fewer. Not a number without any.
[[nodiscard]] double firstDrop(std::span<const Observation> observations);

/// Lives beyond the last load, in rising order, and the probability of each; they sum to 1.
struct Posterior
{
    std::vector<double> loads;
    std::vector<double> masses;
};

/// What a loading is besides its readings.
struct Circumstances
{
    double now = 0.0;      ///< The load now: above 0, not before the last observation; the limit is not yet reached.
    double standing = 0.0; ///< Standing error (k = 1) of the drop in units of the limit: it shifts all readings
                           ///< together, as a deviation of the shape would.
    bool isUsed = false;   ///< The elements had caught something at load 0. How much is judged from the first readings
                         ///< and each family's mean shape, or each shape where lives were learned with them; lives told
                         ///< are what was left of them at load 0.
};

/// The logarithm of the likelihood of one observation or more, for each shape of `family` (row) and each of `lives`
/// (column, loads above 0). Used elements begin where each shape is as high as the first observations; `firstPhases`
/// then gets that phase of each shape, and lives are what was left of them at load 0.
[[nodiscard]] Eigen::ArrayXXd logLikelihoods(std::span<const Observation> observations,
                                             const Circumstances& circumstances, const Family& family,
                                             std::span<const double> lives, Eigen::ArrayXd& firstPhases);

/// The posterior from one observation or more.
[[nodiscard]] Posterior posterior(std::span<const Observation> observations, const Circumstances& circumstances,
                                  const History& history);

/// The same with every life spread by `relative` standard deviations of its logarithm, still beyond the load now.
[[nodiscard]] Posterior smeared(const Posterior& posterior, double relative);

/// The load below which `part` (0 to 1) of the probability lies.
[[nodiscard]] double quantile(const Posterior& posterior, double part);

/// The probability that the limit is reached at `load` or before.
[[nodiscard]] double probabilityBy(const Posterior& posterior, double load);

} // namespace loopside::forecast
