// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/practice_cart.h"

#include "base/require.h"
#include "base/text.h"
#include "filtration/checks.h"
#include "practice/mixed_tank.h"

#include <algorithm>
#include <cmath>

namespace loopside::practice {

using run::Mode;
using units::cubicMetrePerSecond;
using units::Duration;
using units::kilogramPerCubicMetre;
using units::kilopascal;
using units::litre;
using units::pascal;
using units::Pressure;
using units::second;

namespace {

constexpr Duration longestStep = 5.0 * second;
constexpr Pressure shutKink = 1e6 * kilopascal; ///< At the rated flow: nothing to speak of gets through.
constexpr double noReliefResistance = 1.0;      ///< Never used: there is no relief valve.

std::size_t placeOf(int stage)
{
    return static_cast<std::size_t>(stage - 1);
}

PerClass<double> times(const PerClass<double>& dirt, double factor)
{
    PerClass<double> product = dirt;
    for (double& size : product) {
        size *= factor;
    }
    return product;
}

void add(PerClass<double>& sum, const PerClass<double>& more)
{
    for (std::size_t i = 0; i < sizeClasses; ++i) {
        sum[i] += more[i];
    }
}

} // namespace

Result<PracticeCart> PracticeCart::of(const Scenario& scenario)
{
    if (const Done checked = checkScenario(scenario); !checked) {
        return fail(checked.error());
    }
    return oil::Fluid::from(scenario.oil.properties).transform([&](const oil::Fluid& fluid) {
        return PracticeCart(scenario, fluid);
    });
}

PracticeCart::PracticeCart(const Scenario& scenario, const oil::Fluid& fluid)
    : scenario_{scenario}, fluid_{fluid}, instruments_{scenario}, temperature_{scenario.oil.start}
{
    for (std::size_t i = 0; i < scenario_.stages.size(); ++i) {
        stages_.emplace_back(scenario_.stages[i], scenario_.seed, static_cast<int>(i + 1));
    }
    dirtAtStartMg_ = times(scenario_.tank.dirtMgPerL, scenario_.tank.volume.in(litre));
    add(dirtAtStartMg_, scenario_.tank.settledMg);
    waterAtStart_ = waterGramsPerLitre() * scenario_.tank.volume.in(litre);
    settleFlow();
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        beginLife(static_cast<int>(i + 1));
    }
}

Done PracticeCart::advance(Duration time)
{
    constexpr double mostHours = 1000.0;
    if (!(time.in(units::hour) >= 0.0 && time.in(units::hour) <= mostHours)) {
        return fail(Errc::OutOfRange,
                    "The time to let pass must be from 0 to " + fixed(mostHours, 0) + " h; it is "
                        + fixed(time.in(units::hour), 2) + " h.");
    }
    const auto steps = static_cast<long>(std::ceil(time / longestStep));
    for (long i = 0; i < steps; ++i) {
        step(time / static_cast<double>(steps));
    }
    return {};
}

void PracticeCart::step(Duration duration)
{
    const std::vector<StageFlow> before = flow_.stages;
    const Duration beforeAt = now_;
    countFiltered(duration);
    carry(duration);
    carryWater(duration);
    now_ += duration;
    warm(duration);
    settleFlow();
    watchLimits(before, beforeAt);
}

void PracticeCart::warm(Duration duration)
{
    const OilTruth& oil = scenario_.oil;
    const double drift = oil.driftKelvinPerHour * now_.in(units::hour);
    const units::TemperatureDifference toGo = (oil.end - temperature_) + drift * units::kelvins;
    temperature_ = temperature_ + toGo * -std::expm1(-(duration / oil.timeConstant));
}

void PracticeCart::countFiltered(Duration duration)
{
    double through = 1.0;
    for (const StageFlow& stage : flow_.stages) {
        through = std::min(through, stage.throughElements);
    }
    filtered_ += isThroughStages() ? flow_.flow * duration * through : units::Volume{};
}

