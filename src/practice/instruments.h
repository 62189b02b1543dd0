// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The dials and the thermometer of a simulated cart, and the person who reads them.

#pragma once

#include "practice/chance.h"
#include "practice/scenario.h"
#include "run/event.h"

#include <vector>

namespace loopside::practice {

/// What is to be read, and what is wrong with the instruments.
struct ToRead
{
    std::vector<units::Pressure> gauges;
    units::Temperature oil;
    std::optional<double> swing = {};      ///< Half the swing ÷ what is shown.
    std::vector<bool> stuck = {};          ///< Per gauge; may be empty.
    std::vector<double> offsetShares = {}; ///< Per gauge, of its span; may be empty.
    double thermometerOffKelvin = 0.0;
};

/// Where a needle stands, in the unit of its dial and within its scale.
struct Needle
{
    double shown;
    double halfSwing = 0.0; ///< It swings so far to either side; 0: it is steady.
};

class Instruments
{
public:
    explicit Instruments(const Scenario& scenario);

    /// The dials as they look, one needle for each, with what is wrong with them and without anybody's reading error.
    /// What is looked at counts for a needle that gets stuck later.
    [[nodiscard]] std::vector<Needle> look(const ToRead& now);

    /// The digits that a person types. A dial shows nothing below 0 and stands at its end above it. Every reading
    /// draws its own errors.
    [[nodiscard]] run::ReadingLogged read(const ToRead& now);

private:
    [[nodiscard]] std::optional<run::GaugeTyped> readDial(std::size_t index, const ToRead& now);
    [[nodiscard]] double shownBy(std::size_t index, const ToRead& now);
    [[nodiscard]] Decimal onDial(std::size_t index, double shown) const;

    std::vector<run::GaugeRecord> dials_;
    std::vector<DialTruth> truths_;
    ThermometerTruth thermometer_;
    ReaderTruth reader_;
    std::vector<Chance> chances_;             ///< One per dial, the last for the thermometer.
    std::vector<std::optional<double>> last_; ///< What each dial showed last, in its unit.
};

} // namespace loopside::practice
