// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The way from the drop now to the limit, as a band to be drawn.
//
// For each life that may be, the mean shape of the nearest family, shifted so that it starts where the drop is now; the
// shift fades out towards the limit. The band is what the lives make of it, each with its probability.
// Uncertainty: the band spans how long the elements may live, not how far a single reading may stray from the curve.

#pragma once

#include "forecast/posterior.h"

#include <span>
#include <vector>

namespace loopside::forecast {

/// Drops in units of the limit: never above 1, where the curve ends.
struct BandPoint
{
    double load;
    double low;    ///< One time in ten it is lower.
    double middle; ///< As often lower as higher.
    double high;   ///< One time in ten it is higher.
};

/// The band at each of `loads`, which are at `now` or later, for a drop of `dropNow` (above 0, in units of the limit)
/// at the load `now`.
[[nodiscard]] std::vector<BandPoint> bandAhead(const Posterior& lives, const Family& nearest, double now,
                                               double dropNow, std::span<const double> loads);

} // namespace loopside::forecast
