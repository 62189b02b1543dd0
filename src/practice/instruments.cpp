// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/instruments.h"

#include <algorithm>
#include <cmath>

namespace loopside::practice {

namespace {

constexpr double noDialEndsAt = 1e9; ///< In any unit.

double spanOf(const run::GaugeRecord& dial)
{
    return dial.span ? dial.span->toDouble() : noDialEndsAt;
}

} // namespace

Instruments::Instruments(const Scenario& scenario)
    : dials_{scenario.setup.cart.gauges},
      truths_{scenario.dials},
      thermometer_{scenario.thermometer},
      reader_{scenario.reader},
      last_(dials_.size())
{
    for (std::size_t i = 0; i <= dials_.size(); ++i) {
        chances_.emplace_back(scenario.seed, 2000U + i);
    }
}

/// The nearest division; a dial without any is read to a hundredth.
Decimal Instruments::onDial(std::size_t index, double shown) const
{
    const run::GaugeRecord& dial = dials_[index];
    const double clamped = std::clamp(shown, 0.0, spanOf(dial));
    if (!dial.graduation) {
        return Decimal::nearest(clamped, 2);
    }
    const double division = dial.graduation->toDouble();
    return Decimal::nearest(std::round(clamped / division) * division, dial.graduation->places());
}

/// What the dial would show if its scale had no ends; from now on that is what it showed last.
double Instruments::shownBy(std::size_t index, const ToRead& now)
{
    const run::GaugeRecord& dial = dials_[index];
    const double offset = index < now.offsetShares.size() ? now.offsetShares[index] * spanOf(dial) : 0.0;
    double shown = (now.gauges[index] + truths_[index].standing).in(dial.unit->unit) + offset;
    if (index < now.stuck.size() && now.stuck[index] && last_[index]) {
        shown = *last_[index];
    }
    last_[index] = shown;
    return shown;
}

std::vector<Needle> Instruments::look(const ToRead& now)
{
    std::vector<Needle> needles;
    for (std::size_t i = 0; i < dials_.size(); ++i) {
        const double shown = std::clamp(shownBy(i, now), 0.0, spanOf(dials_[i]));
        needles.push_back({shown, now.swing.value_or(0.0) * shown});
    }
    return needles;
}

std::optional<run::GaugeTyped> Instruments::readDial(std::size_t index, const ToRead& now)
{
    const run::GaugeRecord& dial = dials_[index];
    Chance& chance = chances_[index];
    const double division = dial.graduation ? dial.graduation->toDouble() : 0.0;
    // All draws are made, whatever comes of them, so that one fault does not change the chance of the next reading.
    const bool isBlank = chance.happens(reader_.blankShare);
    const bool isMisread = chance.happens(reader_.misreadShare);
    const double misreadBy = std::round(chance.between(1.5, 5.5)) * (chance.happens(0.5) ? 1.0 : -1.0);
    const double readingError = chance.normal() * truths_[index].readingSdDivisions;
    const double shown = shownBy(index, now);
    if (isBlank) {
        return std::nullopt;
    }
    const double read = shown + (readingError + (isMisread ? misreadBy : 0.0)) * division;
    if (now.swing) {
        return run::GaugeTyped{onDial(index, read * (1.0 - *now.swing)), onDial(index, read * (1.0 + *now.swing))};
    }
    return run::GaugeTyped{onDial(index, read), std::nullopt};
}

run::ReadingLogged Instruments::read(const ToRead& now)
{
    run::ReadingLogged reading;
    for (std::size_t i = 0; i < dials_.size(); ++i) {
        reading.gauges.push_back(readDial(i, now));
    }
    const double celsius = now.oil.in(units::celsius) + thermometer_.standingKelvin + now.thermometerOffKelvin
        + chances_.back().normal() * thermometer_.readingSdKelvin;
    reading.oil = run::TypedTemperature(Decimal::nearest(celsius, 0),
                                        *units::unitNamed<units::Temperature>("°C").value());
    return reading;
}

} // namespace loopside::practice
