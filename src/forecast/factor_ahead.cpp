// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/factor_ahead.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace loopside::forecast {

namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

constexpr double minute = 60.0;
constexpr double hour = 3600.0;
constexpr std::array taus = {20.0 * minute,  40.0 * minute,  80.0 * minute,
                             160.0 * minute, 320.0 * minute, 640.0 * minute};

// Before any reading. Oil warms by 0 to 30 °C at 3 to 6 % a degree; the end drifts by about a degree an hour. Common
// practice, no source.
constexpr double warmingMean = 0.5;
constexpr double warmingSd = 0.5;
constexpr double driftSd = 0.05; // an hour
constexpr double levelSd = 3.0;

Vector3d rowAt(double seconds, double perSecond)
{
    return {1.0, std::exp(-perSecond * seconds), seconds / hour};
}

Done check(const FactorSeen& seen)
{
    if (!(std::isfinite(seen.filteredSeconds) && seen.filteredSeconds >= 0.0)) {
        return fail(Errc::OutOfRange, "the seconds of filtering have to be finite, 0 or more");
    }
    if (!(std::isfinite(seen.rawPerCorrected) && seen.rawPerCorrected > 0.0)) {
        return fail(Errc::OutOfRange, "raw ÷ corrected has to be finite and above 0");
    }
    if (!(std::isfinite(seen.relativeError) && seen.relativeError > 0.0)) {
        return fail(Errc::OutOfRange, "the error of raw ÷ corrected has to be finite and above 0");
    }
    return {};
}

/// What the readings say if τ is 1/`perSecond`; the weight is the logarithm of their likelihood.
FactorTrend::Part fitted(std::span<const FactorSeen> seen, double perSecond)
{
    const Vector3d before(0.0, warmingMean, 0.0);
    const Vector3d sds(levelSd, warmingSd, driftSd);
    Matrix3d precision = sds.cwiseProduct(sds).cwiseInverse().asDiagonal();
    Vector3d pull = precision * before;
    double squares = before.dot(pull);
    for (const FactorSeen& one : seen) {
        const Vector3d row = rowAt(one.filteredSeconds, perSecond);
        const double weight = 1.0 / (one.relativeError * one.relativeError);
        const double value = std::log(one.rawPerCorrected);
        precision += weight * row * row.transpose();
        pull += weight * value * row;
        squares += weight * value * value;
    }
    const Matrix3d covariance = precision.inverse();
    const Vector3d mean = covariance * pull;
    FactorTrend::Part part{0.5 * (mean.dot(pull) - squares + std::log(covariance.determinant())), perSecond, {}, {}};
    Vector3d::Map(part.mean.data()) = mean;
    Matrix3d::Map(part.covariance.data()) = covariance;
    return part;
}

} // namespace

Result<FactorTrend> factorTrend(std::span<const FactorSeen> seen)
{
    if (seen.empty()) {
        return fail(Errc::OutOfRange, "a trend of raw ÷ corrected needs a reading");
    }
    for (const FactorSeen& one : seen) {
        if (Done checked = check(one); !checked) {
            return fail(checked.error());
        }
    }
    FactorTrend trend{};
    for (std::size_t i = 0; i < taus.size(); ++i) {
        trend.parts[i] = fitted(seen, 1.0 / taus[i]);
    }
    const double top = std::ranges::max_element(trend.parts, {}, &FactorTrend::Part::weight)->weight;
    double sum = 0.0;
    for (FactorTrend::Part& part : trend.parts) {
        part.weight = std::exp(part.weight - top);
        sum += part.weight;
    }
    for (FactorTrend::Part& part : trend.parts) {
        part.weight /= sum;
    }
    return trend;
}

FactorExpected factorAt(const FactorTrend& trend, double filteredSeconds)
{
    double mean = 0.0;
    double squares = 0.0;
    for (const FactorTrend::Part& part : trend.parts) {
        const Vector3d row = rowAt(filteredSeconds, part.perSecond);
        const double here = row.dot(Vector3d::Map(part.mean.data()));
        mean += part.weight * here;
        squares += part.weight * (here * here + row.dot(Matrix3d::Map(part.covariance.data()) * row));
    }
    return {std::exp(mean), std::sqrt(std::max(squares - mean * mean, 0.0))};
}

FactorExpected factorHeld(const FactorTrend& trend, double now, double then)
{
    constexpr double errorMax = 0.5;
    const FactorExpected held = factorAt(trend, now);
    const FactorExpected expected = factorAt(trend, then);
    const double half = std::log(expected.value / held.value) / 2.0;
    return {held.value * std::exp(half), std::min(std::hypot(expected.relativeError, half), errorMax)};
}

} // namespace loopside::forecast
