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

std::string textOf(const Decimal& number)
{
    return number.toText();
}

template<class Typed>
std::string textOf(const Typed& typed)
{
    return typed.toText();
}

const Decimal& numberOf(const Decimal& number)
{
    return number;
}

template<class Typed>
Decimal numberOf(const Typed& typed)
{
    return typed.number();
}

const Decimal nothing(0, 0);
const Decimal whole(1, 0);

std::optional<std::string> codeFault(const std::string& typed)
{
    const auto read = oil::CleanlinessCode::parse(typed);
    return read ? std::nullopt : std::optional(read.error().sentence);
}

/// Goes through the fields of one record, or of one part of it, and keeps the first fault.
class FirstFault
{
public:
    /// `of` stands before the names of the fields, such as "cart.".
    explicit FirstFault(std::string of) : of_{std::move(of)} {}

    /// `sentence` for programs; for people the sentence `id` with the name of the field and `values`.
    void tell(const std::string& name, std::string sentence, const char* id, std::vector<Message::Argument> values = {})
    {
        if (!found_) {
            const std::string place = of_ + name;
            values.emplace(values.begin(), "record-field", place);
            found_ = SetupFault{place, std::move(sentence), {id, std::move(values)}};
        }
    }

    /// `sentence` goes on with the value.
    template<class Number>
    void aboveZero(const std::string& name, const Number& typed, const std::string& sentence)
    {
        if (numberOf(typed) <= nothing) {
            tell(name, sentence + " " + textOf(typed), "fault.above-zero", {{"value", textOf(typed)}});
        }
    }

    template<class Number>
    void aboveZero(const std::string& name, const std::optional<Number>& typed, const std::string& sentence)
    {
        if (typed) {
            aboveZero(name, *typed, sentence);
        }
    }

    template<class Number>
    void zeroOrMore(const std::string& name, const std::optional<Number>& typed, const std::string& sentence)
    {
        if (typed && numberOf(*typed) < nothing) {
            tell(name, sentence + " " + textOf(*typed), "fault.zero-or-more", {{"value", textOf(*typed)}});
        }
    }

    void upToOne(const std::string& name, const std::optional<Decimal>& typed, const std::string& what)
    {
        if (typed && (*typed <= nothing || *typed > whole)) {
            tell(name, what + " lies above 0 and up to 1, not at " + typed->toText(), "fault.up-to-one",
                 {{"value", typed->toText()}});
        }
    }

    void code(const std::string& name, const std::string& typed)
    {
        const auto fault = typed.empty() ? std::nullopt : codeFault(typed);
        if (fault) {
            tell(name, *fault, "fault.code", {{"value", quotable(typed)}});
        }
    }

    /// What another part has found.
    void take(std::optional<SetupFault> found)
    {
        if (!found_) {
            found_ = std::move(found);
        }
    }

    [[nodiscard]] bool isNone() const { return !found_.has_value(); }
    [[nodiscard]] std::optional<SetupFault> found() && { return std::move(found_); }

private:
    std::string of_;
    std::optional<SetupFault> found_;
};

std::optional<SetupFault> fluidFault(const FluidRecord& fluid)
{
    FirstFault faults("tank.fluid");
    if (const auto grade = oil::gradeNamed(fluid.grade); !fluid.grade.empty() && !grade) {
        faults.tell(".grade", grade.error().sentence, "fault.grade", {{"value", quotable(fluid.grade)}});
    }
    if (fluid.points.size() > 2) {
        faults.tell(".points", "a viscosity line needs two points, not " + std::to_string(fluid.points.size()),
                    "fault.points", {{"points", std::to_string(fluid.points.size())}});
    }
    if (fluid.points.size() == 1 && !fluid.viscosityIndex) {
        faults.tell(".points", "one measured viscosity needs a viscosity index (vi) beside it; or give a second point",
                    "fault.one-point");
    }
    const bool described = fluid.viscosity || !fluid.points.empty() || (!fluid.grade.empty() && fluid.viscosityIndex);
    if (described && faults.isNone()) { // else the run goes on without corrected numbers, and says so
        if (const auto made = oil::Fluid::from(fluid.properties()); !made) {
            faults.tell("", made.error().sentence, "fault.fluid");
        }
    }
    return std::move(faults).found();
}

std::optional<SetupFault> shapeFault(const TankRecord& tank)
{
    FirstFault faults("tank.");
    const auto shape = tank.shape ? tank.shape->shape() : std::nullopt;
    if (!tank.shape && tank.level) {
        faults.tell("shape", "a level tells a volume only in a tank of known shape", "fault.shape-unknown");
    } else if (tank.shape && !shape) {
        faults.tell("shape",
                    "a tank is a box (length, width, height), upright (diameter, height) or lying (diameter, length)",
                    "fault.shape");
    } else if (shape) {
        if (const auto capacity = filtration::capacityOf(*shape); !capacity) {
            faults.tell("shape", capacity.error().sentence, "fault.shape-sizes");
        } else if (const auto level = filtration::levelFor(*shape, tank.volume.value()); !level) {
            faults.tell("volume", level.error().sentence, "fault.shape-holds", {{"value", tank.volume.toText()}});
        } else if (tank.level && !filtration::volumeAt(*shape, tank.level->value())) {
            faults.tell("level", filtration::volumeAt(*shape, tank.level->value()).error().sentence,
                        "fault.shape-level", {{"value", tank.level->toText()}});
        }
    }
    return std::move(faults).found();
}

