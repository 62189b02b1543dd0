// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/loading_seen.h"

#include "run/oil_fit.h"

#include <boost/math/statistics/linear_regression.hpp>
#include <boost/math/statistics/univariate_statistics.hpp>

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using units::pascal;

constexpr double morePerHour = 4.0; // that a loading grows by, on average
constexpr double moreAtOnce = 0.1;  // than told of it
constexpr double moreIfUsed = 2.0;  // than told, of elements that are used and nobody told

double square(double number)
{
    return number * number;
}

double hoursOf(RunTime time)
{
    return static_cast<double>(time.count()) / 3.6e6;
}

/// The logarithm of `asChance(z)`, also where that is too small for a number: Abramowitz & Stegun, 26.2.12.
double logChance(double z)
{
    constexpr double far = -30.0;
    if (z > far) {
        return std::log(asChance(z));
    }
    constexpr double rootOfTwoPi = 2.506628274631000502;
    return -0.5 * square(z) - std::log(-z * rootOfTwoPi) + std::log1p(-1.0 / square(z));
}

struct Weighed
{
    double logWeight = 0.0; ///< Weights may be beyond all numbers; what counts is one against the other.
    double above = 0.0;     ///< The chance of more than a bound.
};

/// Elements of which `told` was expected and `more`, an exponential amount of that mean, in the light of a loading that
/// was read.
Weighed inLightOf(const Uncertain& read, double told, double more, double bound)
{
    const double mean = read.value - square(read.sd) / more;
    const double any = logChance((mean - told) / read.sd);
    const double ofRead = (told - read.value) / more + 0.5 * square(read.sd / more);
    const double above = logChance((mean - std::max(bound, told)) / read.sd);
    return {ofRead + any - std::log(more), std::min(1.0, std::exp(above - any))};
}

} // namespace

double LoadingSeen::chanceAbove(double bound) const
{
    const double variance = square(ofDials) + square(bound * ofOil) + 2.0 * bound * covariance;
    const Uncertain read{loading, std::sqrt(std::max(variance, 1e-12))};
    const Weighed asTold = inLightOf(read, asFitted, moreAtOnce + morePerHour * hours, bound);
    const Weighed asUsed = inLightOf(read, asFitted, moreIfUsed, bound);
    const double most = std::max(asTold.logWeight, asUsed.logWeight);
    const double ifTold = (1.0 - usedUntold) * std::exp(asTold.logWeight - most);
    const double ifUsed = usedUntold * std::exp(asUsed.logWeight - most);
    return (ifTold * asTold.above + ifUsed * asUsed.above) / (ifTold + ifUsed);
}

void LoadingLine::add(RunTime at, double loading)
{
    hours_.push_back(hoursOf(at));
    loadings_.push_back(loading);
}

double LoadingLine::atLast() const
{
    if (hours_.size() < 3 || hours_.front() == hours_.back()) {
        return loadings_.back();
    }
    const auto [start, slope] = boost::math::statistics::simple_ordinary_least_squares(hours_, loadings_);
    return start + slope * hours_.back();
}

double LoadingLine::varianceLeft() const
{
    if (hours_.size() < 3 || hours_.front() == hours_.back()) {
        return 1.0;
    }
    const double beyondMiddle = hours_.back() - boost::math::statistics::mean(hours_);
    return (1.0 + square(beyondMiddle) / boost::math::statistics::variance(hours_))
        / static_cast<double>(hours_.size());
}

LoadingSeen loadingSeen(const Sight& now, std::size_t i, const LoadingLine& line, const FirstMinutes& minutes)
{
    constexpr double plainlyOther = 2.5; // standard uncertainties
    const double clean_Pa = now.clean[i]->in(pascal);
    const double read = now.drops[i]->reading.in(pascal) / clean_Pa * std::sqrt(line.varianceLeft());
    double off = square(now.drops[i]->standing.in(pascal)); // variances; the dials' in Pa²
    double oil = square(now.pushSdStanding);
    LoadingSeen seen{.loading = line.atLast(), .asFitted = minutes.asFitted, .hours = hoursOf(now.at - minutes.began)};
    if (&minutes.first != &now) {
        const Sight& first = minutes.first;
        const double first_Pa = first.clean[i]->in(pascal)*minutes.asFitted;
        const double ofReading = (square(first.drops[i]->reading.in(pascal) / first_Pa) + square(first.pushSdOfReading))
            / minutes.sets;
        const double whole = oil + off / square(first_Pa) + ofReading + square(cleanKnownTo);
        const double beyond = minutes.loading - 1.0;
        if (std::abs(beyond) <= plainlyOther * std::sqrt(whole)) {
            seen.loading = (seen.loading - off / first_Pa / whole * beyond / clean_Pa) / (1.0 + oil / whole * beyond);
            seen.covariance = -oil * off / first_Pa / whole / clean_Pa;
            off -= square(off / first_Pa) / whole;
            oil -= square(oil) / whole;
        }
    }
    seen.ofDials = std::hypot(read, std::sqrt(off) / clean_Pa);
    seen.ofOil = std::sqrt(oil + square(now.pushSdOfReading) * line.varianceLeft());
    return seen;
}

} // namespace loopside::run
