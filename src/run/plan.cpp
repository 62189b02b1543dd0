// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/plan.h"

#include "base/require.h"
#include "base/text.h"
#include "filtration/clean_up.h"
#include "filtration/tank.h"
#include "filtration/turnover.h"
#include "run/tank_ahead.h"

#include <algorithm>
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

/// What the clean elements take under the conditions of today. `byDials` where enough sets taught it.
std::optional<CleanByDials> cleanByDials(const filtration::CleanDrop& told, const CleanLearned& clean,
                                         const filtration::Conditions& now)
{
    const auto at = [&](double pa) {
        filtration::CleanDrop drop = told;
        drop.total = pa * units::pascal;
        drop.housing = std::min(told.housing, drop.total);
        return filtration::cleanDropAt(drop, now);
    };
    const auto least = at(clean.drop_pa->low);
    const auto most = at(clean.drop_pa->high);
    return least && most ? std::optional(CleanByDials{*least, *most, clean.runs}) : std::nullopt;
}

std::optional<UsedUp> usedUp(const StageRecord& stage, const Setup& setup, const std::vector<LoadingLearned>& loadings)
{
    if (!setup.target.turnovers || stage.type.empty()) {
        return std::nullopt;
    }
    const LifeLearned lives = lifeLearned(livesOf(loadings, setup.tank.name, stage.type));
    if (!lives.litres) {
        return std::nullopt;
    }
    return UsedUp{elementsFor(setup.target.turnovers->toDouble(), setup.tank, *lives.litres, stage.elements),
                  lives.whole};
}

StagePlan stagePlan(int number, const Setup& setup, const Plan& plan, std::optional<units::Density> density,
                    const Taught& taught)
{
    const StageRecord& stage = setup.stages[static_cast<std::size_t>(number) - 1];
    StagePlan made;
    const auto clean = stage.cleanDrop();
    if (!clean) {
        made.why = "no clean ΔP is known for this stage";
    } else if (!plan.viscosity) {
        made.why = plan.viscosityWhy;
    } else {
        const filtration::Conditions now{setup.cart.flow.value(), *plan.viscosity, density};
        filtration::CleanDrop expected = *clean;
        if (const CleanLearned* learned = taught.place.cleanOf(number)) {
            made.byDials = cleanByDials(*clean, *learned, now);
            expected.total = learned->drop_pa->best * units::pascal;
            expected.housing = std::min(expected.housing, expected.total);
        }
        const auto drop = filtration::cleanDropAt(expected, now);
        made.cleanDp = drop ? std::optional(*drop) : std::nullopt;
        made.why = drop ? "" : drop.error().sentence;
    }
    made.usedUp = usedUp(stage, setup, taught.loadings);
    planLimits(made, stage, setup.cart);
    return made;
}

/// k at one size of the code, by what the stages catch there whose rating reaches down to it and the mixing as told.
Result<double> captureTold(const Setup& setup, double sizeUm)
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
    return filtration::captureTimesMixing(betas, mixingFactorOf(setup.tank));
}

/// The way from the tank's last code to the target, in the tank's `as` (best, likely, worst).
Result<filtration::WayToCode> wayToCode(const Setup& setup, const PlaceLearned& place,
                                        filtration::MixedTank TankAhead::* as)
{
    const auto from = oil::CleanlinessCode::parse(setup.tank.code);
    const auto to = oil::CleanlinessCode::parse(setup.target.code);
    require(from && to, "a plan is made for a set-up without a fault");
    filtration::PerSize<filtration::MixedTank> tank;
    for (std::size_t i = 0; i < codeSizesUm.size(); ++i) {
        if (!to->scales()[i].number()) {
            continue; // the target asks nothing of this size
        }
        const auto told = captureTold(setup, codeSizesUm[i]);
        if (!told) {
            return fail(told.error());
        }
        tank[i] = tankAhead(place, setup, i, *told).*as;
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

/// Gaps between runs that taught what gets in, in the size that decides.
int gapsBehind(const filtration::WayToCode& way, const PlaceLearned& place)
{
    const auto& ingress = way.slowest ? place.ingress[*way.slowest] : std::nullopt;
    return ingress ? ingress->gaps : 0;
}

CodePlan codePlan(const Setup& setup, const PlaceLearned& place)
{
    if (setup.tank.code.empty()) {
        return {.why = "the tank's last code is not known; a before sample tells it"};
    }
    const auto way = wayToCode(setup, place, &TankAhead::likely);
    if (!way) {
        return {.why = way.error().sentence};
    }
    CodePlan plan{.runs = place.mixing ? place.mixing->runs : 0, .gaps = gapsBehind(*way, place)};
    if (!way->turnovers) {
        plan.why = way->why;
        return plan;
    }
    plan.turnovers = way->turnovers;
    plan.run = timeFor(setup, way);
    if (plan.runs > 0 || plan.gaps > 0) {
        plan.runLeast = timeFor(setup, wayToCode(setup, place, &TankAhead::best));
        plan.runMost = timeFor(setup, wayToCode(setup, place, &TankAhead::worst));
    }
    return plan;
}

} // namespace

double mixingFactorOf(const TankRecord& tank)
{
    return tank.mixing ? tank.mixing->toDouble() : filtration::mixingOf(filtration::HosePlacement::Unknown).factor;
}

Plan planOf(const Setup& setup, std::optional<units::Temperature> oil, const Taught& taught)
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
    for (std::size_t i = 0; i < setup.stages.size(); ++i) {
        plan.stages.push_back(stagePlan(static_cast<int>(i) + 1, setup, plan, density, taught));
    }
    if (!setup.target.code.empty()) {
        plan.code = codePlan(setup, taught.place);
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