/// The dirt of a step: from the tank through the stages, each holding its share, and what is let go on with it.
void PracticeCart::carry(Duration duration)
{
    std::vector<AtStage> stages;
    for (std::size_t i = 0; i < flow_.stages.size(); ++i) {
        stages.push_back({stages_[i].passes(flow_.stages[i]), stages_[i].letGoMg(duration), {}});
    }
    for (std::size_t size = 0; size < sizeClasses; ++size) {
        carrySize(size, stages, duration);
    }
    for (std::size_t i = 0; i < stages.size(); ++i) {
        stages_[i].hold(stages[i].caughtMg, 0.0, harmOf(static_cast<int>(i + 1)));
    }
}

void PracticeCart::carrySize(std::size_t size, std::vector<AtStage>& stages, Duration duration)
{
    TankTruth& tank = scenario_.tank;
    double past = 1.0;
    for (const AtStage& stage : stages) {
        past *= stage.passes[size];
    }
    const MixedContent moved = mixedStep(tank.dirtMgPerL[size], tank.volume, flow_.flow * tank.mixing, 1.0 - past,
                                         tank.ingressMgPerMin[size], duration);
    double fromTank = past < 1.0 ? moved.takenOut / (1.0 - past) : 0.0;
    double loose = 0.0; // what earlier stages let go
    for (AtStage& stage : stages) {
        stage.caughtMg[size] = (fromTank + loose) * (1.0 - stage.passes[size]);
        fromTank *= stage.passes[size];
        loose = loose * stage.passes[size] + stage.letGoMg[size];
    }
    tank.dirtMgPerL[size] = moved.perLitre + loose / tank.volume.in(litre);
    cameInMg_[size] += moved.cameIn;
}

void PracticeCart::carryWater(Duration duration)
{
    const double free = freeWaterGramsPerLitre();
    if (!isThroughStages() || free <= 0.0) {
        return;
    }
    TankTruth& tank = scenario_.tank;
    double past = 1.0;
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        past *= stages_[i].passesWater(flow_.stages[i]);
    }
    const MixedContent moved = mixedStep(free, tank.volume, flow_.flow * tank.mixing, 1.0 - past, 0.0, duration);
    tank.waterPpm *= (waterGramsPerLitre() - (free - moved.perLitre)) / waterGramsPerLitre();
    double flowing = past < 1.0 ? moved.takenOut / (1.0 - past) : 0.0;
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        const double pass = stages_[i].passesWater(flow_.stages[i]);
        stages_[i].hold({}, flowing * (1.0 - pass), harmOf(static_cast<int>(i + 1)));
        flowing *= pass;
    }
}

/// Grams in a litre: ppm by mass of the density at the start, held so that no water comes or goes with temperature.
double PracticeCart::waterGramsPerLitre() const
{
    constexpr double perPpm = 1e-6;
    const OilNow atStart{scenario_.oil.start, {}, fluid_.densityAt(scenario_.oil.start)};
    return scenario_.tank.waterPpm * perPpm * atStart.densityOrUsual().in(kilogramPerCubicMetre);
}

double PracticeCart::freeWaterGramsPerLitre() const
{
    const double ppm = scenario_.tank.waterPpm;
    return ppm > scenario_.oil.saturationPpm ? waterGramsPerLitre() * (1.0 - scenario_.oil.saturationPpm / ppm) : 0.0;
}

Mode PracticeCart::trueMode() const
{
    return told_ == Mode::Filtering && faults_.has(FaultKind::ValveInBypass) ? Mode::Bypassing : told_;
}

bool PracticeCart::isThroughStages() const
{
    return !flow_.stages.empty();
}

std::optional<double> PracticeCart::sizeOf(FaultKind kind, int place) const
{
    return faults_.size(kind, place, now_);
}

