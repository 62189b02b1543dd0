// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Whether the oil is thicker or thinner than it was told. Bayes over how many times it is: what the return hose and
// each stage cost against what they ought to. A stage may be loaded without anybody having told, and then says little;
// an elements' ΔP is never less than that of clean ones, so that no stage may cost less than the oil would make it.
//
// Source: Bayes' theorem; the chances before anything is read are our choice. Validity: errors that are normal.

#include "run/clue_parts.h"

#include <boost/math/distributions/normal.hpp>

#include <numbers>

namespace loopside::run::clue {

using units::Pressure;

namespace {

constexpr double oilIsOther = 0.3;  ///< Chance, before anything is read, that oil or temperature is not as told.
constexpr double otherBy = 0.8;     ///< In ln viscosity (k = 1), if it is not.
constexpr double asToldBy = 0.1;    ///< The same if it is: a grade of ±10 % and a cheap thermometer.
constexpr double usedUntold = 0.05; ///< Chance that elements are loaded and nobody told.
constexpr double leastUsed = 1.1;   ///< Their loading lies between these, evenly in the logarithm.
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

/// By how many standard uncertainties the oil is above `bound` times as thick as told, or below.
double oilBeyond(const Evidence& e, double bound, double direction)
{
    constexpr int steps = 160;
    constexpr double widest = 2.4; // in ln viscosity
    const bool areStagesKnown = leastOverStages(e, [&](Place i) { return plainly(e.now.loading[i].has_value()); })
        > even;
    if (!e.now.head || !e.now.hose || !areStagesKnown) {
        return impossible;
    }
    double all = 0.0;
    double beyond = 0.0;
    for (int step = -steps; step <= steps; ++step) {
        const double times = std::exp(widest * step / steps);
        const double fit = fits(e, times);
        all += fit;
        beyond += (times - bound) * direction > 0.0 ? fit : 0.0;
    }
    constexpr double least = 1e-12;
    const double chance = all > 0.0 ? std::clamp(beyond / all, least, 1.0 - least) : 0.5;
    return boost::math::quantile(boost::math::normal(), chance);
}

} // namespace

// clang-format off
const Clue allThick = {"all-thick", [](const E& e, Place) { return oilBeyond(e, 1.3, 1.0); }};
const Clue allThicker = {"all-thick", [](const E& e, Place) { return oilBeyond(e, 1.08, 1.0); }};
const Clue allThin = {"all-thin", [](const E& e, Place) { return oilBeyond(e, 0.72, -1.0); }};
// clang-format on

} // namespace loopside::run::clue
