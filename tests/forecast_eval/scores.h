// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How good a forecast was, once the truth is known.

#pragma once

#include "forecast/posterior.h"

#include <span>
#include <vector>

namespace loopside::evaluation {

/// The middle of `values` (the mean of the two middle ones of an even number). Not a number without any.
[[nodiscard]] double median(std::vector<double> values);

[[nodiscard]] double mean(std::span<const double> values);

/// A probability that was told and whether it came so.
struct Told
{
    double probability;
    bool cameTrue;
};

/// Mean of (p − o)², o being 1 where it came true. Source: Brier, Monthly Weather Review 78 (1950) 1, the half form.
[[nodiscard]] double brierScore(std::span<const Told> told);

/// 1 − Brier ÷ Brier of always telling the share that came true; 0 where that share is 0 or 1.
[[nodiscard]] double brierSkill(std::span<const Told> told);

/// One bin of a reliability table.
struct ReliabilityBin
{
    int count = 0;
    double told = 0.0; ///< Mean probability told.
    double came = 0.0; ///< Share that came true.
};

/// `bins` bins of equal width from 0 to 1.
[[nodiscard]] std::vector<ReliabilityBin> reliability(std::span<const Told> told, int bins);

/// Continuous ranked probability score of a posterior, in the unit of its loads: ∫ (F(x) − 1[x ≥ truth])² dx, F rising
/// in a straight line between the middles of its masses. Source: Gneiting and Raftery, JASA 102 (2007) 359.
[[nodiscard]] double crps(const forecast::Posterior& posterior, double truth);

/// The shares within which 95 % of the samples of `count` lie when each is inside with `probability`: exact binomial.
struct Band
{
    double low;
    double high;
};
[[nodiscard]] Band binomialBand(int count, double probability);

/// Whether the middle `share` of the posterior holds the truth.
[[nodiscard]] bool covers(const forecast::Posterior& posterior, double share, double truth);

} // namespace loopside::evaluation
