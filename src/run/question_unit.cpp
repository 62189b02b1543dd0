// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A dial often has two scales. Whoever reads the inner one types every gauge off by the same factor: 14.5 between psi
// and bar, 6.9 between psi and kPa, 100 between bar and kPa. Units closer than that cannot be told apart from gauges.

#include "run/question_rules.h"
#include "run/start_items.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace loopside::run {

namespace {

using units::Pressure;

/// Scales found side by side on dials.
constexpr std::array<std::string_view, 3> scales = {"psi", "bar", "kPa"};

constexpr double offAsTyped = 3.0;      ///< Every gauge is off by more than this factor as typed. Our choice.
constexpr double nearLast = 1.5;        ///< In the other unit every gauge is within this factor of the last set.
constexpr double nearExpected = 2.0;    ///< The same of a first set against what is expected of clean elements.
constexpr double readableDigit = 0.2;   ///< A gauge tells a unit if half its last digit is at most this share of it.
constexpr std::size_t fewestGauges = 2; ///< That tell the unit.

/// What each gauge should show, and how far from it a set may lie.
struct Expected
{
    std::vector<std::optional<Pressure>> gauges;
    std::vector<Pressure> error; ///< Of reading it, either way.
    double within = nearLast;
};

Expected expectedFromLast(const SetAsked& set)
{
    Expected expected;
    const double change = changeByOil(*set.good, set.moment, set.run);
    for (const auto& seen : seenIn(*set.good->reading, set)) {
        expected.gauges.push_back(seen ? std::optional(seen->value * change) : std::nullopt);
        expected.error.push_back(seen ? seen->reading * 2.0 : Pressure{});
    }
    return expected;
}

/// Of clean elements at today's oil; nothing where fluid, temperature or a part of the cart is not known.
Expected expectedOfClean(const SetAsked& set)
{
    const auto& oil = set.reading().oil;
    const auto viscosity = set.run.fluid && oil ? set.run.fluid->viscosityAt(oil->value())
                                                : Result<units::KinematicViscosity>(fail(Errc::NotFound, {}));
    if (!viscosity) {
        return {};
    }
    const OilNow now{*viscosity, set.run.fluid->densityAt(oil->value()).value_or(usualDensity)};
    Expected expected{gaugesAt(set.run.setup, now, set.moment.flow), {}, nearExpected};
    expected.error.resize(expected.gauges.size());
    const bool isComplete = std::all_of(expected.gauges.begin(), expected.gauges.end(),
                                        [](const auto& gauge) { return gauge.has_value(); });
    return isComplete ? expected : Expected{};
}

bool isWithin(Pressure value, Pressure expected, double factor, Pressure error)
{
    return value >= expected / factor - error && value <= expected * factor + error;
}

/// Half the last digit, of the number as if it stood in `unit`.
Pressure halfDigit(const GaugeTyped& typed, const PressureUnit& unit)
{
    return Pressure(0.5 * std::pow(10.0, -typed.low.places()), unit.unit);
}

/// Whether every gauge that was read is near in `unit`, and those that tell a unit, at least two, are far off as typed.
bool fits(const SetAsked& set, const Expected& expected, const PressureUnit& unit)
{
    ReadingLogged other = set.reading();
    other.unit = &unit;
    std::size_t telling = 0;
    for (std::size_t i = 0; i < expected.gauges.size(); ++i) {
        const auto typed = shownBy(set.reading(), set.cart(), i);
        if (!typed || !expected.gauges[i]) {
            continue;
        }
        const Pressure should = *expected.gauges[i];
        const Pressure digit = halfDigit(*set.reading().gauges[i], unit);
        const bool tells = digit <= should * readableDigit;
        const bool isOff = typed->unit != &unit && !isWithin(typed->value(), should, offAsTyped, Pressure{});
        const bool isNear = isWithin(shownBy(other, set.cart(), i)->value(), should, expected.within,
                                     digit + expected.error[i]);
        if (!isNear || (tells && !isOff)) {
            return false;
        }
        telling += tells ? 1U : 0U;
    }
    return telling >= fewestGauges;
}

std::string typedText(const SetAsked& set)
{
    std::string text;
    for (const auto& gauge : set.reading().gauges) {
        text += (text.empty() ? "" : " / ")
            + (gauge ? gauge->low.toText() + (gauge->high ? "–" + gauge->high->toText() : "") : "–");
    }
    return text;
}

} // namespace

std::optional<Question> askUnit(const SetAsked& set)
{
    const Expected expected = set.good != nullptr ? expectedFromLast(set) : expectedOfClean(set);
    if (expected.gauges.empty()) {
        return std::nullopt;
    }
    const PressureUnit* used = set.reading().unit != nullptr ? set.reading().unit : set.cart().gauges.front().unit;
    for (const std::string_view scale : scales) {
        const PressureUnit& unit = *units::unitNamed<Pressure>(scale).value();
        if (fits(set, expected, unit)) {
            Question asked{.id = wrongUnit, .of = set.moment.fact};
            asked.arguments = {
                {"values", typedText(set)}, {"unit", std::string(unit.symbol)}, {"used", std::string(used->symbol)}};
            asked.proposal = Proposal{{}, &unit};
            return asked;
        }
    }
    return std::nullopt;
}

} // namespace loopside::run