OilNow PracticeCart::oilNow() const
{
    const auto viscosity = fluid_.viscosityAt(temperature_);
    require(viscosity.has_value(), "the oil of a checked scenario has a viscosity at its temperatures");
    const double factor = scenario_.oil.viscosityTimes * sizeOf(FaultKind::WrongOil).value_or(1.0);
    return {temperature_, *viscosity * factor, fluid_.densityAt(temperature_)};
}

StageHarm PracticeCart::harmOf(int stage) const
{
    if (faults_.isNone()) {
        return {};
    }
    return {.torn = sizeOf(FaultKind::StageTorn, stage),
            .bypassOpen = faults_.has(FaultKind::StageBypassOpen, stage),
            .elementMissing = faults_.has(FaultKind::ElementMissing, stage),
            .elementNotFlowing = faults_.has(FaultKind::ElementNotFlowing, stage),
            .cleanTimes = sizeOf(FaultKind::WrongElement, stage).value_or(1.0),
            .leak = sizeOf(FaultKind::SlowLeak, stage).value_or(0.0)};
}

Loop PracticeCart::loopOf(const OilNow& oil) const
{
    const PumpTruth& pump = scenario_.pump;
    const double rated = pump.displaced.in(cubicMetrePerSecond);
    Loop loop{.staticHead = scenario_.wayBack.staticHead, .hose = scenario_.wayBack.hose};
    if (told_ != Mode::Stopped && !faults_.has(FaultKind::PrimeLost)) {
        loop.displaced = pump.displaced * flowShare_ * (1.0 - sizeOf(FaultKind::StrainerBlocking).value_or(0.0));
    }
    const double viscosity = (oil.viscosity * oil.densityOrUsual()).in(units::pascalSecond);
    loop.slipPerPascal = pump.slip.in(cubicMetrePerSecond) / pump.slipAt.rise.in(pascal)
        * (pump.slipAt.viscosity.in(units::pascalSecond) / viscosity);
    loop.relief = pump.relief;
    loop.reliefResistance = pump.relief ? pump.reliefOverride * pump.relief->in(pascal) / rated : noReliefResistance;
    const Pressure shut = faults_.has(FaultKind::ReturnShut) ? shutKink : Pressure{};
    loop.kink = (sizeOf(FaultKind::ReturnKinked).value_or(0.0) * kilopascal + shut).in(pascal) / (rated * rated);
    if (faults_.has(FaultKind::ReturnOff)) {
        loop.staticHead = {};
        loop.hose.reset();
    }
    return loop;
}

void PracticeCart::settleFlow()
{
    const OilNow oil = oilNow();
    Loop loop = loopOf(oil);
    paths_.clear();
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        paths_.push_back(stages_[i].pathAt(oil, harmOf(static_cast<int>(i + 1)), now_));
    }
    if (trueMode() == Mode::Filtering) {
        loop.stages = paths_;
    }
    flow_ = solve(loop, oil);
    flow_.gauges.resize(stages_.size() + 1, flow_.gauges.front()); // without stages every gauge shows the way back
}

void PracticeCart::watchLimits(const std::vector<StageFlow>& before, Duration beforeAt)
{
    for (StageLife& life : lives_) {
        const std::size_t i = placeOf(life.stage);
        const auto& limit = scenario_.setup.stages[i].changeLimit;
        if (life.changedAt || life.limitAt || !limit || !isThroughStages() || flow_.stages[i].drop < limit->value()) {
            continue;
        }
        double share = 0.0; // of the step, up to the limit
        if (!before.empty() && before[i].drop < limit->value()) {
            share = (limit->value() - before[i].drop) / (flow_.stages[i].drop - before[i].drop);
        }
        life.limitAt = beforeAt + (now_ - beforeAt) * share;
        life.filteredAtLimit = filtered_ - flow_.flow * (now_ - *life.limitAt) * flow_.stages[i].throughElements;
    }
}

void PracticeCart::beginLife(int stage)
{
    const std::size_t i = placeOf(stage);
    lives_.push_back({stage, now_, stages_[i].loading(paths_[i], oilNow())});
}

