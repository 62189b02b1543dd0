// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/turnover.h"

#include "base/text.h"

#include <cmath>

namespace loopside::filtration {

using units::Duration;
using units::Flow;
using units::Volume;

Result<Duration> turnoverTime(Volume volume, Flow flow)
{
    if (!(volume > Volume{})) {
        return fail(Errc::OutOfRange,
                    "The tank volume must be above zero; it is " + fixed(volume.in(units::litre), 2) + " L.");
    }
    if (!(flow > Flow{})) {
        return fail(Errc::OutOfRange,
                    "The flow must be above zero; it is " + fixed(flow.in(units::litrePerMinute), 2) + " L/min.");
    }
    return volume / flow;
}

Result<Duration> runTime(double turnovers, Volume volume, Flow flow)
{
    if (!(turnovers >= 0.0 && std::isfinite(turnovers))) {
        return fail(Errc::OutOfRange,
                    "The number of turnovers must be zero or more; it is " + fixed(turnovers, 2) + ".");
    }
    return turnoverTime(volume, flow).transform([&](Duration once) { return turnovers * once; });
}

double leftBehind(double turnovers, double captureTimesMixing)
{
    return std::exp(-turnovers * captureTimesMixing);
}

} // namespace loopside::filtration
