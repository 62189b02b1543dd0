// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/drop.h"

#include "filtration/clean_drop.h"
#include "filtration/differential.h"
#include "filtration/gauge.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using units::pascal;
using units::Pressure;

/// Digits that no dial has: enough for a value turned into another unit.
constexpr int convertedPlaces = 4;

/// `number` as a decimal; what no gauge can show is cut short, so that a slip of the finger cannot stop the program.
Decimal nearest(double number, int places)
{
    constexpr double most = 9e11;
    return Decimal::nearest(std::clamp(number, -most, most), places);
}

ExactPressure inUnit(const ExactPressure& pressure, const PressureUnit* unit)
{
    if (pressure.unit == unit) {
        return pressure;
    }
    return {nearest(pressure.value().in(unit->unit), convertedPlaces), unit};
}

ExactPressure minus(const ExactPressure& a, const ExactPressure& b)
{
    constexpr double most = 1e12; // what decimals add up without overflowing
    const Decimal difference = a.number - inUnit(b, a.unit).number;
    const double rough = difference.toDouble();
    return {std::abs(rough) <= most ? difference : Decimal(static_cast<std::int64_t>(std::copysign(most, rough)), 0),
            a.unit};
}

/// Above the end of the scale, with a margin for units that differ, not for the needle.
bool isBeyondScale(const ExactPressure& shown, const filtration::Gauge& dial)
{
    return dial.span && shown.value() > *dial.span * (1.0 + 1e-9);
}

const PressureUnit* unitOf(const ReadingLogged& reading, const CartRecord& cart, std::size_t index)
{
    return reading.unit != nullptr ? reading.unit : cart.gauges[index].unit;
}

Pressure halfSwing(const GaugeTyped& typed, const PressureUnit* unit)
{
    return typed.high ? Pressure((*typed.high - typed.low).percent(50).toDouble(), unit->unit) : Pressure{};
}

/// The dial as `shown` was read from it: another scale than its own is no finer than the last digit that was typed.
filtration::Gauge scaleRead(const GaugeRecord& record, const ExactPressure& shown)
{
    filtration::Gauge dial = record.gauge();
    if (dial.graduation && shown.unit != record.unit) {
        const Pressure lastDigit(std::pow(10.0, -shown.number.places()), shown.unit->unit);
        dial.graduation = std::max(*dial.graduation, lastDigit);
    }
    return dial;
}

/// A gauge with its offset taken off and its errors, ready to be subtracted.
std::optional<filtration::GaugeValue> valueOf(const ReadingLogged& reading, const CartRecord& cart,
                                              const Offsets& offsets, std::size_t index)
{
    const auto shown = shownBy(reading, cart, index);
    if (!shown) {
        return std::nullopt;
    }
    const filtration::Gauge dial = scaleRead(cart.gauges[index], *shown);
    const bool hasOffset = index < offsets.size() && offsets[index];
    return filtration::GaugeValue{
        .value = (hasOffset ? minus(*shown, *offsets[index]) : *shown).value(),
        .standing = filtration::standingUncertainty(dial, shown->value()),
        .reading = filtration::readingUncertainty(dial, halfSwing(*reading.gauges[index], shown->unit)),
    };
}

std::optional<ExactPressure> zeroed(const ReadingLogged& reading, const CartRecord& cart, const Offsets& offsets,
                                    std::size_t index)
{
    const auto shown = shownBy(reading, cart, index);
    if (!shown || index >= offsets.size() || !offsets[index]) {
        return shown;
    }
    return minus(*shown, *offsets[index]);
}

std::optional<filtration::Conditions> conditionsOf(const ReadingLogged& reading, const Setup& setup,
                                                   const std::optional<oil::Fluid>& fluid)
{
    if (!fluid) {
        return std::nullopt;
    }
    const auto oil = reading.oil ? std::optional(reading.oil->value()) : std::nullopt;
    const auto viscosity = fluid->viscosityAt(oil);
    if (!viscosity) {
        return std::nullopt;
    }
    const units::Flow flow = reading.flow ? reading.flow->value() : setup.cart.flow.value();
    return filtration::Conditions{flow, *viscosity, fluid->densityAt(oil)};
}

void correct(StageDrop& drop, const StageRecord& stage, const std::optional<filtration::Conditions>& now)
{
    if (!drop.raw || !now) {
        return;
    }
    const auto clean = stage.cleanDrop();
    if (!clean) {
        return;
    }
    if (const auto corrected = filtration::correctedDrop(drop.raw->value(), *clean, *now)) {
        drop.corrected = *corrected;
        drop.loading = filtration::loading(*corrected, *clean);
    }
}

} // namespace

bool reaches(const ExactPressure& drop, const TypedPressure& limit, int percent)
{
    const Decimal wanted = percent == 100 ? limit.number() : limit.number().percent(percent);
    if (drop.unit == &limit.unit()) {
        return drop.number >= wanted;
    }
    const Pressure threshold(wanted.toDouble(), limit.unit().unit);
    return drop.number >= nearest(threshold.in(drop.unit->unit), drop.number.places());
}

