// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/stage.h"

#include "base/require.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace loopside::practice {

using units::cubicMetrePerSecond;
using units::Duration;
using units::kilogramPerCubicMetre;
using units::minute;
using units::pascal;
using units::second;

namespace {

constexpr double missingHole = 0.05; ///< Resistance of an empty seat ÷ that of the clean stage: our choice.
constexpr double setLoose = 0.3;     ///< Share of the caught dirt that a tear sets loose: our choice.
constexpr Duration looseTime = 2.0 * minute;

/// Ratio of two densities where both are known, as in filtration/clean_drop.h.
double densityRatio(const OilNow& oil, const filtration::Conditions& known)
{
    return oil.density && known.density ? *oil.density / *known.density : 1.0;
}

} // namespace

units::Density OilNow::densityOrUsual() const
{
    return density.value_or(870.0 * kilogramPerCubicMetre);
}

StageFlow StagePath::at(units::Flow flow) const
{
    const double q = flow.in(cubicMetrePerSecond);
    const double inertial = housing * q * q;
    if (!opens || resistance * q + inertial <= *opens) {
        return {(resistance * q + inertial) * pascal, 1.0 - holeShare};
    }
    const double toOpen = std::max(*opens - inertial, 0.0);
    const double notAround = (q + toOpen / aroundResistance) / (1.0 + resistance / aroundResistance);
    return {(resistance * notAround + inertial) * pascal, q > 0.0 ? notAround / q * (1.0 - holeShare) : 0.0};
}

Stage::Wander::Wander(Chance chance, double sd, Duration correlation)
    : chance_{std::move(chance)},
      sd_{sd},
      keeps_{std::exp(-(1.0 * minute) / correlation)},
      from_{sd * chance_.normal()},
      to_{from_}
{
    to_ = keeps_ * from_ + std::sqrt(1.0 - keeps_ * keeps_) * sd_ * chance_.normal();
}

double Stage::Wander::at(Duration now)
{
    const double minutes = now.in(minute);
    while (minutes > static_cast<double>(minute_ + 1)) {
        from_ = to_;
        to_ = keeps_ * from_ + std::sqrt(1.0 - keeps_ * keeps_) * sd_ * chance_.normal();
        ++minute_;
    }
    return from_ + (to_ - from_) * (minutes - static_cast<double>(minute_));
}

Stage::Stage(const StageTruth& truth, std::uint64_t seed, int place)
    : truth_{truth},
      elements_(static_cast<std::size_t>(truth.elements)),
      wander_{Chance(seed, 1000U + static_cast<std::uint64_t>(place)), truth.roughness, truth.roughnessTime}
{
    for (Element& element : elements_) {
        element.gramsBefore = gramsAt(truth_.law, truth_.loadedAtStart);
    }
}

double Stage::cleanResistance(const OilNow& oil) const
{
    const filtration::CleanDrop& clean = truth_.clean;
    const double viscous = (oil.viscosity / clean.at.viscosity) * densityRatio(oil, clean.at);
    return (clean.total - clean.housing).in(pascal)*viscous / clean.at.flow.in(cubicMetrePerSecond);
}

double Stage::housingCoefficient(const OilNow& oil) const
{
    const double flow = truth_.clean.at.flow.in(cubicMetrePerSecond);
    return truth_.clean.housing.in(pascal)*densityRatio(oil, truth_.clean.at) / (flow * flow);
}

double Stage::loadingOf(const Element& element) const
{
    double grams = element.gramsBefore;
    for (std::size_t i = 0; i < sizeClasses; ++i) {
        grams += truth_.blockingPerGram[i] * element.caughtMg[i] * 1e-3;
    }
    const double byWater = truth_.water ? loadingAt(truth_.water->swelling, element.waterGrams) : 1.0;
    return loadingAt(truth_.law, grams) * byWater;
}

/// What is missing or shut off is the last of the elements.
bool Stage::flows(std::size_t element, const StageHarm& harm) const
{
    const bool isLast = element + 1 == elements_.size();
    return !(isLast && (harm.elementMissing || harm.elementNotFlowing));
}