/// What is written in the place of a latitude or longitude and is none.
void placeFault(FirstFault& faults, const std::string& name, const std::string& typed, Axis axis)
{
    const auto read = typed.empty() ? Coordinate{} : coordinateIn(typed, axis);
    if (!read) {
        faults.tell(name, quotable(typed) + ": " + read.error().sentence, "fault.place",
                    {{"value", quotable(typed)}, {"because", read.error().say.id}});
    }
}

std::optional<SetupFault> tankFault(const TankRecord& tank)
{
    FirstFault faults("tank.");
    placeFault(faults, "latitude", tank.latitude, Axis::Latitude);
    placeFault(faults, "longitude", tank.longitude, Axis::Longitude);
    faults.aboveZero("volume", tank.volume, "the oil in a tank is more than");
    faults.upToOne("mixing", tank.mixing, "a mixing factor");
    if (tank.capacity && tank.capacity->value() < tank.volume.value()) {
        faults.tell("capacity",
                    "a tank of " + tank.capacity->toText() + " cannot hold " + tank.volume.toText() + " of oil",
                    "fault.capacity", {{"value", tank.capacity->toText()}, {"volume", tank.volume.toText()}});
    }
    faults.zeroOrMore("water", tank.water, "oil cannot hold water of");
    if (tank.water && tank.water->value().in(units::one) > 1.0) {
        faults.tell("water", "oil cannot hold " + tank.water->toText() + " of water", "fault.water",
                    {{"value", tank.water->toText()}});
    }
    faults.code("code", tank.code);
    faults.take(shapeFault(tank));
    faults.take(fluidFault(tank.fluid));
    return std::move(faults).found();
}

std::optional<SetupFault> gaugeFault(const GaugeRecord& gauge, const std::string& of)
{
    FirstFault faults(of);
    if (gauge.unit == nullptr) {
        faults.tell("unit", "a dial counts in a unit", "fault.gauge-unit");
    }
    faults.aboveZero("span", gauge.span, "a dial's full scale is more than");
    faults.aboveZero("graduation", gauge.graduation, "a dial's graduation is more than");
    if (gauge.span && gauge.graduation && *gauge.graduation > *gauge.span) {
        faults.tell("graduation",
                    "a graduation of " + gauge.graduation->toText() + " does not fit on a dial of "
                        + gauge.span->toText(),
                    "fault.graduation", {{"value", gauge.graduation->toText()}, {"span", gauge.span->toText()}});
    }
    if (const auto grade = filtration::accuracyGrade(gauge.grade); !gauge.grade.empty() && !grade) {
        faults.tell("grade", grade.error().sentence, "fault.gauge-grade", {{"value", quotable(gauge.grade)}});
    }
    return std::move(faults).found();
}

void hoseFault(FirstFault& faults, const HoseRecord& hose, const std::string& name)
{
    faults.aboveZero(name + ".bore", hose.bore, "oil flows through a hose with a bore of more than");
    faults.aboveZero(name + ".length", hose.length, "a hose is longer than");
}

void pumpFault(FirstFault& faults, const CartRecord& cart)
{
    faults.aboveZero("lowest_flow", cart.lowestFlow, "the lowest flow is more than");
    if (cart.lowestFlow && cart.lowestFlow->value() > cart.flow.value()) {
        faults.tell("lowest_flow",
                    "the lowest flow is not above " + cart.flow.toText() + ", so not " + cart.lowestFlow->toText(),
                    "fault.lowest-flow", {{"value", cart.lowestFlow->toText()}, {"flow", cart.flow.toText()}});
    }
    faults.aboveZero("suction_limit", cart.suctionLimit,
                     "the vacuum at a pump's inlet is given as a number above 0; it is more than");
    faults.upToOne("suction_allowance", cart.suctionAllowance, "a suction allowance");
    faults.aboveZero("viscosity_ceiling", cart.viscosityCeiling, "a pump takes oil thicker than");
}

void driveFault(FirstFault& faults, const CartRecord& cart)
{
    faults.aboveZero("motor.power", cart.motor.power, "a motor has more than");
    faults.aboveZero("motor.current", cart.motor.current, "a motor draws more than");
    faults.aboveZero("motor.voltage", cart.motor.voltage, "a motor runs on more than");
    faults.aboveZero("circuit", cart.circuit, "a circuit carries more than");
}

