// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/witness.h"

#include "run/start.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace loopside::run {

namespace {

using units::kelvins;
using units::pascal;
using units::Pressure;

constexpr auto thermometerRepeats = 2.0 / std::numbers::sqrt3 * kelvins; // k = 1: two degrees either way
constexpr auto thermometerStands = 0.7 * kelvins;                        // k = 1, all through a run
constexpr double oilLineKnownTo = 0.05;      // of what the oil's line says, for each e-fold of viscosity
constexpr double unknownOil = 0.2;           // of a factor where no temperature was told: about 3 °C
constexpr double leftNearZero = 0.25;        // of a grade, once the zero is known: linearity, hysteresis
constexpr double unknownGradeOfSpan = 0.025; // class 2.5, the coarsest that is common

/// The last digit that was typed, for a dial whose divisions are not known.
Pressure lastDigit(const GaugeTyped& typed, const PressureUnit& unit)
{
    return std::pow(10.0, -typed.low.places()) * unit.unit;
}

/// What is left of a standing error once the zero was read with an error of `read`: most of a dial's error near its
/// zero is of its zero, further up it may be of its slope.
Pressure standingAboveZero(Pressure standing, Pressure read, double shareOfSpan)
{
    const double all = standing.in(pascal);
    const double ofSlope = all * std::min(1.0, leftNearZero + std::max(0.0, shareOfSpan));
    const double ofZero = all * (1.0 - leftNearZero);
    const double zeroLeft = ofZero * read.in(pascal) / std::hypot(ofZero, read.in(pascal)); // Bayes: both tell of it
    return std::min(all, std::hypot(ofSlope, zeroLeft)) * pascal;
}

/// A gauge with both errors; where the dial is not described, what stands in for it.
Measured measured(const filtration::GaugeValue& gauge, const ReadingLogged& reading, const GaugeRecord& dial,
                  std::size_t index, bool isZeroKnown)
{
    const PressureUnit& unit = reading.unit != nullptr ? *reading.unit : *dial.unit;
    const Pressure span = dial.span ? Pressure(dial.span->toDouble(), dial.unit->unit) : gauge.value;
    const Pressure ofDial = gauge.reading.value_or(lastDigit(*reading.gauges[index], unit) / std::numbers::sqrt3);
    const Pressure read = ofDial * readerAdds;
    const Pressure standing = gauge.standing.value_or(span * (unknownGradeOfSpan / std::numbers::sqrt3));
    return {gauge.value, read, isZeroKnown ? standingAboveZero(standing, read, gauge.value / span) : standing};
}

std::optional<Pressure> cleanNow(const std::optional<filtration::CleanDrop>& clean, const filtration::Conditions& now)
{
    const auto drop = clean ? std::optional(filtration::cleanDropAt(*clean, now)) : std::nullopt;
    return drop && *drop ? std::optional(**drop) : std::nullopt;
}

} // namespace

units::Pressure divisionOf(const GaugeRecord& dial)
{
    return Pressure(dial.graduation ? dial.graduation->toDouble() : 1.0, dial.unit->unit);
}

Sighting::Sighting(const RunState& run) : run_{run}
{
    for (const StageRecord& stage : run.setup.stages) {
        clean_.push_back(stage.cleanDrop());
    }
    const HoseRecord& hose = run.setup.cart.returnHose;
    if (hose.bore && hose.length) {
        hose_ = filtration::Pipe{hose.bore->value(), hose.length->value()};
    }
    if (run.setup.cart.staticHead) {
        staticHead_ = run.setup.cart.staticHead->value();
    }
}

void Sighting::noteRest(const Moment& pumpOff)
{
    const CartRecord& cart = run_.setup.cart;
    if (!cart.staticHead) {
        if (const auto shown = shownBy(*pumpOff.reading, cart, cart.gauges.size() - 1)) {
            staticHead_ = shown->value();
        }
        return;
    }
    isZeroKnown_ = areZerosIn(*pumpOff.reading, cart);
}

