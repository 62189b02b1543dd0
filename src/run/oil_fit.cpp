// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/oil_fit.h"

#include "run/evidence.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace loopside::run {

using units::Pressure;

namespace {

constexpr double oilIsOther = 0.4; ///< Chance, before anything is read, that oil or temperature is not as told.
constexpr double otherBy = 0.8;    ///< In ln viscosity (k = 1), if it is not.
constexpr double asToldBy = 0.1;   ///< The same if it is: a grade of ±10 % and a cheap thermometer.
constexpr double leastUsed = 1.1;  ///< Their loading lies between these, evenly in the logarithm.
constexpr double mostUsed = 8.0;
constexpr double goneUntold = 0.02; ///< Chance that an element is missing or leaks: it then costs anything less.

double density(double off, double sd)
{
    return std::exp(-0.5 * off * off / (sd * sd)) / (sd * std::sqrt(2.0 * std::numbers::pi));
}

double upTo(double z)
{
    return 0.5 * std::erfc(-z / std::numbers::sqrt2);
}

/// How well it fits oil of `times` the viscosity that a stage cost `fresh` times the clean when it was first seen.
double fitsStage(const Uncertain& fresh, double times)
{
    const double clean = density(fresh.value - times, fresh.sd);
    const double used = (upTo((fresh.value - leastUsed * times) / fresh.sd)
                         - upTo((fresh.value - mostUsed * times) / fresh.sd))
        / (std::max(fresh.value, leastUsed * times) * std::log(mostUsed / leastUsed));
    const double gone = (upTo(fresh.value / fresh.sd) - upTo((fresh.value - times) / fresh.sd)) / times;
    return (1.0 - usedUntold - goneUntold) * clean + usedUntold * used + goneUntold * gone;
}

/// How well it fits that the return hose costs what it does.
double fitsHose(const Measured& head, Pressure hose, double times)
{
    const double expected = times;
    const double dials = std::hypot(head.reading / hose, head.standing / hose);
    return density(head.value / hose - expected, std::hypot(dials, hoseKnownTo * expected));
}

/// That no stage costs less now than it would in that oil.
double allowsNow(const Uncertain& loading, double times)
{
    return goneUntold + (1.0 - goneUntold) * upTo((loading.value - times) / loading.sd);
}

double fits(const Evidence& e, double times)
{
    const double ln = std::log(times);
    double fit = (1.0 - oilIsOther) * density(ln, asToldBy) + oilIsOther * density(ln, otherBy);
    fit *= fitsHose(*e.now.head, *e.now.hose, times);
    for (std::size_t i = 0; i < e.stageCount(); ++i) {
        if (e.stages[i].fresh) {
            fit *= fitsStage(*e.stages[i].fresh, times);
        }
        if (e.now.loading[i]) {
            fit *= allowsNow(*e.now.loading[i], times);
        }
    }
    return fit;
}

bool areAllStagesKnown(const Sight& now)
{
    return std::all_of(now.loading.begin(), now.loading.end(), [](const auto& loading) { return loading.has_value(); });
}

} // namespace

std::vector<OilFit> oilFits(const Evidence& evidence)
{
    constexpr int steps = 60; // each way: 0.04 in ln viscosity, well below what the oil is known to
    constexpr double widest = 2.4;
    std::vector<OilFit> all;
    if (!evidence.now.head || !evidence.now.hose || !areAllStagesKnown(evidence.now)) {
        return all;
    }
    for (int step = -steps; step <= steps; ++step) {
        const double lnTimes = widest * step / steps;
        all.push_back({lnTimes, fits(evidence, std::exp(lnTimes))});
    }
    return all;
}

double chanceThicker(const std::vector<OilFit>& fits, double bound)
{
    double all = 0.0;
    double thicker = 0.0;
    const double cell = fits.size() > 1 ? fits[1].lnTimes - fits[0].lnTimes : 1.0;
    for (const OilFit& fit : fits) {
        all += fit.fit;
        thicker += fit.fit * std::clamp((fit.lnTimes - std::log(bound)) / cell + 0.5, 0.0, 1.0);
    }
    return all > 0.0 ? thicker / all : 0.5;
}

} // namespace loopside::run