std::optional<ExactPressure> shownBy(const ReadingLogged& reading, const CartRecord& cart, std::size_t index)
{
    if (index >= reading.gauges.size() || !reading.gauges[index]) {
        return std::nullopt;
    }
    const GaugeTyped& typed = *reading.gauges[index];
    const Decimal middle = typed.high ? (typed.low + *typed.high).percent(50) : typed.low;
    return ExactPressure{middle, unitOf(reading, cart, index)};
}

std::vector<std::optional<filtration::GaugeValue>> gaugeValuesOf(const ReadingLogged& reading, const Offsets& offsets,
                                                                 const CartRecord& cart)
{
    std::vector<std::optional<filtration::GaugeValue>> values;
    values.reserve(cart.gauges.size());
    for (std::size_t i = 0; i < cart.gauges.size(); ++i) {
        values.push_back(valueOf(reading, cart, offsets, i));
    }
    return values;
}

bool isBlank(const ReadingLogged& reading)
{
    return std::none_of(reading.gauges.begin(), reading.gauges.end(),
                        [](const auto& gauge) { return gauge.has_value(); });
}

namespace {

/// A needle further off than this share of its dial is no zero error: pressure may be trapped, or the gauge is bad.
/// Taking it off would hide a limit. Our choice.
units::Pressure mostZeroError(const filtration::Gauge& dial)
{
    constexpr double shareOfDial = 0.05;
    return dial.span ? *dial.span * shareOfDial : units::Pressure(1.0, units::bar);
}

} // namespace

std::optional<ExactPressure> zeroErrorOf(const ReadingLogged& pumpOff, const CartRecord& cart, std::size_t index)
{
    const auto shown = shownBy(pumpOff, cart, index);
    if (!shown || !cart.staticHead) {
        return std::nullopt;
    }
    const auto error = filtration::readingUncertainty(cart.gauges[index].gauge(),
                                                      halfSwing(*pumpOff.gauges[index], shown->unit));
    const Pressure misread = error ? *error * (2.0 * readerAdds) : Pressure{};
    const ExactPressure off = minus(*shown, {cart.staticHead->number(), &cart.staticHead->unit()});
    return std::abs(off.value().in(pascal)) > misread.in(pascal) ? std::optional(off) : std::nullopt;
}

Offsets offsetsFrom(const ReadingLogged& pumpOff, const CartRecord& cart)
{
    const std::vector<bool> isZero = areZerosIn(pumpOff, cart);
    Offsets offsets(cart.gauges.size());
    for (std::size_t i = 0; i < offsets.size(); ++i) {
        offsets[i] = isZero[i] ? zeroErrorOf(pumpOff, cart, i) : std::nullopt;
    }
    return offsets;
}

std::vector<bool> areZerosIn(const ReadingLogged& pumpOff, const CartRecord& cart)
{
    std::vector<bool> isZero(cart.gauges.size());
    for (std::size_t i = 0; i < isZero.size() && cart.staticHead; ++i) {
        const auto shown = shownBy(pumpOff, cart, i);
        const filtration::Gauge dial = cart.gauges[i].gauge();
        const auto off = shown && !isBeyondScale(*shown, dial)
            ? std::optional(shown->value() - cart.staticHead->value())
            : std::nullopt;
        isZero[i] = off && std::abs(off->in(pascal)) <= mostZeroError(dial).in(pascal);
    }
    return isZero;
}

std::vector<std::optional<ExactPressure>> rawDropsOf(const ReadingLogged& reading, const Offsets& offsets,
                                                     const CartRecord& cart)
{
    std::vector<std::optional<ExactPressure>> drops;
    drops.reserve(cart.gauges.size());
    auto before = zeroed(reading, cart, offsets, 0);
    for (std::size_t i = 1; i < cart.gauges.size(); ++i) {
        const auto after = zeroed(reading, cart, offsets, i);
        drops.push_back(before && after ? std::optional(minus(*before, *after)) : std::nullopt);
        before = after;
    }
    return drops;
}

std::vector<StageDrop> dropsOf(const ReadingLogged& reading, Mode mode, const Offsets& offsets, const Setup& setup,
                               const std::optional<oil::Fluid>& fluid)
{
    const auto differences = filtration::differences(gaugeValuesOf(reading, offsets, setup.cart));
    const auto now = mode == Mode::Filtering ? conditionsOf(reading, setup, fluid) : std::nullopt;

    const auto raw = rawDropsOf(reading, offsets, setup.cart);
    std::vector<StageDrop> drops(setup.stages.size());
    for (std::size_t i = 0; i < drops.size(); ++i) {
        if (!raw[i] || !differences[i]) {
            continue;
        }
        drops[i].raw = raw[i];
        drops[i].standing = differences[i]->standing;
        drops[i].reading = differences[i]->reading;
        correct(drops[i], setup.stages[i], now);
    }
    return drops;
}

} // namespace loopside::run
