// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/tank_ahead.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace loopside::run {

namespace {

constexpr double minutesADay = 1440.0;

/// The floor that comes of `perMlADay`.
double floorOf(double perMlADay, const Setup& setup, double captureTimesMixing)
{
    const double particlesPerMinute = perMlADay * setup.tank.volume.value().in(units::millilitre) / minutesADay;
    const auto floor = filtration::floorFromIngress(particlesPerMinute, setup.cart.flow.value(), captureTimesMixing);
    return floor.value_or(0.0); // what catches nothing has no floor: its count stays
}

} // namespace

TankAhead tankAhead(const PlaceLearned& place, const Setup& setup, std::size_t size, double told)
{
    const filtration::Band k = place.mixing
        ? place.mixing->captureTimesMixing
        : filtration::Band{told * (1.0 - mixingUnsure), told, std::min(1.0, told * (1.0 + mixingUnsure))};
    filtration::Band perMlADay{0.0, 0.0, 0.0};
    if (const auto& ingress = place.ingress[size]) {
        perMlADay = ingress->isTold() ? ingress->perMlADay : filtration::Band{0.0, 0.0, ingress->perMlADay.high};
    }
    const auto tank = [&](double captured, double risen) {
        return filtration::MixedTank{captured, floorOf(risen, setup, captured)};
    };
    return {tank(k.high, perMlADay.low), tank(k.best, perMlADay.best), tank(k.low, perMlADay.high)};
}

double chanceNever(const PlaceLearned& place, const Setup& setup, std::size_t size, double targetPerMl,
                   double captureTimesMixing)
{
    const auto& ingress = place.ingress[size];
    if (!ingress) {
        return 0.0;
    }
    const double floor = floorOf(ingress->perMlADay.best, setup, captureTimesMixing);
    const double spread = std::log(ingress->perMlADay.high / ingress->perMlADay.low) / (2.0 * ninetyPercent);
    if (!(floor > 0.0) || !(spread > 0.0)) {
        return floor >= targetPerMl ? 1.0 : 0.0;
    }
    const double off = std::log(targetPerMl / floor) / spread;
    return 0.5 * std::erfc(off / std::numbers::sqrt2);
}

} // namespace loopside::run
