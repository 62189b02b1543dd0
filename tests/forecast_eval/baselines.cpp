// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "baselines.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace loopside::evaluation {

namespace {

constexpr double leastDrop = 0.02;

template<class Measure>
double lineTo(std::span<const Point> points, std::size_t count, double target, Measure measure)
{
    points = points.last(std::min(count, points.size()));
    double n = 0.0, x = 0.0, y = 0.0, xx = 0.0, xy = 0.0;
    for (const Point& point : points) {
        const double value = measure(point.drop);
        n += 1.0;
        x += point.load;
        y += value;
        xx += point.load * point.load;
        xy += point.load * value;
    }
    const double spread = n * xx - x * x;
    const double slope = spread > 0.0 ? (n * xy - x * y) / spread : 0.0;
    return slope > 0.0 ? (target - (y - slope * x) / n) / slope : std::numeric_limits<double>::infinity();
}

} // namespace

double straightLine(std::span<const Point> points, std::size_t count)
{
    return lineTo(points, count, 1.0, [](double drop) { return drop; });
}

double exponential(std::span<const Point> points, std::size_t count)
{
    return lineTo(points, count, 0.0, [](double drop) { return std::log(std::max(drop, leastDrop)); });
}

} // namespace loopside::evaluation
