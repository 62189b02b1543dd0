// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/start_items.h"

#include "base/text.h"
#include "filtration/differential.h"
#include "filtration/motor.h"
#include "filtration/pump.h"
#include "filtration/suction.h"
#include "run/suit.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using units::Flow;
using units::KinematicViscosity;
using units::Pressure;

std::string textOf(Pressure pressure, const PressureUnit& unit)
{
    return units::printComputed(pressure, unit);
}

std::string textOf(KinematicViscosity viscosity)
{
    return fixed(viscosity.in(units::centistokes), 0) + " cSt";
}

Message said(StartItem item, std::string_view how, std::vector<Message::Argument> arguments)
{
    return {"plan." + std::string(nameOf(item)) + "." + std::string(how), std::move(arguments)};
}

ItemJudged unknown(StartItem item, std::string_view missing, std::optional<int> stage = {})
{
    std::vector<Message::Argument> arguments;
    if (stage) {
        arguments.emplace_back("stage", std::to_string(*stage));
    }
    return {item, stage, Fit::Unknown, {}, said(item, "no-" + std::string(missing), std::move(arguments))};
}

/// An item with two numbers.
ItemJudged held(StartItem item, double share, std::string expected, std::string allowed, std::optional<int> stage = {})
{
    const bool fits = share <= 1.0;
    std::vector<Message::Argument> arguments = {{"expected", std::move(expected)}, {"allowed", std::move(allowed)}};
    if (stage) {
        arguments.emplace_back("stage", std::to_string(*stage));
    }
    return {item, stage, fits ? Fit::Fits : Fit::Over, share, said(item, fits ? "fits" : "over", std::move(arguments))};
}

/// A cart with oil of one temperature in it, and everything that follows from the flow.
class CartAtWork
{
public:
    CartAtWork(const Setup& setup, const OilNow& oil, const StartAt& start)
        : setup_{setup}, cart_{setup.cart}, oil_{oil}, flow_{start.flow}, allowance_{start.allowance}
    {
    }

    /// The items that depend on how thick the oil is, in the order of StartItem.
    [[nodiscard]] std::vector<ItemJudged> items() const
    {
        std::vector<ItemJudged> all = {suction(), relief()};
        for (std::size_t i = 0; i < setup_.stages.size(); ++i) {
            all.push_back(stageDrop(i));
        }
        all.push_back(returnLine());
        all.push_back(pumpViscosity());
        all.push_back(motorPower());
        return all;
    }

    /// What the gauges are expected to show, G1 first; nothing before a part whose loss is not known.
    [[nodiscard]] std::vector<std::optional<Pressure>> gauges() const
    {
        std::vector<std::optional<Pressure>> all(setup_.stages.size() + 1);
        if (const auto loss = returnLoss()) {
            all.back() = staticHead() + *loss;
        }
        for (std::size_t i = setup_.stages.size(); i-- > 0;) {
            const auto drop = dropOf(setup_.stages[i]);
            if (all[i + 1] && drop) {
                all[i] = *all[i + 1] + *drop;
            }
        }
        return all;
    }

private:
    [[nodiscard]] std::optional<filtration::Pipe> pipeOf(const HoseRecord& hose) const
    {
        if (!hose.bore || !hose.length) {
            return std::nullopt;
        }
        return filtration::Pipe{hose.bore->value(), hose.length->value()};
    }

    [[nodiscard]] ItemJudged suction() const
    {
        const auto hose = pipeOf(cart_.suctionHose);
        if (!hose || !cart_.suctionHose.lift) {
            return unknown(StartItem::Suction, "hose");
        }
        const auto inlet = filtration::pumpInlet({*hose, cart_.suctionHose.lift->value(), allowance_}, flow_,
                                                 oil_.viscosity, oil_.density);
        if (!inlet) {
            return unknown(StartItem::Suction, "hose");
        }
        const PressureUnit& unit = suctionUnit(cart_);
        const Pressure limit = suctionLimit();
        ItemJudged item = held(StartItem::Suction, inlet->vacuum / limit, textOf(inlet->vacuum, unit),
                               textOf(limit, unit));
        if (!inlet->isPossible) {
            item.told.id = "plan.suction.impossible";
        }
        return item;
    }

