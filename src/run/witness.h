// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The witness of one set: each loss of the loop as a number with its errors, what drives it, and what it would be with
// clean elements.
//
// The last gauge, less static head, follows viscosity × flow and ignores the filters: it tells changes of oil and flow
// from changes of elements. Source: laminar losses, Hagen and Poiseuille, Darcy; trade practice, no source.
// Validity: laminar flow in the return hose (Re below about 2000), the same hose and height all through the run. Below
//   about 20 kPa (3 psi) the last gauge says little on a common dial; `isWeak` says so.
//
// Numbers that we chose (DEVELOPERS.md): how well a thermometer in oil repeats, how well a formula or a catalogue knows
// a clean loss, what stands in for a dial that is not described.

#pragma once

#include "filtration/clean_drop.h"
#include "filtration/pipe.h"
#include "run/timeline.h"
#include "run/uncertain.h"

#include <optional>
#include <vector>

namespace loopside::run {

/// How well a catalogue knows a clean ΔP and a formula the loss of a hose with its fittings, relative (k = 1).
inline constexpr double cleanKnownTo = 0.08;
inline constexpr double hoseKnownTo = 0.2;

/// Below this the last gauge, less static head, is a weak witness.
inline constexpr units::Pressure weakWitness{20.7, units::kilopascal};

/// One set of gauges in numbers.
struct Sight
{
    RunTime at{0};
    const Moment* moment = nullptr;
    std::vector<std::optional<Measured>> gauges; ///< Zeroed by the pump-off check where there was one.
    std::vector<std::optional<Measured>> drops;  ///< One per stage.
    std::optional<Measured> head;                ///< Last gauge less static head.
    std::optional<Measured> filters;             ///< First gauge less last: all stages.
    std::optional<Measured> total;               ///< First gauge less static head.
    std::optional<units::Temperature> oil;
    std::optional<units::KinematicViscosity> viscosity; ///< Of the oil as told, at `oil`.
    std::optional<double> push;   ///< Dynamic viscosity × flow in SI units: what laminar losses are proportional to.
    double pushSdOfReading = 0.0; ///< Relative, from reading the thermometer (k = 1).
    double pushSdStanding = 0.0;  ///< The same from what the thermometer is off by all through a run.
    std::vector<std::optional<Uncertain>> loading;     ///< ΔP ÷ that of clean elements in this oil, all errors.
    std::optional<Uncertain> headAgainstHose;          ///< Head ÷ what the return hose costs by formula, all errors.
    std::vector<std::optional<units::Pressure>> clean; ///< What each stage costs clean, in this oil.
    std::optional<units::Pressure> hose;               ///< What the return hose costs by formula, in this oil.
    units::Pressure cleanFilters;                      ///< What all stages cost clean, in this oil; 0: not known.

    [[nodiscard]] bool isWeak() const { return !head || head->value < weakWitness; }
};

/// Turns the good sets of one run into sights. What is the same for all of them is worked out once.
class Sighting
{
public:
    explicit Sighting(const RunState& run);

    /// `reading` must be a moment with a set of gauges. Nothing is assumed of its mode.
    [[nodiscard]] Sight see(const Moment& reading, const Offsets& offsets) const;

    /// Takes from a pump-off set which zeros it checked and, where the cart does not say it, the height of the oil
    /// above the gauges.
    void noteRest(const Moment& pumpOff);

    /// What every gauge shows with the pump off, where it is known.
    [[nodiscard]] std::optional<units::Pressure> staticHead() const { return staticHead_; }

private:
    void seePressures(Sight& sight, const Offsets& offsets) const;
    void seeOil(Sight& sight) const;
    void seeClean(Sight& sight) const;

    const RunState& run_;
    std::vector<std::optional<filtration::CleanDrop>> clean_;
    std::optional<filtration::Pipe> hose_;
    std::optional<units::Pressure> staticHead_;
    std::vector<bool> isZeroKnown_; ///< Of each gauge.
};

/// The smallest division of a dial; where that is not known, one of its unit.
[[nodiscard]] units::Pressure divisionOf(const GaugeRecord& dial);

/// By how much laminar losses grow from `then` to `now` because of the oil's temperature and the stated flow. Where the
/// oil's viscosity is not known at either: 1, and known badly.
[[nodiscard]] Uncertain expectedFactor(const Sight& now, const Sight& then);

} // namespace loopside::run
