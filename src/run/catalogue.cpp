// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/catalogue.h"

#include "oil/grade.h"

#include <utility>

namespace loopside::run {

namespace {

using units::Pressure;

template<class Typed>
auto valueOf(const std::optional<Typed>& typed)
{
    return typed ? std::optional(typed->value()) : std::nullopt;
}

template<class Typed>
bool isNegative(const std::optional<Typed>& typed)
{
    return typed && typed->number() < Decimal(0, 0);
}

template<class Typed>
bool isNotPositive(const Typed& typed)
{
    return typed.number() <= Decimal(0, 0);
}

std::optional<SetupFault> fluidFault(const FluidRecord& fluid)
{
    if (!fluid.grade.empty()) {
        if (const auto grade = oil::gradeNamed(fluid.grade); !grade) {
            return SetupFault{"tank.fluid.grade", grade.error().sentence};
        }
    }
    if (!fluid.points.empty() && fluid.points.size() != 2) {
        return SetupFault{"tank.fluid.points",
                          "a viscosity line needs two points, not " + std::to_string(fluid.points.size())};
    }
    const bool described = fluid.viscosity || fluid.points.size() == 2
        || (!fluid.grade.empty() && fluid.viscosityIndex);
    if (!described) {
        return std::nullopt; // the run goes on without corrected numbers, and says so
    }
    if (const auto made = oil::Fluid::from(fluid.properties()); !made) {
        return SetupFault{"tank.fluid", made.error().sentence};
    }
    return std::nullopt;
}

std::optional<SetupFault> tankFault(const TankRecord& tank)
{
    if (isNotPositive(tank.volume)) {
        return SetupFault{"tank.volume", "a tank holds more than " + tank.volume.toText() + " of oil"};
    }
    if (tank.mixing && (*tank.mixing <= Decimal(0, 0) || *tank.mixing > Decimal(1, 0))) {
        return SetupFault{"tank.mixing", "a mixing factor lies above 0 and up to 1, not at " + tank.mixing->toText()};
    }
    return fluidFault(tank.fluid);
}

std::optional<SetupFault> gaugeFault(const GaugeRecord& gauge, const std::string& place)
{
    if (gauge.unit == nullptr) {
        return SetupFault{place + ".unit", "a dial counts in a unit"};
    }
    if (gauge.span && *gauge.span <= Decimal(0, 0)) {
        return SetupFault{place + ".span", "a dial's full scale is more than " + gauge.span->toText()};
    }
    if (gauge.graduation && *gauge.graduation <= Decimal(0, 0)) {
        return SetupFault{place + ".graduation", "a dial's graduation is more than " + gauge.graduation->toText()};
    }
    if (gauge.span && gauge.graduation && *gauge.graduation > *gauge.span) {
        return SetupFault{place + ".graduation",
                          "a graduation of " + gauge.graduation->toText() + " does not fit on a dial of "
                              + gauge.span->toText()};
    }
    if (!gauge.grade.empty()) {
        if (const auto grade = filtration::accuracyGrade(gauge.grade); !grade) {
            return SetupFault{place + ".grade", grade.error().sentence};
        }
    }
    return std::nullopt;
}

std::optional<SetupFault> cartFault(const CartRecord& cart, std::size_t stages)
{
    if (isNotPositive(cart.flow)) {
        return SetupFault{"cart.flow",
                          "a pump that moves oil has more than " + cart.flow.toText()
                              + "; turnovers cannot be counted without a flow"};
    }
    if (cart.relief && isNotPositive(*cart.relief)) {
        return SetupFault{"cart.relief", "a relief setting is more than " + cart.relief->toText()};
    }
    if (isNegative(cart.holdUp)) {
        return SetupFault{"cart.hold_up", "a hold-up volume cannot be " + cart.holdUp->toText()};
    }
    if (cart.gauges.size() != stages + 1) {
        return SetupFault{"cart.gauges",
                          std::to_string(stages) + " stages need " + std::to_string(stages + 1) + " gauges, not "
                              + std::to_string(cart.gauges.size())};
    }
    for (std::size_t i = 0; i < cart.gauges.size(); ++i) {
        if (auto fault = gaugeFault(cart.gauges[i], "cart.gauges")) {
            return fault;
        }
    }
    return std::nullopt;
}

std::optional<SetupFault> cleanFault(const StageRecord& stage, const std::string& place)
{
    if (stage.cleanDp && isNotPositive(*stage.cleanDp)) {
        return SetupFault{place + ".clean_dp", "a clean element has a ΔP above " + stage.cleanDp->toText()};
    }
    if (isNegative(stage.cleanDpHousing)
        || (stage.cleanDpHousing && stage.cleanDp && stage.cleanDpHousing->value() >= stage.cleanDp->value())) {
        return SetupFault{place + ".clean_dp_housing",
                          "the housing's part of the clean ΔP lies between nothing and the whole, not at "
                              + stage.cleanDpHousing->toText()};
    }
    if (stage.cleanAt && isNotPositive(stage.cleanAt->flow)) {
        return SetupFault{place + ".clean_at.flow",
                          "a clean ΔP is measured at a flow above " + stage.cleanAt->flow.toText()};
    }
    if (stage.cleanAt && isNotPositive(stage.cleanAt->viscosity)) {
        return SetupFault{place + ".clean_at.viscosity",
                          "a clean ΔP is measured at a viscosity above " + stage.cleanAt->viscosity.toText()};
    }
    return std::nullopt;
}

std::optional<SetupFault> stageFault(const StageRecord& stage, const std::string& place)
{
    if (stage.kind != "particle" && stage.kind != "water") {
        return SetupFault{place + ".kind", "a stage is of the kind particle or water"};
    }
    if (stage.elements < 1 || stage.elements > 12) {
        return SetupFault{place + ".elements", "a stage has 1 to 12 elements, not " + std::to_string(stage.elements)};
    }
    if (stage.changeLimit && isNotPositive(*stage.changeLimit)) {
        return SetupFault{place + ".change_limit", "a change limit is more than " + stage.changeLimit->toText()};
    }
    if (stage.bypass && isNotPositive(*stage.bypass)) {
        return SetupFault{place + ".bypass", "a bypass setting is more than " + stage.bypass->toText()};
    }
    if (stage.loaded && *stage.loaded <= Decimal(0, 0)) {
        return SetupFault{place + ".loaded", "a loading ratio is more than " + stage.loaded->toText()};
    }
    if (isNegative(stage.waterCapacity)) {
        return SetupFault{place + ".water_capacity", "an element cannot hold " + stage.waterCapacity->toText()};
    }
    return cleanFault(stage, place);
}

} // namespace

oil::FluidProperties FluidRecord::properties() const
{
    oil::FluidProperties known;
    known.grade = grade;
    if (viscosityIndex) {
        known.viscosityIndex = viscosityIndex->toDouble();
    }
    for (const Point& point : points) {
        known.points.push_back({point.at.value(), point.viscosity.value()});
    }
    known.fixedViscosity = valueOf(viscosity);
    known.densityAt15 = valueOf(density);
    return known;
}

filtration::Gauge GaugeRecord::gauge() const
{
    const auto inPressure = [this](const std::optional<Decimal>& number) {
        return number ? std::optional(Pressure(number->toDouble(), unit->unit)) : std::nullopt;
    };
    filtration::Gauge dial;
    dial.span = inPressure(span);
    dial.graduation = inPressure(graduation);
    if (!grade.empty()) {
        if (const auto known = filtration::accuracyGrade(grade)) {
            dial.grade = *known;
        }
    }
    return dial;
}

std::optional<filtration::CleanDrop> StageRecord::cleanDrop() const
{
    if (!cleanDp || !cleanAt) {
        return std::nullopt;
    }
    return filtration::CleanDrop{
        .total = cleanDp->value(),
        .housing = cleanDpHousing ? cleanDpHousing->value() : Pressure{},
        .at = {cleanAt->flow.value(), cleanAt->viscosity.value(), valueOf(cleanAt->density)},
    };
}

std::optional<SetupFault> faultIn(const Setup& setup)
{
    if (setup.stages.empty()) {
        return SetupFault{"stages", "a cart has at least one stage"};
    }
    if (auto fault = tankFault(setup.tank)) {
        return fault;
    }
    if (auto fault = cartFault(setup.cart, setup.stages.size())) {
        return fault;
    }
    for (std::size_t i = 0; i < setup.stages.size(); ++i) {
        if (auto fault = stageFault(setup.stages[i], "stages[" + std::to_string(i) + "]")) {
            return fault;
        }
    }
    if (setup.target.turnovers && *setup.target.turnovers <= Decimal(0, 0)) {
        return SetupFault{"target.turnovers",
                          "a target is more than " + setup.target.turnovers->toText() + " turnovers"};
    }
    return std::nullopt;
}

} // namespace loopside::run
