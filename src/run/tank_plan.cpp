// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/tank_plan.h"

#include "base/text.h"

#include <cmath>

namespace loopside::run {

namespace {

constexpr double volumeDoubt = 0.1;
constexpr double largestHoldUp = 0.1;

} // namespace

TankPlan tankPlanOf(const Setup& setup)
{
    TankPlan plan;
    const TankRecord& tank = setup.tank;
    const auto shape = tank.shape ? tank.shape->shape() : std::nullopt;
    if (shape && tank.level) {
        plan.atLevel = filtration::volumeAt(*shape, tank.level->value()).value_or(units::Volume{});
    }
    if (shape && setup.cart.holdUp) {
        const auto level = tank.level ? Result<units::Length>(tank.level->value())
                                      : filtration::levelFor(*shape, tank.volume.value());
        const auto fall = level ? filtration::levelFall(*shape, *level, setup.cart.holdUp->value())
                                : Result<units::Length>(fail(level.error()));
        plan.fall = fall ? std::optional(*fall) : std::nullopt;
    }
    const auto capacity = tank.capacity ? Result<units::Volume>(tank.capacity->value())
        : shape                         ? filtration::capacityOf(*shape)
                                        : Result<units::Volume>(fail(Errc::Unavailable, ""));
    if (capacity) {
        const auto space = filtration::headSpace(*capacity, tank.volume.value());
        plan.headSpace = space ? std::optional(*space) : std::nullopt;
    }
    return plan;
}

std::vector<Message> tankCautions(const Setup& setup)
{
    std::vector<Message> all;
    const TankRecord& tank = setup.tank;
    const TankPlan plan = tankPlanOf(setup);
    const auto litres = [](units::Volume volume) { return fixed(volume.in(units::litre), 0) + " L"; };
    if (plan.atLevel && std::abs(*plan.atLevel / tank.volume.value() - 1.0) > volumeDoubt) {
        all.push_back(
            {"plan.caution.level",
             {{"level", tank.level->toText()}, {"at-level", litres(*plan.atLevel)}, {"volume", tank.volume.toText()}}});
    }
    const auto& holdUp = setup.cart.holdUp;
    if (holdUp && holdUp->value() > largestHoldUp * tank.volume.value()) {
        all.push_back({"plan.caution.hold-up", {{"hold-up", holdUp->toText()}, {"volume", tank.volume.toText()}}});
    }
    if (plan.headSpace && !plan.headSpace->suffices()) {
        all.push_back({"plan.caution.head-space",
                       {{"free", litres(plan.headSpace->free)}, {"needed", litres(plan.headSpace->expansionMax)}}});
    }
    return all;
}

} // namespace loopside::run