    [[nodiscard]] Pressure suctionLimit() const
    {
        return cart_.suctionLimit ? cart_.suctionLimit->value() : filtration::defaultSuctionLimit;
    }

    [[nodiscard]] Pressure staticHead() const { return cart_.staticHead ? cart_.staticHead->value() : Pressure{}; }

    [[nodiscard]] std::optional<Pressure> returnLoss() const
    {
        const auto hose = pipeOf(cart_.returnHose);
        const auto loss = hose ? filtration::pipeLoss(*hose, flow_, oil_.viscosity, oil_.density)
                               : Result<filtration::PipeLoss>(fail(Errc::Unavailable, ""));
        return loss ? std::optional(loss->loss) : std::nullopt;
    }

    /// What a stage takes now: its clean drop, or as much more as it was loaded when it was put in.
    [[nodiscard]] std::optional<Pressure> dropOf(const StageRecord& stage) const
    {
        const auto clean = stage.cleanDrop();
        const auto drop = clean ? filtration::cleanDropAt(*clean, {flow_, oil_.viscosity, oil_.density})
                                : Result<Pressure>(fail(Errc::Unavailable, ""));
        if (!drop) {
            return std::nullopt;
        }
        return *drop * (stage.loaded ? std::max(1.0, stage.loaded->toDouble()) : 1.0);
    }

    /// The pressure before stage 1 as far as it is known: at least this.
    [[nodiscard]] Pressure atLeastBeforeStages() const
    {
        Pressure sum = staticHead() + returnLoss().value_or(Pressure{});
        for (const StageRecord& stage : setup_.stages) {
            sum += dropOf(stage).value_or(Pressure{});
        }
        return sum;
    }

    [[nodiscard]] ItemJudged relief() const
    {
        if (!cart_.relief) {
            return unknown(StartItem::Relief, "setting");
        }
        const Pressure least = atLeastBeforeStages();
        const double share = least / cart_.relief->value();
        if (!gauges().front() && share <= 1.0) {
            return unknown(StartItem::Relief, "losses");
        }
        return held(StartItem::Relief, share, textOf(least, cart_.relief->unit()), cart_.relief->toText());
    }

    /// Expanded (k = 2) error of a stage's ΔP at the pressures expected; nothing where the gauges are not described.
    [[nodiscard]] Pressure gaugeErrorOf(std::size_t stage) const
    {
        const auto expected = gauges();
        std::vector<std::optional<filtration::GaugeValue>> pair;
        for (std::size_t i = stage; i < stage + 2; ++i) {
            const filtration::Gauge dial = cart_.gauges[i].gauge();
            const Pressure at = expected[i].value_or(Pressure{});
            pair.emplace_back(filtration::GaugeValue{at, filtration::standingUncertainty(dial, at),
                                                     filtration::readingUncertainty(dial, Pressure{})});
        }
        const auto difference = filtration::differences(pair).front();
        const double standing = difference->standing ? difference->standing->in(units::pascal) : 0.0;
        const double reading = difference->reading ? difference->reading->in(units::pascal) : 0.0;
        return std::hypot(standing, reading) * units::pascal;
    }

    /// The lower of the change limit and the bypass setting less what the gauges may be off by, at least half of the
    /// setting: coarse dials alone must not forbid every start.
    [[nodiscard]] std::optional<Pressure> allowedOf(std::size_t index) const
    {
        const StageRecord& stage = setup_.stages[index];
        std::optional<Pressure> allowed;
        if (stage.changeLimit) {
            allowed = stage.changeLimit->value();
        }
        if (stage.bypass) {
            const Pressure belowBypass = stage.bypass->value() - gaugeErrorOf(index);
            const Pressure least = std::max(belowBypass, 0.5 * stage.bypass->value());
            allowed = allowed ? std::min(*allowed, least) : least;
        }
        return allowed;
    }

    [[nodiscard]] ItemJudged stageDrop(std::size_t index) const
    {
        const int number = static_cast<int>(index) + 1;
        const auto drop = dropOf(setup_.stages[index]);
        const auto allowed = allowedOf(index);
        if (!drop || !allowed) {
            return unknown(StartItem::StageDrop, drop ? "limit" : "clean", number);
        }
        const PressureUnit& unit = *cart_.gauges[index].unit;
        return held(StartItem::StageDrop, *drop / *allowed, textOf(*drop, unit), textOf(*allowed, unit), number);
    }

