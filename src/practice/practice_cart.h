// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A simulated cart on a simulated tank, moved on by hand: for training, and under `simulate`. Its time is its own; it
// knows no clock.
//
// Validity: one mixed tank, every moment steady, the flow of a step held through the step (5 s at most). What the cart
// does to real oil and elements nobody knows from this: it is for practice and tests, and what is learned from a
// practice run is not learned from oil.

#pragma once

#include "practice/fault.h"
#include "practice/instruments.h"
#include "practice/loop.h"
#include "practice/scenario.h"
#include "run/event.h"

#include <optional>
#include <vector>

namespace loopside::practice {

/// How everything truly is at one moment. The lists have one place per stage, `gauges` one more.
struct Snapshot
{
    units::Duration at;
    run::Mode mode; ///< Of the valve and the pump, whatever a person believes.
    units::Temperature oil;
    units::KinematicViscosity viscosity;
    units::Flow flow; ///< That comes back to the tank.
    bool relieved = false;
    std::vector<units::Pressure> gauges;
    std::vector<units::Pressure> drops;      ///< Raw; 0 while no oil passes the stages.
    std::vector<double> loading;             ///< Corrected ÷ clean, as if nothing went round the elements.
    std::vector<double> throughElements;     ///< Share of the flow; 0 while no oil passes the stages.
    std::vector<double> caughtMg;            ///< In this run, in what is fitted now.
    units::Volume filtered;                  ///< Through the elements of every stage.
    double turnovers;                        ///< `filtered` ÷ the oil in the tank.
    filtration::PerSize<double> countsPerMl; ///< In the tank.
    double waterPpm;
};

/// A filling of a stage with elements, from when it was fitted.
struct StageLife
{
    int stage; ///< From 1.
    units::Duration from;
    double loadingAtStart;
    std::optional<units::Duration> limitAt = {};       ///< When the raw drop first was at the change limit.
    std::optional<units::Volume> filteredAtLimit = {}; ///< By then, in the run.
    std::optional<units::Duration> changedAt = {};
};

/// Where all of the dirt is, to show that none is lost.
struct DirtBalance
{
    PerClass<double> atStartMg = {};
    PerClass<double> cameInMg = {};
    PerClass<double> inTankMg = {};    ///< Floating and settled.
    PerClass<double> heldMg = {};      ///< By the stages.
    PerClass<double> takenAwayMg = {}; ///< With changed elements.
};

/// The same of the water, in grams.
struct WaterBalance
{
    double atStart = 0.0;
    double cameIn = 0.0;
    double inTank = 0.0;
    double held = 0.0;
    double takenAway = 0.0;
};

class PracticeCart
{
public:
    /// The cart of `scenario`, stopped, at time 0. The scenario's faults are not inflicted: that is the caller's.
    /// Errors as of `checkScenario`.
    [[nodiscard]] static Result<PracticeCart> of(const Scenario& scenario);

    /// Lets time pass. OutOfRange if `time` is not from 0 to 1000 hours.
    [[nodiscard]] Done advance(units::Duration time);

    /// What a person types who reads the dials now.
    [[nodiscard]] run::ReadingLogged readGauges();

    /// How the dials look now, one needle for each.
    [[nodiscard]] std::vector<Needle> lookAtGauges();

    /// What the thermometer shows now, without anybody's reading error.
    [[nodiscard]] units::Temperature thermometer() const;

    /// Sets valve and pump; a flow, where given, is what the pump is set to displace, else as rated.
    /// OutOfRange if the flow is not above 0.
    [[nodiscard]] Done setMode(run::Mode mode, std::optional<units::Flow> flow = {});

    /// Renews so many elements of a stage. If all are renewed, the stage's faults are put right.
    /// Conflict while the pump runs; OutOfRange for a stage or number of elements that is not there.
    [[nodiscard]] Done changeElements(int stage, int elements);

    /// Something goes wrong from now on. OutOfRange, naming it, for a place that is not there or a size that cannot be;
    /// Conflict where this cart cannot have the fault.
    [[nodiscard]] Done inflict(const Fault& fault);

    /// The fault is found and put right; nothing happens if it does not stand.
    void putRight(FaultKind kind, int place = 0);

    /// The size to which a fault that stands has grown; nothing if it does not stand.
    [[nodiscard]] std::optional<double> standing(FaultKind kind, int place = 0) const { return sizeOf(kind, place); }

    [[nodiscard]] units::Duration now() const { return now_; }
    [[nodiscard]] run::Mode modeTold() const { return told_; } ///< What the person believes.
    [[nodiscard]] Snapshot truth() const;
    [[nodiscard]] const std::vector<StageLife>& lives() const { return lives_; }

    /// Counts per mL in a sample: ports 1…N+1 like the gauges, 0 from the tank. OutOfRange for another port.
    [[nodiscard]] Result<filtration::PerSize<double>> countsAt(int port) const;

    [[nodiscard]] DirtBalance dirtBalance() const;
    [[nodiscard]] WaterBalance waterBalance() const;

private:
    PracticeCart(const Scenario& scenario, const oil::Fluid& fluid);

    void step(units::Duration duration);
    void warm(units::Duration duration);
    /// What of each size a stage lets past, lets go and catches in a step.
    struct AtStage
    {
        PerClass<double> passes;
        PerClass<double> letGoMg;
        PerClass<double> caughtMg;
    };

    void countFiltered(units::Duration duration);
    void carry(units::Duration duration);
    void carrySize(std::size_t size, std::vector<AtStage>& stages, units::Duration duration);
    void carryWater(units::Duration duration);
    void settleFlow();
    void watchLimits(const std::vector<StageFlow>& before, units::Duration beforeAt);
    void beginLife(int stage);
    void actAtOnce(const Fault& fault, double size);

    [[nodiscard]] Done checkChange(int stage, int elements) const;
    [[nodiscard]] ToRead toRead() const;
    [[nodiscard]] run::Mode trueMode() const;
    [[nodiscard]] bool isThroughStages() const;
    [[nodiscard]] OilNow oilNow() const;
    [[nodiscard]] StageHarm harmOf(int stage) const;
    [[nodiscard]] Loop loopOf(const OilNow& oil) const;
    [[nodiscard]] std::optional<double> sizeOf(FaultKind kind, int place = 0) const;
    [[nodiscard]] double freeWaterGramsPerLitre() const;
    [[nodiscard]] double waterGramsPerLitre() const;

    Scenario scenario_;
    oil::Fluid fluid_;
    std::vector<Stage> stages_;
    Instruments instruments_;
    FaultsStanding faults_ = {};
    units::Duration now_ = {};
    run::Mode told_ = run::Mode::Stopped;
    double flowShare_ = 1.0; ///< What the pump is set to ÷ rated.
    units::Temperature temperature_;
    units::Volume filtered_ = {};
    LoopFlow flow_ = {};
    std::vector<StagePath> paths_ = {}; ///< Of all stages, whether oil passes them or not.
    std::vector<StageLife> lives_ = {};
    PerClass<double> cameInMg_ = {};
    PerClass<double> dirtAtStartMg_ = {};
    double waterAtStart_ = 0.0; ///< Grams.
    double waterCameIn_ = 0.0;
};

} // namespace loopside::practice
