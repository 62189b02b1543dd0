// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/require.h"

#include <boost/math/tools/toms748_solve.hpp>

#include <cstdint>
#include <numeric>

namespace loopside::oil {

/// Where `f` is 0 between `low` and `high`, at which it must have different signs or be 0; to 12 digits.
///
/// Method: algorithm 748 of Alefeld, Potra and Shi (1995) as in Boost.Math; it keeps the root between two points.
template<class Function>
[[nodiscard]] double rootBetween(const Function& f, double low, double high)
{
    const double atLow = f(low);
    const double atHigh = f(high);
    if (atLow == 0.0) {
        return low;
    }
    if (atHigh == 0.0) {
        return high;
    }
    require((atLow < 0.0) != (atHigh < 0.0), "a root lies between two signs");
    const boost::math::tools::eps_tolerance<double> close(42); // bits, 12.6 digits
    std::uintmax_t steps = 200;
    const auto [from, to] = boost::math::tools::toms748_solve(f, low, high, atLow, atHigh, close, steps);
    return std::midpoint(from, to);
}

} // namespace loopside::oil
