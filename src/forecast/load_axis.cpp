// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "forecast/load_axis.h"

#include <boost/math/tools/roots.hpp>

#include <cmath>
#include <cstdint>

namespace loopside::forecast {

namespace {

/// (1 − e^(−rate·x))/rate, also for a rate of 0.
double fallingSum(double rate, double x)
{
    return rate * x < 1e-12 ? x : -std::expm1(-rate * x) / rate;
}

Done check(double turnovers, const CleaningUp& cleaning)
{
    if (!(std::isfinite(turnovers) && turnovers >= 0.0)) {
        return fail(Errc::OutOfRange, "the turnovers have to be 0 or more");
    }
    if (!(cleaning.captureTimesMixing >= 0.0 && cleaning.captureTimesMixing <= 1.0)) {
        return fail(Errc::OutOfRange, "capture times mixing is from 0 to 1");
    }
    if (!(cleaning.floorPart >= 0.0 && cleaning.floorPart <= 1.0)) {
        return fail(Errc::OutOfRange, "the floor is from 0 to 1 of the dirt at the start");
    }
    return {};
}

} // namespace

Result<double> dirtAfter(double turnovers, const CleaningUp& cleaning)
{
    if (Done checked = check(turnovers, cleaning); !checked) {
        return fail(checked.error());
    }
    return (1.0 - cleaning.floorPart) * fallingSum(cleaning.captureTimesMixing, turnovers)
        + cleaning.floorPart * turnovers;
}

Result<Ahead> aheadAfter(double turnovers, const CleaningUp& cleaning, double turnoversPerSecond)
{
    if (Done checked = check(turnovers, cleaning); !checked) {
        return fail(checked.error());
    }
    if (!(std::isfinite(turnoversPerSecond) && turnoversPerSecond >= 0.0)) {
        return fail(Errc::OutOfRange, "the turnovers a second have to be finite, 0 or more");
    }
    const double floor = cleaning.floorPart;
    const double now = (1.0 - floor) * std::exp(-cleaning.captureTimesMixing * turnovers) + floor;
    return Ahead{now * turnoversPerSecond, floor * turnoversPerSecond,
                 cleaning.captureTimesMixing * turnoversPerSecond};
}

double loadAdded(const Ahead& ahead, double seconds)
{
    return (ahead.perSecond - ahead.perSecondLater) * fallingSum(ahead.fallPerSecond, seconds)
        + ahead.perSecondLater * seconds;
}

std::optional<double> secondsToAdd(const Ahead& ahead, double load, double secondsMax)
{
    if (load <= 0.0) {
        return 0.0;
    }
    const double most = loadAdded(ahead, secondsMax);
    if (!(most >= load)) {
        return std::nullopt;
    }
    if (ahead.fallPerSecond == 0.0 || ahead.perSecondLater == ahead.perSecond) {
        return load / ahead.perSecond;
    }
    std::uintmax_t steps = 100;
    const auto [low, high] = boost::math::tools::toms748_solve(
        [&](double seconds) { return loadAdded(ahead, seconds) - load; }, 0.0, secondsMax, -load, most - load,
        boost::math::tools::eps_tolerance<double>(40), steps);
    return (low + high) / 2.0;
}

} // namespace loopside::forecast
