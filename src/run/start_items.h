// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The items of a start at one flow and one temperature: what each part of the cart would be asked for, and what it
// allows. start.h puts them together to a verdict.

#pragma once

#include "run/start.h"

#include <optional>
#include <vector>

namespace loopside::run {

/// From shaft to oil, where the cart does not say: that of a worked example, not of this pump.
inline constexpr double usualPumpEfficiency = 0.6;

/// The oil as it goes through the cart.
struct OilNow
{
    units::KinematicViscosity viscosity;
    units::Density density;
};

/// A start: a flow, and the share of the viscosity that the suction is planned with (filtration/suction.h).
struct StartAt
{
    units::Flow flow;
    double allowance;
};

/// The items that depend on how thick the oil is, in the order of StartItem. `setup` must have no fault.
[[nodiscard]] std::vector<ItemJudged> itemsAt(const Setup& setup, const OilNow& oil, const StartAt& start);

/// What the gauges should show, G1 first; nothing before a part whose loss is not known.
[[nodiscard]] std::vector<std::optional<units::Pressure>> gaugesAt(const Setup& setup, const OilNow& oil,
                                                                   units::Flow flow);

/// What keeps this cart, its elements and the tank's oil apart whatever the temperature: the circuit first, then what
/// the cart held last where it asks for a flush or cannot be told, and the conflicts of elements (suit.h).
[[nodiscard]] std::vector<ItemJudged> itemsAtAnyTemperature(const Setup& setup);

/// The unit for a vacuum: that of the limit if there is one, inHg beside gauges in psi, else the gauges' own.
[[nodiscard]] const PressureUnit& suctionUnit(const CartRecord& cart);

} // namespace loopside::run
