// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Numbers that are not known exactly, and how far a reading lies from a bound that matters.
//
// Source: NIST TN 1297 (1994): the law of propagation of uncertainty for independent parts (its appendix A), limits
//   ±a with no other knowledge as a/√3 (its 4.6). What is told with k = 2 elsewhere is k = 1 here.
// Validity: parts that are independent and small beside the number they belong to, so that a normal distribution will
//   do. Neighbouring ΔP share a gauge; that is left out.

#pragma once

#include "units/quantity.h"

namespace loopside::run {

/// A number without unit, such as a quotient of two pressures, and its standard uncertainty (k = 1).
struct Uncertain
{
    double value = 0.0;
    double sd = 0.0; ///< 0 or more.

    /// By how many standard uncertainties the number lies above `bound`. The chance that it is above is that of the
    /// normal distribution: see `likely`. Without uncertainty a very large number, either way.
    [[nodiscard]] double above(double bound) const;
    [[nodiscard]] double below(double bound) const { return -above(bound); }
};

/// Quantiles of the normal distribution: as many standard uncertainties say that a chance is at least so large.
inline constexpr double even = 0.0;                ///< 0.5
inline constexpr double rather = 0.2533471031;     ///< 0.6
inline constexpr double fairly = 0.8416212336;     ///< 0.8
inline constexpr double likely = 1.2815515655;     ///< 0.9
inline constexpr double veryLikely = 1.6448536270; ///< 0.95
inline constexpr double sure = 2.3263478740;       ///< 0.99
inline constexpr double impossible = -1e9;         ///< What cannot be told never reaches a bound.

/// The quantile of the normal distribution that `chance`, 0 to 1, is; at most about 7 either way.
[[nodiscard]] double asDeviates(double chance);

/// The chance that belongs to `deviates`: the normal distribution up to there.
[[nodiscard]] double asChance(double deviates);

/// A pressure of one set with the standard uncertainties (k = 1) of the gauges it comes from.
struct Measured
{
    units::Pressure value;
    units::Pressure reading;  ///< Fresh each time: graduation and swing.
    units::Pressure standing; ///< The same all through a run: the grade of the gauges.

    friend Measured operator+(const Measured& a, const Measured& b);
    friend Measured operator-(const Measured& a, const Measured& b);
};

/// A quotient of two numbers that may share errors, such as a loss now over what it was on the same gauges.
///
/// Source: Fieller's theorem (1954, from memory): a ÷ b lies above k > 0 where a − k·b lies above 0, and that is normal
///   where a and b are. So a divisor that is small, or even reads below 0, is no hindrance: it makes nothing sure.
struct Ratio
{
    double value = 1.0; ///< 1 where the divisor is not above 0: cannot tell.
    double dividend = 0.0;
    double divisor = 0.0;
    double dividendVariance = 0.0;
    double divisorVariance = 0.0;
    double covariance = 0.0;
    double standingVariance = 0.0; ///< Of the dividend's, what both have from the grade of the gauges.

    /// As that of `Uncertain`. `bound` must be 0 or more.
    [[nodiscard]] double above(double bound) const;
    [[nodiscard]] double below(double bound) const { return -above(bound); }

    /// The same with the errors of reading alone, for what is told of a trend.
    [[nodiscard]] Ratio byReadingAlone() const;

    /// The quotient over `by`, a number above 0 that shares no error with it.
    [[nodiscard]] Ratio over(const Uncertain& by) const;

    /// The quotient with its standard uncertainty to first order; only for a divisor that is known well.
    [[nodiscard]] Uncertain toFirstOrder() const;
};

/// How far a loss moved from `then` to `now` beyond what is expected: now ÷ (factor × then); 1 is not at all.
///
/// Both were read on the same gauges, so that one standing error stands in both: of now − k·factor·then it leaves
/// 1 − k·factor.
[[nodiscard]] Ratio moved(const Measured& now, const Measured& then, const Uncertain& factor);

/// How far loss `a` moved beside loss `b`: (a now ÷ a then) ÷ (b now ÷ b then). What moves both alike, oil and flow,
/// falls out. A gauge that both share is left out of account.
[[nodiscard]] Ratio movedBeside(const Measured& aNow, const Measured& aThen, const Measured& bNow,
                                const Measured& bThen);

/// now ÷ expected with both gauge errors, where what is expected comes from a catalogue or a formula and is itself
/// known to `relativeSd`. `expected` must be above 0.
[[nodiscard]] Uncertain against(const Measured& now, units::Pressure expected, double relativeSd);

/// a ÷ b; `b` must not be 0.
[[nodiscard]] Uncertain quotient(const Uncertain& a, const Uncertain& b);

} // namespace loopside::run
