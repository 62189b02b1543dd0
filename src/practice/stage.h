// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// One stage of a simulated cart: elements in parallel, each with what it has caught, a bypass valve, holes.

#pragma once

#include "practice/chance.h"
#include "practice/scenario.h"

#include <vector>

namespace loopside::practice {

/// What is wrong with a stage now.
struct StageHarm
{
    std::optional<double> torn = {}; ///< Resistance of the hole ÷ that of the clean stage.
    bool bypassOpen = false;
    bool elementMissing = false;
    bool elementNotFlowing = false;
    double cleanTimes = 1.0; ///< Of a wrong element.
    double leak = 0.0;       ///< Conductance past the elements ÷ that of the clean stage.
};

/// The oil that flows now.
struct OilNow
{
    units::Temperature temperature;
    units::KinematicViscosity viscosity;
    std::optional<units::Density> density;

    /// The density, or that of common mineral oil where it is not known: 870 kg/m³.
    [[nodiscard]] units::Density densityOrUsual() const;
};

/// What flows how through a stage.
struct StageFlow
{
    units::Pressure drop;
    double throughElements; ///< Share of the flow that went through media; the rest went round or through a hole.
};

/// The way through a stage at one moment. Everything in SI units.
struct StagePath
{
    double resistance;           ///< Viscous part, elements and holes: Pa·s/m³.
    double housing;              ///< Inertial part: Pa·s²/m⁶.
    double holeShare;            ///< Of what does not go round, from 0 to 1.
    std::optional<double> opens; ///< Setting of the bypass valve, Pa.
    double aroundResistance;     ///< Of the open bypass valve, Pa·s/m³.

    [[nodiscard]] StageFlow at(units::Flow flow) const;
};

class Stage
{
public:
    /// `seed` and `place` (from 1) name its stream of chance.
    Stage(const StageTruth& truth, std::uint64_t seed, int place);

    [[nodiscard]] StagePath pathAt(const OilNow& oil, const StageHarm& harm, units::Duration now);

    /// The loading of its elements: what the corrected drop would be over the clean one if every gauge were true and
    /// nothing went round them.
    [[nodiscard]] double loading(const StagePath& path, const OilNow& oil) const;

    /// Shares of each size class, and of the free water, that get past the stage.
    [[nodiscard]] PerClass<double> passes(const StageFlow& flow) const;
    [[nodiscard]] double passesWater(const StageFlow& flow) const;

    /// Takes in what its elements held back.
    void hold(const PerClass<double>& caughtMg, double waterGrams, const StageHarm& harm);

    /// What a torn stage lets go in `step`.
    [[nodiscard]] PerClass<double> letGoMg(units::Duration step);

    /// A tear sets part of what was caught loose.
    void tear();

    /// Renews so many of its elements.
    void renew(int elements);

    [[nodiscard]] const StageTruth& truth() const { return truth_; }
    [[nodiscard]] PerClass<double> heldMg() const; ///< Caught in this run by what is in now, and loose.
    [[nodiscard]] double heldWaterGrams() const;
    [[nodiscard]] PerClass<double> takenOutMg() const { return takenOutMg_; } ///< With changed elements.
    [[nodiscard]] double takenOutWaterGrams() const { return takenOutWaterGrams_; }

private:
    struct Element
    {
        double gramsBefore = 0.0; ///< Blocking grams from before the run.
        PerClass<double> caughtMg = {};
        double waterGrams = 0.0;
    };

    /// A process that wanders about 0, told on a grid of a minute and straight between: so it does not depend on the
    /// steps in which it is asked. Times must not go back.
    class Wander
    {
    public:
        Wander(Chance chance, double sd, units::Duration correlation);
        [[nodiscard]] double at(units::Duration now);

    private:
        Chance chance_;
        double sd_;
        double keeps_;
        double from_;
        double to_;
        long minute_ = 0;
    };

    [[nodiscard]] double loadingOf(const Element& element) const;
    [[nodiscard]] bool flows(std::size_t element, const StageHarm& harm) const;
    [[nodiscard]] double cleanResistance(const OilNow& oil) const;
    [[nodiscard]] double housingCoefficient(const OilNow& oil) const;

    StageTruth truth_;
    std::vector<Element> elements_;
    PerClass<double> looseMg_ = {};
    PerClass<double> takenOutMg_ = {};
    double takenOutWaterGrams_ = 0.0;
    Wander wander_;
};

} // namespace loopside::practice
