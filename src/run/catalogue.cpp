// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/catalogue.h"

#include "base/text.h"
#include "oil/cleanliness_code.h"
#include "oil/fluid_family.h"
#include "oil/grade.h"
#include "run/place_typed.h"

#include <algorithm>
#include <chrono>
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
    if (fluid.points.size() > 2) {
        return SetupFault{"tank.fluid.points",
                          "a viscosity line needs two points, not " + std::to_string(fluid.points.size())};
    }
    if (fluid.points.size() == 1 && !fluid.viscosityIndex) {
        return SetupFault{"tank.fluid.points",
                          "one measured viscosity needs a viscosity index (vi) beside it; or give a second point"};
    }
    const bool described = fluid.viscosity || !fluid.points.empty() || (!fluid.grade.empty() && fluid.viscosityIndex);
    if (!described) {
        return std::nullopt; // the run goes on without corrected numbers, and says so
    }
    if (const auto made = oil::Fluid::from(fluid.properties()); !made) {
        return SetupFault{"tank.fluid", made.error().sentence};
    }
    return std::nullopt;
}

std::optional<SetupFault> shapeFault(const TankRecord& tank)
{
    if (!tank.shape) {
        return tank.level
            ? std::optional(SetupFault{"tank.shape", "a level tells a volume only in a tank of known shape"})
            : std::nullopt;
    }
    const auto shape = tank.shape->shape();
    if (!shape) {
        return SetupFault{"tank.shape",
                          "a tank is a box (length, width, height), upright (diameter, height) or lying (diameter, "
                          "length)"};
    }
    if (const auto capacity = filtration::capacityOf(*shape); !capacity) {
        return SetupFault{"tank.shape", capacity.error().sentence};
    }
    if (tank.level) {
        if (const auto volume = filtration::volumeAt(*shape, tank.level->value()); !volume) {
            return SetupFault{"tank.level", volume.error().sentence};
        }
    }
    if (const auto level = filtration::levelFor(*shape, tank.volume.value()); !level) {
        return SetupFault{"tank.volume", level.error().sentence};
    }
    return std::nullopt;
}

std::optional<SetupFault> codeFault(const std::string& place, const std::string& code)
{
    if (!code.empty()) {
        if (const auto read = oil::CleanlinessCode::parse(code); !read) {
            return SetupFault{place, read.error().sentence};
        }
    }
    return std::nullopt;
}

/// What is written in the place of a latitude or longitude and is none.
std::optional<SetupFault> placeFault(const TankRecord& tank)
{
    const auto fault = [](const char* place, const std::string& text, Axis axis) -> std::optional<SetupFault> {
        const auto read = text.empty() ? Coordinate{} : coordinateIn(text, axis);
        return read ? std::nullopt : std::optional(SetupFault{place, quotable(text) + ": " + read.error().sentence});
    };
    auto latitude = fault("tank.latitude", tank.latitude, Axis::Latitude);
    return latitude ? latitude : fault("tank.longitude", tank.longitude, Axis::Longitude);
}

