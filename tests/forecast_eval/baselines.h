// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What people do without a forecast: the yardsticks. All of them tell the time of the limit, in the unit of the loads.

#pragma once

#include <cstddef>
#include <span>

namespace loopside::evaluation {

struct Point
{
    double load;
    double drop; ///< ÷ limit.
};

/// The straight line of least squares through the last `count` points; infinite where it does not rise.
[[nodiscard]] double straightLine(std::span<const Point> points, std::size_t count);

/// The same through the logarithms, drops under 2 % of the limit taken as that.
[[nodiscard]] double exponential(std::span<const Point> points, std::size_t count);

} // namespace loopside::evaluation