ToRead PracticeCart::toRead() const
{
    ToRead now{.gauges = flow_.gauges, .oil = temperature_};
    if (told_ != Mode::Stopped) {
        now.swing = sizeOf(FaultKind::Aeration);
    }
    for (std::size_t i = 0; i < flow_.gauges.size(); ++i) {
        const int gauge = static_cast<int>(i + 1);
        now.stuck.push_back(faults_.has(FaultKind::GaugeStuck, gauge));
        now.offsetShares.push_back(sizeOf(FaultKind::GaugeOffset, gauge).value_or(0.0));
    }
    now.thermometerOffKelvin = sizeOf(FaultKind::ThermometerOff).value_or(0.0);
    return now;
}

run::ReadingLogged PracticeCart::readGauges()
{
    return instruments_.read(toRead());
}

std::vector<Needle> PracticeCart::lookAtGauges()
{
    return instruments_.look(toRead());
}

units::Temperature PracticeCart::thermometer() const
{
    const double off = scenario_.thermometer.standingKelvin + sizeOf(FaultKind::ThermometerOff).value_or(0.0);
    return temperature_ + off * units::kelvins;
}

Done PracticeCart::setMode(Mode mode, std::optional<units::Flow> flow)
{
    if (flow) {
        if (const Done checked = filtration::checkAboveZero(flow->in(units::litrePerMinute), "flow", "L/min");
            !checked) {
            return checked;
        }
    }
    flowShare_ = flow ? *flow / scenario_.setup.cart.flow.value() : 1.0;
    told_ = mode;
    faults_.putRight(FaultKind::ValveInBypass, 0);
    settleFlow();
    watchLimits({}, now_);
    return {};
}

Done PracticeCart::checkChange(int stage, int elements) const
{
    if (stage < 1 || placeOf(stage) >= stages_.size()) {
        return fail(Errc::OutOfRange,
                    "The stage must be from 1 to " + std::to_string(stages_.size()) + "; it is " + std::to_string(stage)
                        + ".");
    }
    const int all = scenario_.stages[placeOf(stage)].elements;
    if (elements < 1 || elements > all) {
        return fail(Errc::OutOfRange,
                    "The number of new elements must be from 1 to all " + std::to_string(all) + " of the stage; it is "
                        + std::to_string(elements) + ".");
    }
    if (told_ != Mode::Stopped) {
        return fail(Errc::Conflict, "The pump runs; elements are changed when it has been stopped.");
    }
    return {};
}

Done PracticeCart::changeElements(int stage, int elements)
{
    if (const Done checked = checkChange(stage, elements); !checked) {
        return checked;
    }
    const int renewed = faults_.has(FaultKind::HalfChangedPair, stage) ? elements - 1 : elements;
    faults_.putRight(FaultKind::HalfChangedPair, stage);
    if (renewed == scenario_.stages[placeOf(stage)].elements) {
        for (const FaultKind kind : {FaultKind::StageTorn, FaultKind::ElementMissing, FaultKind::ElementNotFlowing,
                                     FaultKind::WrongElement, FaultKind::SlowLeak, FaultKind::StageBypassOpen}) {
            faults_.putRight(kind, stage);
        }
    }
    stages_[placeOf(stage)].renew(renewed);
    for (StageLife& life : lives_) {
        if (life.stage == stage && !life.changedAt) {
            life.changedAt = now_;
        }
    }
    settleFlow();
    beginLife(stage);
    return {};
}

Done PracticeCart::inflict(const Fault& fault)
{
    if (const Done checked = checkFault(fault, scenario_); !checked) {
        return checked;
    }
    faults_.add(fault, now_);
    actAtOnce(fault, fault.size.value_or(natureOf(fault.kind).typicalSize));
    settleFlow();
    watchLimits(flow_.stages, now_);
    return {};
}

