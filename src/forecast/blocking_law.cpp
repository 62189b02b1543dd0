// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/blocking_law.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace loopside::forecast {

namespace {

constexpr int stepsMax = 200;
constexpr double exponentMax = 3.0;

bool isExponential(double exponent)
{
    return std::abs(exponent - 1.0) < 1e-9;
}

/// The measure of a drop that grows in step with the load.
double straightened(double drop, double exponent)
{
    return isExponential(exponent) ? std::log(drop) : std::pow(drop, 1.0 - exponent) / (1.0 - exponent);
}

std::optional<double> bentBack(double measure, double exponent)
{
    if (isExponential(exponent)) {
        return std::exp(measure);
    }
    const double power = (1.0 - exponent) * measure;
    if (power <= 0.0) {
        return std::nullopt;
    }
    return std::pow(power, 1.0 / (1.0 - exponent));
}

double squares(std::span<const LawPoint> points, const BlockingLaw& law)
{
    double sum = 0.0;
    for (const LawPoint& point : points) {
        const std::optional<double> drop = dropAt(law, point.load);
        if (!drop) {
            return std::numeric_limits<double>::infinity();
        }
        sum += (*drop - point.drop) * (*drop - point.drop);
    }
    return sum;
}

/// The straight line of the straightened drops: exact on exact data, and a start for the rest.
Result<BlockingLaw> straightFit(std::span<const LawPoint> points, double exponent)
{
    double n = 0.0, x = 0.0, y = 0.0, xx = 0.0, xy = 0.0;
    for (const LawPoint& point : points) {
        const double measure = straightened(point.drop, exponent);
        n += 1.0;
        x += point.load;
        y += measure;
        xx += point.load * point.load;
        xy += point.load * measure;
    }
    const double spread = n * xx - x * x;
    if (points.size() < 2 || spread <= 1e-12 * n * xx) {
        return fail(Errc::Unavailable, "a blocking law needs drops at two loads or more");
    }
    const double slope = (n * xy - x * y) / spread;
    const std::optional<double> clean = bentBack((y - slope * x) / n, exponent);
    if (slope <= 0.0 || !clean) {
        return fail(Errc::Unavailable, "no blocking law goes through drops that do not rise");
    }
    return BlockingLaw{exponent, *clean, slope};
}

/// One Gauss-Newton step in the logarithms of clean drop and slope, which keeps both above 0.
struct Step
{
    double clean;
    double slope;
};

std::optional<Step> gaussNewton(std::span<const LawPoint> points, const BlockingLaw& law)
{
    double aa = 0.0, ab = 0.0, bb = 0.0, ar = 0.0, br = 0.0;
    for (const LawPoint& point : points) {
        const double drop = dropAt(law, point.load).value();
        const double byMeasure = std::pow(drop, law.exponent); // dP/d(measure) = Pⁿ
        const double a = byMeasure * std::pow(law.cleanDrop, 1.0 - law.exponent);
        const double b = byMeasure * law.slope * point.load;
        const double rest = point.drop - drop;
        aa += a * a;
        ab += a * b;
        bb += b * b;
        ar += a * rest;
        br += b * rest;
    }
    const double determinant = aa * bb - ab * ab;
    if (determinant <= 0.0) {
        return std::nullopt;
    }
    return Step{(bb * ar - ab * br) / determinant, (aa * br - ab * ar) / determinant};
}

Done checkPoints(std::span<const LawPoint> points, double exponent)
{
    if (!(exponent >= 0.0 && exponent <= exponentMax)) {
        return fail(Errc::OutOfRange, "the exponent of a blocking law is from 0 to 3");
    }
    for (const LawPoint& point : points) {
        if (!std::isfinite(point.load) || !std::isfinite(point.drop) || point.drop <= 0.0) {
            return fail(Errc::OutOfRange, "each point needs a finite load and a drop above 0");
        }
    }
    return {};
}

} // namespace

std::optional<double> dropAt(const BlockingLaw& law, double load)
{
    return bentBack(straightened(law.cleanDrop, law.exponent) + law.slope * load, law.exponent);
}

std::optional<double> loadAt(const BlockingLaw& law, double drop)
{
    if (!(drop > 0.0 && law.slope > 0.0)) {
        return std::nullopt;
    }
    return (straightened(drop, law.exponent) - straightened(law.cleanDrop, law.exponent)) / law.slope;
}

Result<BlockingLaw> leastSquares(std::span<const LawPoint> points, double exponent)
{
    if (Done checked = checkPoints(points, exponent); !checked) {
        return fail(checked.error());
    }
    Result<BlockingLaw> law = straightFit(points, exponent);
    if (!law) {
        return law;
    }
    double sum = squares(points, *law);
    for (int i = 0; i < stepsMax && std::isfinite(sum); ++i) {
        const std::optional<Step> step = gaussNewton(points, *law);
        if (!step) {
            break;
        }
        double part = 1.0;
        BlockingLaw next = *law;
        double nextSum = std::numeric_limits<double>::infinity();
        for (int halving = 0; halving < 30 && !(nextSum <= sum); ++halving, part /= 2.0) {
            next.cleanDrop = law->cleanDrop * std::exp(std::clamp(part * step->clean, -2.0, 2.0));
            next.slope = law->slope * std::exp(std::clamp(part * step->slope, -2.0, 2.0));
            nextSum = squares(points, next);
        }
        if (!(nextSum <= sum) || std::hypot(step->clean, step->slope) < 1e-12) {
            return law;
        }
        *law = next;
        sum = nextSum;
    }
    return std::isfinite(sum) ? law
                              : Result<BlockingLaw>(fail(Errc::Unavailable, "no blocking law goes through the drops"));
}

} // namespace loopside::forecast
