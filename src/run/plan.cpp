// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/plan.h"

#include "base/require.h"
#include "filtration/turnover.h"

namespace loopside::run {

namespace {

StagePlan stagePlan(const StageRecord& stage, const Setup& setup, const Plan& plan,
                    std::optional<units::Density> density)
{
    const auto clean = stage.cleanDrop();
    if (!clean) {
        return {std::nullopt, "no clean ΔP is known for this stage"};
    }
    if (!plan.viscosity) {
        return {std::nullopt, plan.viscosityWhy};
    }
    const auto drop = filtration::cleanDropAt(*clean, {setup.cart.flow.value(), *plan.viscosity, density});
    return drop ? StagePlan{*drop, {}} : StagePlan{std::nullopt, drop.error().sentence};
}

} // namespace

Plan planOf(const Setup& setup, std::optional<units::Temperature> oil)
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
    } else {
        plan.viscosity = *viscosity;
        density = fluid->densityAt(oil);
    }
    for (const StageRecord& stage : setup.stages) {
        plan.stages.push_back(stagePlan(stage, setup, plan, density));
    }
    return plan;
}

} // namespace loopside::run