StagePath Stage::pathAt(const OilNow& oil, const StageHarm& harm, Duration now)
{
    const double clean = cleanResistance(oil);
    const double rough = std::exp(wander_.at(now));
    double media = 0.0; // conductances ÷ that of the clean stage
    for (std::size_t i = 0; i < elements_.size(); ++i) {
        if (flows(i, harm)) {
            media += 1.0 / (static_cast<double>(elements_.size()) * harm.cleanTimes * loadingOf(elements_[i]) * rough);
        }
    }
    const double holes = (harm.torn ? 1.0 / *harm.torn : 0.0) + (harm.elementMissing ? 1.0 / missingHole : 0.0)
        + harm.leak;
    StagePath path = {clean / (media + holes), housingCoefficient(oil), holes / (media + holes), std::nullopt, 0.0};
    if (truth_.bypass) {
        const double setting = truth_.bypass->setting.in(pascal);
        path.opens = harm.bypassOpen ? 0.0 : setting;
        path.aroundResistance = truth_.bypass->overridden * setting / truth_.clean.at.flow.in(cubicMetrePerSecond);
    }
    return path;
}

double Stage::loading(const StagePath& path, const OilNow& oil) const
{
    const double housing = truth_.clean.housing / truth_.clean.total;
    return path.resistance / cleanResistance(oil) * (1.0 - housing) + housing;
}

PerClass<double> Stage::passes(const StageFlow& flow) const
{
    PerClass<double> share = {};
    for (std::size_t i = 0; i < sizeClasses; ++i) {
        share[i] = (1.0 - flow.throughElements) + flow.throughElements / truth_.beta[i];
    }
    return share;
}

double Stage::passesWater(const StageFlow& flow) const
{
    return truth_.water ? 1.0 - flow.throughElements * truth_.water->capture : 1.0;
}

void Stage::hold(const PerClass<double>& caughtMg, double waterGrams, const StageHarm& harm)
{
    std::vector<double> conductance(elements_.size());
    double all = 0.0;
    for (std::size_t i = 0; i < elements_.size(); ++i) {
        conductance[i] = flows(i, harm) ? 1.0 / loadingOf(elements_[i]) : 0.0;
        all += conductance[i];
    }
    if (!(all > 0.0)) {
        return; // nothing flows through media: nothing is held
    }
    for (std::size_t i = 0; i < elements_.size(); ++i) {
        const double share = conductance[i] / all;
        for (std::size_t size = 0; size < sizeClasses; ++size) {
            elements_[i].caughtMg[size] += share * caughtMg[size];
        }
        elements_[i].waterGrams += share * waterGrams;
    }
}

PerClass<double> Stage::letGoMg(Duration step)
{
    const double share = -std::expm1(-(step / looseTime));
    PerClass<double> gone = {};
    for (std::size_t i = 0; i < sizeClasses; ++i) {
        gone[i] = share * looseMg_[i];
        looseMg_[i] -= gone[i];
    }
    return gone;
}

void Stage::tear()
{
    for (Element& element : elements_) {
        for (std::size_t i = 0; i < sizeClasses; ++i) {
            looseMg_[i] += setLoose * element.caughtMg[i];
            element.caughtMg[i] *= 1.0 - setLoose;
        }
    }
}

void Stage::renew(int elements)
{
    require(elements >= 0 && static_cast<std::size_t>(elements) <= elements_.size(), "a stage has so many elements");
    for (std::size_t i = 0; i < static_cast<std::size_t>(elements); ++i) {
        for (std::size_t size = 0; size < sizeClasses; ++size) {
            takenOutMg_[size] += elements_[i].caughtMg[size];
        }
        takenOutWaterGrams_ += elements_[i].waterGrams;
        elements_[i] = {};
    }
}

PerClass<double> Stage::heldMg() const
{
    PerClass<double> held = looseMg_;
    for (const Element& element : elements_) {
        for (std::size_t i = 0; i < sizeClasses; ++i) {
            held[i] += element.caughtMg[i];
        }
    }
    return held;
}

double Stage::heldWaterGrams() const
{
    double held = 0.0;
    for (const Element& element : elements_) {
        held += element.waterGrams;
    }
    return held;
}

} // namespace loopside::practice
