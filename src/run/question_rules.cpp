// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/question_rules.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace loopside::run {

namespace {

using units::pascal;
using units::Pressure;

/// The smallest step of what was read: a division of the dial, else a digit of the last place typed.
Pressure divisionOf(const ExactPressure& shown, const GaugeRecord& dial)
{
    if (dial.graduation) {
        return Pressure(dial.graduation->toDouble(), dial.unit->unit);
    }
    return Pressure(std::pow(10.0, -shown.number.places()), shown.unit->unit);
}

/// 3 % of the span, or, where that is not known, of twice the highest value: dials are read in their middle half.
Pressure usualStanding(const GaugeRecord& dial, Pressure highest)
{
    constexpr double ofSpan = 0.03;
    const Pressure span = dial.span ? Pressure(dial.span->toDouble(), dial.unit->unit) : highest * 2.0;
    return span * (ofSpan * std::numbers::inv_sqrt3);
}

Pressure highestIn(const std::vector<std::optional<filtration::GaugeValue>>& values)
{
    Pressure highest;
    for (const auto& value : values) {
        highest = value ? std::max(highest, value->value) : highest;
    }
    return highest;
}

std::optional<units::KinematicViscosity> viscosityAt(const Moment& moment, const RunState& run)
{
    if (!run.fluid) {
        return std::nullopt;
    }
    const auto oil = moment.reading->oil ? std::optional(moment.reading->oil->value()) : std::nullopt;
    const auto viscosity = run.fluid->viscosityAt(oil);
    return viscosity ? std::optional(*viscosity) : std::nullopt;
}

} // namespace

std::vector<std::optional<Seen>> seenIn(const ReadingLogged& reading, const SetAsked& set)
{
    const auto values = gaugeValuesOf(reading, set.offsets, set.cart());
    const Pressure highest = highestIn(values);
    std::vector<std::optional<Seen>> seen(values.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (const auto& value = values[i]) {
            const GaugeRecord& dial = set.cart().gauges[i];
            const Pressure division = divisionOf(*shownBy(reading, set.cart(), i), dial);
            const Pressure rounding = division * 0.5 * std::numbers::inv_sqrt3; // rectangular, as in gauge.h
            seen[i] = Seen{value->value, value->reading.value_or(rounding), division,
                           value->standing.value_or(usualStanding(dial, highest))};
        }
    }
    return seen;
}

Pressure errorOfDifference(Pressure a, Pressure b)
{
    return 2.0 * std::hypot(a.in(pascal), b.in(pascal)) * pascal;
}

double changeByOil(const Moment& from, const Moment& to, const RunState& run)
{
    const auto before = viscosityAt(from, run);
    const auto after = viscosityAt(to, run);
    const double thinner = before && after ? *after / *before : 1.0;
    const bool isFlowKnown = from.flow > units::Flow{} && to.flow > units::Flow{};
    return thinner * (isFlowKnown ? to.flow / from.flow : 1.0);
}

bool isUndisturbed(const Moment& from, const Moment& to)
{
    return from.mode == to.mode && from.disturbedAt == to.disturbedAt && from.elementsSince == to.elementsSince;
}

} // namespace loopside::run
