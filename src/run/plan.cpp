// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/plan.h"

#include "base/require.h"
#include "base/text.h"
#include "filtration/clean_up.h"
#include "filtration/tank.h"
#include "filtration/turnover.h"

#include <array>

namespace loopside::run {

namespace {

constexpr std::array<double, 3> codeSizesUm = {4.0, 6.0, 14.0};

template<class Typed>
auto valueOf(const std::optional<Typed>& typed)
{
    return typed ? std::optional(typed->value()) : std::nullopt;
}

void planLimits(StagePlan& plan, const StageRecord& stage, const CartRecord& cart)
{
    filtration::StageLimits limits;
    limits.change = valueOf(stage.changeLimit);
    limits.bypass = valueOf(stage.bypass);
    limits.relief = valueOf(cart.relief);
    limits.clean = plan.cleanDp;
    if (const auto findings = filtration::limitFindings(limits)) {
        plan.limits = *findings;
    }
    if (plan.cleanDp && stage.changeLimit) {
        const double loaded = stage.loaded ? stage.loaded->toDouble() : 1.0;
        plan.room = stage.changeLimit->value() / (*plan.cleanDp * loaded);
    }
}

StagePlan stagePlan(const StageRecord& stage, const Setup& setup, const Plan& plan,
                    std::optional<units::Density> density)
{
    StagePlan made;
    const auto clean = stage.cleanDrop();
    if (!clean) {
        made.why = "no clean ΔP is known for this stage";
    } else if (!plan.viscosity) {
        made.why = plan.viscosityWhy;
    } else if (const auto drop = filtration::cleanDropAt(*clean, {setup.cart.flow.value(), *plan.viscosity, density})) {
        made.cleanDp = *drop;
    } else {
        made.why = drop.error().sentence;
    }
    planLimits(made, stage, setup.cart);
    return made;
}

/// The tank at one size of the code: what the stages catch there whose rating reaches down to it.
Result<filtration::MixedTank> mixedTank(const Setup& setup, double sizeUm)
{
    std::vector<double> betas;
    for (const StageRecord& stage : setup.stages) {
        if (stage.kind == "particle" && stage.beta && stage.ratingUm && stage.ratingUm->toDouble() <= sizeUm) {
            betas.push_back(stage.beta->toDouble());
        }
    }
    if (betas.empty()) {
        return fail(Errc::Unavailable, "no stage has a rating of " + fixed(sizeUm, 0) + " µm or finer with a known β");
    }
    const auto k = filtration::captureTimesMixing(betas, mixingFactorOf(setup.tank));
    return k ? Result<filtration::MixedTank>(filtration::MixedTank{*k, 0.0}) : fail(k.error());
}

/// The way from the tank's last code to the target, at each size by `capture` × mixing if it is given, else by what the
/// stages catch and as the tank mixes.
Result<filtration::WayToCode> wayToCode(const Setup& setup, std::optional<double> captureTimesMixing)
{
    const auto from = oil::CleanlinessCode::parse(setup.tank.code);
    const auto to = oil::CleanlinessCode::parse(setup.target.code);
    require(from && to, "a plan is made for a set-up without a fault");
    filtration::PerSize<filtration::MixedTank> tank;
    for (std::size_t i = 0; i < codeSizesUm.size(); ++i) {
        if (!to->scales()[i].number()) {
            continue; // the target asks nothing of this size
        }
        const auto mixed = mixedTank(setup, codeSizesUm[i]);
        if (!mixed) {
            return fail(mixed.error());
        }
        tank[i] = captureTimesMixing ? filtration::MixedTank{*captureTimesMixing, 0.0} : *mixed;
    }
    return filtration::turnoversToCode(*from, *to, tank);
}

std::optional<units::Duration> timeFor(const Setup& setup, const Result<filtration::WayToCode>& way)
{
    const auto time = way && way->turnovers
        ? filtration::runTime(*way->turnovers, setup.tank.volume.value(), setup.cart.flow.value())
        : Result<units::Duration>(fail(Errc::Unavailable, "it never gets there"));
    return time ? std::optional(*time) : std::nullopt;
}

CodePlan codePlan(const Setup& setup, const std::optional<MixingLearned>& mixing)
{
    if (setup.tank.code.empty()) {
        return {.why = "the tank's last code is not known; a before sample tells it"};
    }
    const bool isLearned = mixing && mixing->runs > 0;
    const auto way = wayToCode(setup, isLearned ? std::optional(mixing->captureTimesMixing.best) : std::nullopt);
    if (!way || !way->turnovers) {
        return {.why = way ? way->why : way.error().sentence};
    }
    CodePlan plan{.turnovers = way->turnovers, .run = timeFor(setup, way)};
    if (isLearned) {
        plan.runs = mixing->runs;
        plan.runLeast = timeFor(setup, wayToCode(setup, mixing->captureTimesMixing.high));
        plan.runMost = timeFor(setup, wayToCode(setup, mixing->captureTimesMixing.low));
    }
    return plan;
}

} // namespace

double mixingFactorOf(const TankRecord& tank)
{
    return tank.mixing ? tank.mixing->toDouble() : filtration::mixingOf(filtration::HosePlacement::Unknown).factor;
}

Plan planOf(const Setup& setup, std::optional<units::Temperature> oil, const std::optional<MixingLearned>& mixing)
{
    const units::Volume volume = setup.tank.volume.value();
    const units::Flow flow = setup.cart.flow.value();
    const auto turnover = filtration::turnoverTime(volume, flow);
    require(turnover.has_value(), "a plan is made for a set-up without a fault");

    Plan plan;
    plan.turnover = *turnover;
    if (setup.target.turnovers) {
        if (const auto run = filtration::runTime(setup.target.turnovers->toDouble(), volume, flow)) {
            plan.run = *run;
        }
    }
    std::optional<units::Density> density;
    if (const auto fluid = oil::Fluid::from(setup.tank.fluid.properties()); !fluid) {
        plan.viscosityWhy = fluid.error().sentence;
    } else if (const auto viscosity = fluid->viscosityAt(oil); !viscosity) {
        plan.viscosityWhy = viscosity.error().sentence;
        plan.caution = fluid->caution();
    } else {
        plan.viscosity = *viscosity;
        plan.caution = fluid->caution();
        density = fluid->densityAt(oil);
    }
    for (const StageRecord& stage : setup.stages) {
        plan.stages.push_back(stagePlan(stage, setup, plan, density));
    }
    if (!setup.target.code.empty()) {
        plan.code = codePlan(setup, mixing);
    }
    plan.tank = tankPlanOf(setup);
    plan.water = waterBalanceOf(setup);
    plan.suits = suitsOf(setup);
    for (std::size_t i = 0; i < setup.stages.size(); ++i) {
        const bool isWeighed = setup.stages[i].kind == "water" && plan.water && plan.water->capacity;
        plan.stages[i].sets = isWeighed ? std::optional(1 + plan.water->setsMore) : std::nullopt;
    }
    plan.start = judgeStart(setup, oil);
    return plan;
}

} // namespace loopside::run