std::optional<SetupFault> cartFault(const CartRecord& cart, std::size_t stages)
{
    FirstFault faults("cart.");
    faults.aboveZero("flow", cart.flow, "turnovers cannot be counted without a flow of more than");
    faults.aboveZero("relief", cart.relief, "a relief setting is more than");
    faults.zeroOrMore("hold_up", cart.holdUp, "a hold-up volume cannot be");
    if (cart.gauges.size() != stages + 1) {
        const std::string needed = std::to_string(stages + 1);
        const std::string given = std::to_string(cart.gauges.size());
        faults.tell("gauges", std::to_string(stages) + " stages need " + needed + " gauges, not " + given,
                    "fault.gauges", {{"stages", std::to_string(stages)}, {"needed", needed}, {"given", given}});
    }
    for (std::size_t i = 0; i < cart.gauges.size() && faults.isNone(); ++i) {
        faults.take(gaugeFault(cart.gauges[i], "cart.gauges[" + std::to_string(i) + "]."));
    }
    hoseFault(faults, cart.suctionHose, "suction_hose");
    hoseFault(faults, cart.returnHose, "return_hose");
    pumpFault(faults, cart);
    driveFault(faults, cart);
    return std::move(faults).found();
}

void cleanFault(FirstFault& faults, const StageRecord& stage)
{
    faults.aboveZero("clean_dp", stage.cleanDp, "a clean element has a ΔP above");
    faults.zeroOrMore("clean_dp_housing", stage.cleanDpHousing, "the housing's part of the clean ΔP cannot be");
    if (stage.cleanDpHousing && stage.cleanDp && stage.cleanDpHousing->value() >= stage.cleanDp->value()) {
        faults.tell("clean_dp_housing",
                    "the housing's part of the clean ΔP is less than the whole, not " + stage.cleanDpHousing->toText(),
                    "fault.housing-part", {{"value", stage.cleanDpHousing->toText()}});
    }
    const char* both = "a clean ΔP is measured at a flow and a viscosity above 0; tell both";
    if (stage.cleanAt && numberOf(stage.cleanAt->flow) <= nothing) {
        faults.tell("clean_at.flow", both, "fault.clean-at");
    }
    if (stage.cleanAt && numberOf(stage.cleanAt->viscosity) <= nothing) {
        faults.tell("clean_at.viscosity", both, "fault.clean-at");
    }
}

std::optional<SetupFault> stageFault(const StageRecord& stage, const std::string& of)
{
    constexpr int elementsMost = 12;
    FirstFault faults(of);
    if (stage.kind != "particle" && stage.kind != "water") {
        faults.tell("kind", "a stage is of the kind particle or water", "fault.kind");
    }
    if (stage.elements < 1 || stage.elements > elementsMost) {
        faults.tell("elements", "a stage has 1 to 12 elements, not " + std::to_string(stage.elements), "fault.elements",
                    {{"value", std::to_string(stage.elements)}, {"most", std::to_string(elementsMost)}});
    }
    faults.aboveZero("change_limit", stage.changeLimit, "a change limit is more than");
    faults.aboveZero("bypass", stage.bypass, "a bypass setting is more than");
    faults.aboveZero("loaded", stage.loaded, "a loading ratio is more than");
    faults.zeroOrMore("water_capacity", stage.waterCapacity, "an element cannot hold water of");
    cleanFault(faults, stage);
    return std::move(faults).found();
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

SetupFault noStages()
{
    return {"stages", "a cart has at least one stage", {"fault.no-stages", {}}};
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
    return stageFault(stage, "stage.");
}

std::optional<SetupFault> faultIn(const JobRecord& job)
{
    FirstFault faults("");
    if (job.tank.empty()) {
        faults.tell("tank", "a job names its tank", "fault.no-tank");
    }
    faults.aboveZero("turnovers", job.turnovers, "a target in turnovers is more than");
    faults.code("target_code", job.code);
    if (!job.due.empty() && !isDay(job.due)) {
        faults.tell("due", "\"" + job.due + "\" is no day; write it like 2026-11-30", "fault.day",
                    {{"value", quotable(job.due)}});
    }
    if (job.elements && (job.elements->places() > 0 || *job.elements < nothing)) {
        faults.tell("elements", "a whole number of elements is reserved", "fault.whole",
                    {{"value", job.elements->toText()}});
    }
    return std::move(faults).found();
}

std::optional<SetupFault> faultIn(const CartRecord& cart, const std::vector<StageRecord>& stages)
{
    auto fault = cartFault(cart, stages.size());
    for (std::size_t i = 0; i < stages.size() && !fault; ++i) {
        fault = stageFault(stages[i], "stages[" + std::to_string(i) + "].");
    }
    return fault;
}

std::optional<SetupFault> faultIn(const Setup& setup)
{
    if (setup.stages.empty()) {
        return noStages();
    }
    FirstFault faults("target.");
    faults.take(tankFault(setup.tank));
    faults.take(faultIn(setup.cart, setup.stages));
    faults.aboveZero("turnovers", setup.target.turnovers, "a target in turnovers is more than");
    faults.code("code", setup.target.code);
    return std::move(faults).found();
}

} // namespace loopside::run