void Sighting::seePressures(Sight& sight, const Offsets& offsets) const
{
    const ReadingLogged& reading = *sight.moment->reading;
    const auto values = gaugeValuesOf(reading, offsets, run_.setup.cart);
    for (std::size_t i = 0; i < values.size(); ++i) {
        const bool isZeroKnown = i < isZeroKnown_.size() && isZeroKnown_[i];
        sight.gauges.push_back(
            values[i] ? std::optional(measured(*values[i], reading, run_.setup.cart.gauges[i], i, isZeroKnown))
                      : std::nullopt);
    }
    for (std::size_t i = 1; i < values.size(); ++i) {
        const auto& before = sight.gauges[i - 1];
        const auto& after = sight.gauges[i];
        sight.drops.push_back(before && after ? std::optional(*before - *after) : std::nullopt);
    }
    const auto& first = sight.gauges.front();
    const auto& last = sight.gauges.back();
    if (first && last) {
        sight.filters = *first - *last;
    }
    if (staticHead_) {
        const Measured head{*staticHead_, {}, {}};
        sight.head = last ? std::optional(*last - head) : std::nullopt;
        sight.total = first ? std::optional(*first - head) : std::nullopt;
    }
}

void Sighting::seeOil(Sight& sight) const
{
    const ReadingLogged& reading = *sight.moment->reading;
    if (reading.oil) {
        sight.oil = reading.oil->value();
    }
    if (!run_.fluid) {
        return;
    }
    const auto viscosity = run_.fluid->viscosityAt(sight.oil);
    if (!viscosity) {
        return;
    }
    sight.viscosity = *viscosity;
    const auto density = run_.fluid->densityAt(sight.oil).value_or(usualDensity);
    const units::Flow flow = reading.flow ? reading.flow->value() : run_.setup.cart.flow.value();
    sight.push = (*viscosity * density).in(units::pascalSecond)*flow.in(units::cubicMetrePerSecond);
    if (sight.oil) {
        const auto warmer = run_.fluid->viscosityAt(*sight.oil + thermometerRepeats);
        sight.pushSdOfReading = warmer ? std::log(*viscosity / *warmer) : 0.0;
        sight.pushSdStanding = sight.pushSdOfReading * (thermometerStands / thermometerRepeats);
    }
}

void Sighting::seeClean(Sight& sight) const
{
    sight.loading.resize(sight.drops.size());
    sight.clean.resize(sight.drops.size());
    if (!sight.push || *sight.push <= 0.0) {
        return;
    }
    const ReadingLogged& reading = *sight.moment->reading;
    const filtration::Conditions now{reading.flow ? reading.flow->value() : run_.setup.cart.flow.value(),
                                     *sight.viscosity, run_.fluid->densityAt(sight.oil)};
    const double cleanSd = std::hypot(cleanKnownTo, sight.pushSdStanding, sight.pushSdOfReading);
    bool isWhole = true;
    for (std::size_t i = 0; i < clean_.size(); ++i) {
        const auto clean = cleanNow(clean_[i], now);
        isWhole = isWhole && clean;
        sight.clean[i] = clean;
        sight.cleanFilters += clean.value_or(Pressure{});
        if (clean && sight.drops[i]) {
            sight.loading[i] = against(*sight.drops[i], *clean, cleanSd);
        }
    }
    if (!isWhole) {
        sight.cleanFilters = Pressure{};
    }
    if (!hose_ || !sight.head) {
        return;
    }
    const auto hose = filtration::pipeLoss(*hose_, now.flow, now.viscosity, now.density.value_or(usualDensity));
    if (hose && hose->loss > Pressure{}) {
        sight.hose = hose->loss;
        sight.headAgainstHose = against(*sight.head, hose->loss, std::hypot(hoseKnownTo, sight.pushSdStanding));
    }
}

Sight Sighting::see(const Moment& reading, const Offsets& offsets) const
{
    Sight sight;
    sight.at = reading.at;
    sight.moment = &reading;
    seePressures(sight, offsets);
    seeOil(sight);
    seeClean(sight);
    return sight;
}

Uncertain expectedFactor(const Sight& now, const Sight& then)
{
    if (!now.push || !then.push || *then.push <= 0.0 || *now.push <= 0.0) {
        return {1.0, unknownOil};
    }
    const double factor = *now.push / *then.push;
    const double ofLine = oilLineKnownTo * std::log(factor);
    return {factor, factor * std::hypot(now.pushSdOfReading, then.pushSdOfReading, ofLine)};
}

} // namespace loopside::run