std::optional<SetupFault> tankFault(const TankRecord& tank)
{
    if (auto fault = placeFault(tank)) {
        return fault;
    }
    if (isNotPositive(tank.volume)) {
        return SetupFault{"tank.volume", "a tank holds more than " + tank.volume.toText() + " of oil"};
    }
    if (tank.mixing && (*tank.mixing <= Decimal(0, 0) || *tank.mixing > Decimal(1, 0))) {
        return SetupFault{"tank.mixing", "a mixing factor lies above 0 and up to 1, not at " + tank.mixing->toText()};
    }
    if (tank.capacity && tank.capacity->value() < tank.volume.value()) {
        return SetupFault{"tank.capacity",
                          "a tank of " + tank.capacity->toText() + " cannot hold " + tank.volume.toText() + " of oil"};
    }
    if (tank.water && (isNegative(tank.water) || tank.water->value().in(units::one) > 1.0)) {
        return SetupFault{"tank.water", "oil cannot hold " + tank.water->toText() + " of water"};
    }
    if (auto fault = codeFault("tank.code", tank.code)) {
        return fault;
    }
    if (auto fault = shapeFault(tank)) {
        return fault;
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

std::optional<SetupFault> hoseFault(const HoseRecord& hose, const std::string& place)
{
    if (hose.bore && isNotPositive(*hose.bore)) {
        return SetupFault{place + ".bore", "oil cannot flow through a hose with a bore of " + hose.bore->toText()};
    }
    if (hose.length && isNotPositive(*hose.length)) {
        return SetupFault{place + ".length", "a hose is longer than " + hose.length->toText()};
    }
    return std::nullopt;
}

std::optional<SetupFault> pumpFault(const CartRecord& cart)
{
    if (cart.lowestFlow && (isNotPositive(*cart.lowestFlow) || cart.lowestFlow->value() > cart.flow.value())) {
        return SetupFault{"cart.lowest_flow",
                          "the lowest flow lies above nothing and not above " + cart.flow.toText() + ", not at "
                              + cart.lowestFlow->toText()};
    }
    if (cart.suctionLimit && isNotPositive(*cart.suctionLimit)) {
        return SetupFault{"cart.suction_limit",
                          "a pump can lift more than " + cart.suctionLimit->toText()
                              + "; give the vacuum at its inlet as a number above 0"};
    }
    if (cart.suctionAllowance && (*cart.suctionAllowance <= Decimal(0, 0) || *cart.suctionAllowance > Decimal(1, 0))) {
        return SetupFault{"cart.suction_allowance",
                          "a suction allowance lies above 0 and up to 1, not at " + cart.suctionAllowance->toText()};
    }
    if (cart.viscosityCeiling && isNotPositive(*cart.viscosityCeiling)) {
        return SetupFault{"cart.viscosity_ceiling", "a pump takes oil thicker than " + cart.viscosityCeiling->toText()};
    }
    return std::nullopt;
}

std::optional<SetupFault> driveFault(const CartRecord& cart)
{
    if (cart.motor.power && isNotPositive(*cart.motor.power)) {
        return SetupFault{"cart.motor.power", "a motor has more than " + cart.motor.power->toText()};
    }
    if (cart.motor.current && isNotPositive(*cart.motor.current)) {
        return SetupFault{"cart.motor.current", "a motor draws more than " + cart.motor.current->toText()};
    }
    if (cart.motor.voltage && isNotPositive(*cart.motor.voltage)) {
        return SetupFault{"cart.motor.voltage", "a motor runs on more than " + cart.motor.voltage->toText()};
    }
    if (cart.circuit && isNotPositive(*cart.circuit)) {
        return SetupFault{"cart.circuit", "a circuit carries more than " + cart.circuit->toText()};
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
    using Check = std::optional<SetupFault> (*)(const CartRecord&);
    for (const Check check : {Check{[](const CartRecord& c) { return hoseFault(c.suctionHose, "cart.suction_hose"); }},
                              Check{[](const CartRecord& c) { return hoseFault(c.returnHose, "cart.return_hose"); }},
                              Check{pumpFault}, Check{driveFault}}) {
        if (auto fault = check(cart)) {
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
                          "a clean ΔP is measured at a flow above " + stage.cleanAt->flow.toText()
                              + "; tell its flow and its viscosity together"};
    }
    if (stage.cleanAt && isNotPositive(stage.cleanAt->viscosity)) {
        return SetupFault{place + ".clean_at.viscosity",
                          "a clean ΔP is measured at a viscosity above " + stage.cleanAt->viscosity.toText()
                              + "; tell its flow and its viscosity together"};
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

std::optional<SetupFault> turnoversFault(const std::string& place, const std::optional<Decimal>& turnovers)
{
    if (turnovers && *turnovers <= Decimal(0, 0)) {
        return SetupFault{place, "a target is more than " + turnovers->toText() + " turnovers"};
    }
    return std::nullopt;
}

/// A day of the calendar as ISO 8601 writes it, such as 2026-11-30.
bool isDay(std::string_view text)
{
    constexpr std::string_view shape = "0000-00-00";
    const bool fits = std::ranges::equal(text, shape, [](char sign, char wanted) {
        return wanted == '0' ? sign >= '0' && sign <= '9' : sign == wanted;
    });
    const auto number = [&](std::size_t from, std::size_t count) {
        int value = 0;
        for (const char digit : text.substr(from, count)) {
            value = value * 10 + (digit - '0');
        }
        return value;
    };
    return fits
        && std::chrono::year_month_day(std::chrono::year(number(0, 4)),
                                       std::chrono::month(static_cast<unsigned>(number(5, 2))),
                                       std::chrono::day(static_cast<unsigned>(number(8, 2))))
               .ok();
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
    known.family = oil::familyOf(kind);
    return known;
}

std::optional<filtration::TankShape> TankShapeRecord::shape() const
{
    if (form == "box" && length && width && height) {
        return filtration::BoxTank{length->value(), width->value(), height->value()};
    }
    if (form == "upright" && diameter && height) {
        return filtration::UprightCylinder{diameter->value(), height->value()};
    }
    if (form == "lying" && diameter && length) {
        return filtration::LyingCylinder{diameter->value(), length->value()};
    }
    return std::nullopt;
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

std::optional<SetupFault> faultIn(const TankRecord& tank)
{
    return tankFault(tank);
}

std::optional<SetupFault> faultIn(const FluidRecord& fluid)
{
    return fluidFault(fluid);
}

std::optional<SetupFault> faultIn(const StageRecord& stage)
{
    return stageFault(stage, "stage");
}

std::optional<SetupFault> faultIn(const JobRecord& job)
{
    if (job.tank.empty()) {
        return SetupFault{"tank", "a job names its tank"};
    }
    if (auto fault = turnoversFault("turnovers", job.turnovers)) {
        return fault;
    }
    if (auto fault = codeFault("target_code", job.code)) {
        return fault;
    }
    if (!job.due.empty() && !isDay(job.due)) {
        return SetupFault{"due", "\"" + job.due + "\" is no day; write it like 2026-11-30"};
    }
    if (job.elements && (job.elements->places() > 0 || *job.elements < Decimal(0, 0))) {
        return SetupFault{"elements", "a whole number of elements is reserved"};
    }
    return std::nullopt;
}

std::optional<SetupFault> faultIn(const CartRecord& cart, const std::vector<StageRecord>& stages)
{
    if (auto fault = cartFault(cart, stages.size())) {
        return fault;
    }
    for (std::size_t i = 0; i < stages.size(); ++i) {
        if (auto fault = stageFault(stages[i], "stages[" + std::to_string(i) + "]")) {
            return fault;
        }
    }
    return std::nullopt;
}

std::optional<SetupFault> faultIn(const Setup& setup)
{
    if (setup.stages.empty()) {
        return SetupFault{"stages", "a cart has at least one stage"};
    }
    if (auto fault = tankFault(setup.tank)) {
        return fault;
    }
    if (auto fault = faultIn(setup.cart, setup.stages)) {
        return fault;
    }
    if (auto fault = turnoversFault("target.turnovers", setup.target.turnovers)) {
        return fault;
    }
    return codeFault("target.code", setup.target.code);
}

} // namespace loopside::run
