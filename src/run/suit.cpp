// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/suit.h"

#include "run/state.h"

namespace loopside::run {

namespace {

template<class Typed>
auto valueOf(const std::optional<Typed>& typed)
{
    return typed ? std::optional(typed->value()) : std::nullopt;
}

std::vector<filtration::FittedStage> fittedStages(const Setup& setup)
{
    std::vector<filtration::FittedStage> fitted;
    for (const StageRecord& stage : setup.stages) {
        fitted.push_back({.isWater = stage.kind == "water",
                          .elements = stage.elements,
                          .ratingUm = stage.ratingUm ? std::optional(stage.ratingUm->toDouble()) : std::nullopt,
                          .media = stage.media,
                          .seals = stage.seals,
                          .waterCapacity = valueOf(stage.waterCapacity)});
    }
    return fitted;
}

} // namespace

std::optional<filtration::WaterBalance> waterBalanceOf(const Setup& setup)
{
    if (!setup.tank.water) {
        return std::nullopt;
    }
    const auto balance = filtration::waterBalance(fittedStages(setup), setup.tank.volume.value(),
                                                  valueOf(setup.tank.fluid.density), setup.tank.water->value());
    return balance ? std::optional(*balance) : std::nullopt;
}

std::vector<filtration::Suit> suitsOf(const Setup& setup)
{
    const auto stages = fittedStages(setup);
    const std::string fluid = fluidText(setup.tank.fluid);
    std::vector<filtration::Suit> all;
    const auto add = [&](const std::vector<filtration::Suit>& suits) {
        all.insert(all.end(), suits.begin(), suits.end());
    };
    add(filtration::stageOrder(stages));
    add(filtration::ratingSuits(stages, filtration::fluidNamed(fluid)));
    add(filtration::mediaSuits(stages, oil::familyOf(setup.tank.fluid.kind), valueOf(setup.tank.water)));
    if (setup.cart.lastFluid != "same") { // a person said that it is
        if (const auto cart = filtration::cartFluidSuits({.lastFluid = setup.cart.lastFluid,
                                                          .fluid = fluid,
                                                          .holdUp = valueOf(setup.cart.holdUp),
                                                          .tank = setup.tank.volume.value()})) {
            add(*cart);
        }
    }
    if (const auto balance = waterBalanceOf(setup)) {
        add(filtration::waterSuits(*balance));
    }
    return all;
}

} // namespace loopside::run
