// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// May the pump be started with this oil, this cart and these elements, at today's temperature? One verdict with its
// reason: what limits, how slow it would go, how warm it must be.
//
// Most runs that fail are lost here. Thick oil fails on the suction side first, before it reaches a filter.
//
// Source: the parts are those of filtration/ (hose loss, lift, clean ΔP, shaft power, circuit); the order of the items
//   is the order in which they give way.
// Validity: clean elements unless the stage says how loaded they are; the oil at the suction is as warm as typed. What
//   is not known is named as a default, or the item says that it cannot be told.
// Uncertainty: the temperatures move by about 2 °C for 10 % of viscosity, which is what a grade allows.

#pragma once

#include "run/catalogue.h"

#include <optional>
#include <string_view>
#include <vector>

namespace loopside::run {

/// Density at 15 °C of oil that is not described better: 0.87 to 0.88 is usual for mineral oil, from memory.
inline constexpr units::Density usualDensity{880.0, units::kilogramPerCubicMetre};

enum class Verdict
{
    Go,
    GoSlower,  ///< At a lower flow that the cart has.
    Warm,      ///< First, by what a tank reaches in a shift.
    NoGo,      ///< Not today, or not with this cart.
    CannotTell ///< Something that decides is not known.
};

/// What can keep the pump from being started, in the order in which it gives way.
enum class StartItem
{
    Suction,
    Relief,
    StageDrop,
    ReturnLine,
    PumpViscosity,
    MotorPower,
    Circuit,
    CartFluid,
    Element
};

[[nodiscard]] std::string_view nameOf(Verdict verdict);
[[nodiscard]] std::string_view nameOf(StartItem item);

enum class Fit
{
    Fits,
    Over,
    Unknown ///< Something that it takes is not known; `ItemJudged::told` says what.
};

/// One item, judged.
struct ItemJudged
{
    StartItem item = StartItem::Suction;
    std::optional<int> stage = {}; ///< From 1, of StageDrop and Element.
    Fit fit = Fit::Unknown;
    std::optional<double> share = {}; ///< What is expected ÷ what is allowed, where both are numbers.
    Message told = {};                ///< The sentence, with both or with what is missing.
};

/// How warm the oil must be for everything to fit at a flow.
struct GoFrom
{
    units::Flow flow;
    double allowance = 1.0;                             ///< Of the suction, see filtration/suction.h.
    std::optional<units::Temperature> temperature = {}; ///< Nothing if no temperature up to 120 °C is enough.
};

struct StartJudged
{
    Verdict verdict = Verdict::CannotTell;
    std::vector<ItemJudged> items = {};                      ///< At the cart's rated flow, in the order of StartItem.
    std::vector<std::optional<units::Pressure>> gauges = {}; ///< Expected today at rated flow, G1 first.
    std::optional<std::size_t> limiting = {};   ///< The first of `items` that is over, or that cannot be told.
    std::optional<units::Flow> slower = {};     ///< The flow at which it goes today, with GoSlower.
    std::vector<GoFrom> goFrom = {};            ///< Rated and lowest flow, planned with and with bare hose.
    std::vector<Message> cautions = {};         ///< What does not decide but is to be settled first.
    std::vector<Message> assumed = {};          ///< Defaults that stand in for data of the cart or the oil.
    std::optional<double> heating_k_per_h = {}; ///< The most that the pump's work can warm the tank.

    [[nodiscard]] const ItemJudged* limitingItem() const { return limiting ? &items[*limiting] : nullptr; }
};

/// Judges `setup`, which must have no fault, with the oil at `oil`.
[[nodiscard]] StartJudged judgeStart(const Setup& setup, std::optional<units::Temperature> oil);

/// The least flow of the cart: as its record says, else 0.4 of the rated one (our choice: the slow setting of the
/// common carts).
[[nodiscard]] units::Flow lowestFlow(const CartRecord& cart);

} // namespace loopside::run