void PracticeCart::actAtOnce(const Fault& fault, double size)
{
    TankTruth& tank = scenario_.tank;
    const double litres = tank.volume.in(litre);
    if (fault.kind == FaultKind::StageTorn) {
        stages_[placeOf(fault.place)].tear();
    } else if (fault.kind == FaultKind::DirtStirred) {
        add(tank.dirtMgPerL, times(tank.settledMg, 1.0 / litres));
        tank.settledMg = {};
    } else if (fault.kind == FaultKind::DirtSlug) {
        tank.dirtMgPerL[0] += size;
        cameInMg_[0] += size * litres;
    } else if (fault.kind == FaultKind::WaterSlug) {
        const double before = waterGramsPerLitre();
        tank.waterPpm += size;
        waterCameIn_ += (waterGramsPerLitre() - before) * litres;
    }
}

void PracticeCart::putRight(FaultKind kind, int place)
{
    faults_.putRight(kind, place);
    settleFlow();
}

Snapshot PracticeCart::truth() const
{
    const OilNow oil = oilNow();
    Snapshot now{.at = now_,
                 .mode = trueMode(),
                 .oil = temperature_,
                 .viscosity = oil.viscosity,
                 .flow = flow_.flow,
                 .relieved = flow_.relieved,
                 .gauges = flow_.gauges,
                 .drops = {},
                 .loading = {},
                 .throughElements = {},
                 .caughtMg = {},
                 .filtered = filtered_,
                 .turnovers = filtered_ / scenario_.tank.volume,
                 .countsPerMl = countsPerMl(scenario_.tank.dirtMgPerL),
                 .waterPpm = scenario_.tank.waterPpm};
    for (std::size_t i = 0; i < stages_.size(); ++i) {
        now.drops.push_back(isThroughStages() ? flow_.stages[i].drop : Pressure{});
        now.throughElements.push_back(isThroughStages() ? flow_.stages[i].throughElements : 0.0);
        now.loading.push_back(stages_[i].loading(paths_[i], oil));
        now.caughtMg.push_back(total(stages_[i].heldMg()));
    }
    return now;
}

Result<filtration::PerSize<double>> PracticeCart::countsAt(int port) const
{
    if (port < 0 || static_cast<std::size_t>(port) > stages_.size() + 1) {
        return fail(Errc::OutOfRange,
                    "The port must be from 0 (the tank) to " + std::to_string(stages_.size() + 1) + "; it is "
                        + std::to_string(port) + ".");
    }
    if (port == 0) {
        return countsPerMl(scenario_.tank.dirtMgPerL);
    }
    PerClass<double> dirt = times(scenario_.tank.dirtMgPerL, scenario_.tank.mixing);
    for (std::size_t i = 0; isThroughStages() && i < placeOf(port); ++i) {
        const PerClass<double> pass = stages_[i].passes(flow_.stages[i]);
        for (std::size_t size = 0; size < sizeClasses; ++size) {
            dirt[size] *= pass[size];
        }
    }
    return countsPerMl(dirt);
}

DirtBalance PracticeCart::dirtBalance() const
{
    DirtBalance balance{.atStartMg = dirtAtStartMg_, .cameInMg = cameInMg_};
    balance.inTankMg = times(scenario_.tank.dirtMgPerL, scenario_.tank.volume.in(litre));
    add(balance.inTankMg, scenario_.tank.settledMg);
    for (const Stage& stage : stages_) {
        add(balance.heldMg, stage.heldMg());
        add(balance.takenAwayMg, stage.takenOutMg());
    }
    return balance;
}

WaterBalance PracticeCart::waterBalance() const
{
    WaterBalance balance{.atStart = waterAtStart_, .cameIn = waterCameIn_};
    balance.inTank = waterGramsPerLitre() * scenario_.tank.volume.in(litre);
    for (const Stage& stage : stages_) {
        balance.held += stage.heldWaterGrams();
        balance.takenAway += stage.takenOutWaterGrams();
    }
    return balance;
}

} // namespace loopside::practice