    [[nodiscard]] ItemJudged returnLine() const
    {
        const auto loss = returnLoss();
        if (!loss || !cart_.relief) {
            return unknown(StartItem::ReturnLine, loss ? "setting" : "hose");
        }
        const Pressure before = staticHead() + *loss;
        return held(StartItem::ReturnLine, before / cart_.relief->value(), textOf(before, cart_.relief->unit()),
                    cart_.relief->toText());
    }

    [[nodiscard]] ItemJudged pumpViscosity() const
    {
        const KinematicViscosity ceiling = cart_.viscosityCeiling ? cart_.viscosityCeiling->value()
                                                                  : filtration::defaultPumpViscosityMax;
        return held(StartItem::PumpViscosity, oil_.viscosity / ceiling, textOf(oil_.viscosity), textOf(ceiling));
    }

    [[nodiscard]] ItemJudged motorPower() const
    {
        if (!cart_.motor.power) {
            return unknown(StartItem::MotorPower, "motor");
        }
        const Pressure before = atLeastBeforeStages();
        const auto power = filtration::shaftPower(flow_, before, usualPumpEfficiency);
        if (!gauges().front() || !power) {
            return unknown(StartItem::MotorPower, "losses");
        }
        const auto& unit = cart_.motor.power->unit();
        return held(StartItem::MotorPower, *power / cart_.motor.power->value(), units::print(*power, unit, 2),
                    cart_.motor.power->toText());
    }

    const Setup& setup_;
    const CartRecord& cart_;
    OilNow oil_;
    Flow flow_;
    double allowance_;
};

/// Whether the circuit bears the motor; an electrician decides.
ItemJudged circuitOf(const CartRecord& cart)
{
    if (!cart.circuit) {
        return unknown(StartItem::Circuit, "circuit");
    }
    std::optional<units::Current> drawn;
    if (cart.motor.current) {
        drawn = cart.motor.current->value();
    } else if (cart.motor.power && cart.motor.voltage) {
        if (const auto table = filtration::fullLoadCurrent(cart.motor.power->value(), cart.motor.voltage->value())) {
            drawn = *table;
        }
    }
    if (!drawn) {
        return unknown(StartItem::Circuit, "current");
    }
    const units::Current capacity = filtration::continuousCapacity(cart.circuit->value());
    const auto text = [](units::Current current) { return fixed(current.in(units::ampere), 1) + " A"; };
    ItemJudged item = held(StartItem::Circuit, *drawn / capacity, text(*drawn), text(capacity));
    item.told.arguments.emplace_back("circuit", cart.circuit->toText());
    return item;
}

} // namespace

const PressureUnit& suctionUnit(const CartRecord& cart)
{
    if (cart.suctionLimit) {
        return cart.suctionLimit->unit();
    }
    const PressureUnit& gauges = *cart.gauges.front().unit;
    return gauges.symbol == "psi" ? **units::unitNamed<Pressure>("inHg") : gauges;
}

std::vector<ItemJudged> itemsAtAnyTemperature(const Setup& setup)
{
    std::vector<ItemJudged> all = {circuitOf(setup.cart)};
    for (const filtration::Suit& suit : suitsOf(setup)) {
        const bool isCart = suit.subject == filtration::SuitSubject::CartFluid;
        if (isCart && suit.level >= filtration::SuitLevel::Caution) {
            const bool isOpen = suit.told.id == "suit.cart.cannot-tell" || suit.told.id == "suit.cart.not-told";
            all.push_back({StartItem::CartFluid, {}, isOpen ? Fit::Unknown : Fit::Over, {}, suit.told});
        } else if (suit.level == filtration::SuitLevel::Conflict) {
            all.push_back({StartItem::Element, suit.stage, Fit::Over, {}, suit.told});
        }
    }
    return all;
}

std::vector<ItemJudged> itemsAt(const Setup& setup, const OilNow& oil, const StartAt& start)
{
    return CartAtWork(setup, oil, start).items();
}

std::vector<std::optional<units::Pressure>> gaugesAt(const Setup& setup, const OilNow& oil, units::Flow flow)
{
    return CartAtWork(setup, oil, {flow, 1.0}).gauges();
}

} // namespace loopside::run
