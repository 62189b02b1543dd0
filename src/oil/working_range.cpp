// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/working_range.h"

#include "base/text.h"

#include <string>

namespace loopside::oil {

Done checkWorkingRange(units::Temperature at, std::string_view what)
{
    constexpr double minC = -40.0;
    constexpr double maxC = 150.0;
    constexpr double conversionSlackC = 1e-6; // −40 °F is −40 °C, whatever the last bit says
    const double atC = at.in(units::celsius);
    if (!(atC >= minC - conversionSlackC && atC <= maxC + conversionSlackC)) {
        return fail(Errc::OutOfRange,
                    "The " + std::string(what) + " must be from " + fixed(minC, 0) + " to " + fixed(maxC, 0)
                        + " °C; it is " + fixed(atC, 1) + " °C.");
    }
    return {};
}

} // namespace loopside::oil
