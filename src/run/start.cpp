// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/start.h"

#include "base/text.h"
#include "filtration/suction.h"
#include "filtration/tank.h"
#include "run/start_items.h"
#include "run/suit.h"
#include "run/tank_plan.h"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace loopside::run {

namespace {

using units::Flow;
using units::Temperature;

constexpr std::array<std::string_view, 5> verdictNames = {"go", "go-slower", "warm", "no-go", "cannot-tell"};
constexpr std::array<std::string_view, 9> itemNames = {"suction",     "relief",         "stage-drop",
                                                       "return-line", "pump-viscosity", "motor-power",
                                                       "circuit",     "cart-fluid",     "element"};

constexpr double lowestFlowShare = 0.4;
constexpr Temperature coldest{-30.0, units::celsius};
constexpr Temperature hottest{120.0, units::celsius};

/// What a tank may be warmed by before a shift's work by the machine itself or a heater. Our choice.
constexpr units::TemperatureDifference warmable{15.0, units::kelvins};

/// A clean stage that takes more of its limit leaves little room for dirt: a handbook's half, read.
constexpr double tightShare = 0.5;

/// Oil above this burns skin quickly: common practice, no source.
constexpr Temperature hot{60.0, units::celsius};

/// The oil of a tank over temperature, with what had to be assumed.
class TankOil
{
public:
    explicit TankOil(const Setup& setup) : fluid_{oil::Fluid::from(setup.tank.fluid.properties())} {}

    [[nodiscard]] bool isKnown() const { return fluid_.has_value(); }

    [[nodiscard]] std::optional<OilNow> at(std::optional<Temperature> temperature) const
    {
        const auto viscosity = fluid_ ? fluid_->viscosityAt(temperature) : fail(fluid_.error());
        if (!viscosity) {
            return std::nullopt;
        }
        return OilNow{*viscosity, fluid_->densityAt(temperature).value_or(usualDensity)};
    }

    [[nodiscard]] Message whyNot(std::optional<Temperature> temperature) const
    {
        if (!fluid_) {
            return {"plan.viscosity.unknown", {{"why", fluid_.error().sentence}}};
        }
        if (!temperature) {
            return {"plan.viscosity.no-temperature", {}};
        }
        return {"plan.viscosity.unknown", {{"why", fluid_->viscosityAt(temperature).error().sentence}}};
    }

private:
    Result<oil::Fluid> fluid_;
};

/// The bracket's end where `fits` holds: the edge between the two, near `good`. `fits(bad)` is false, `fits(good)`
/// true.
template<class Fits>
double edge(double bad, double good, double tolerance, Fits fits)
{
    const auto [low, high] = boost::math::tools::bisect([&](double x) { return fits(x) ? 1.0 : -1.0; },
                                                        std::min(bad, good), std::max(bad, good),
                                                        [&](double a, double b) { return b - a < tolerance; });
    return bad < good ? high : low;
}

class Judge
{
public:
    explicit Judge(const Setup& setup) : setup_{setup}, oil_{setup} {}

    [[nodiscard]] StartJudged judge(std::optional<Temperature> today) const
    {
        StartJudged judged;
        judged.assumed = assumed();
        judged.heating_k_per_h = heating();
        if (oil_.isKnown() && isSuctionKnown()) {
            judged.goFrom = goFrom();
        }
        const auto oil = oil_.at(today);
        if (oil) {
            judged.items = itemsAt(setup_, *oil, {rated(), allowance()});
            judged.gauges = gaugesAt(setup_, *oil, rated());
        } else {
            judged.items.push_back({StartItem::Suction, {}, Fit::Unknown, {}, oil_.whyNot(today)});
        }
        for (ItemJudged& item : itemsAtAnyTemperature(setup_)) {
            judged.items.push_back(std::move(item));
        }
        doubtCircuit(judged.items);
        judged.cautions = cautions(judged, today);
        decide(judged, today, oil);
        return judged;
    }

private:
    /// A motor that is asked for more than it gives draws more than its plate says: nobody can tell whether the circuit
    /// bears it.
    static void doubtCircuit(std::vector<ItemJudged>& items)
    {
        const bool isMotorOver = std::ranges::any_of(
            items, [](const ItemJudged& item) { return item.item == StartItem::MotorPower && item.fit == Fit::Over; });
        for (ItemJudged& item : items) {
            if (isMotorOver && item.item == StartItem::Circuit && item.fit == Fit::Fits) {
                item = {StartItem::Circuit, {}, Fit::Unknown, {}, {"plan.circuit.motor-over", {}}};
            }
        }
    }

    [[nodiscard]] Flow rated() const { return setup_.cart.flow.value(); }

    [[nodiscard]] double allowance() const
    {
        return setup_.cart.suctionAllowance ? setup_.cart.suctionAllowance->toDouble()
                                            : filtration::defaultSuctionAllowance;
    }

    [[nodiscard]] bool fitsAt(std::optional<Temperature> temperature, Flow flow, double allowance) const
    {
        const auto oil = oil_.at(temperature);
        if (!oil) {
            return false;
        }
        const auto items = itemsAt(setup_, *oil, {flow, allowance});
        return std::none_of(items.begin(), items.end(), [](const ItemJudged& item) { return item.fit == Fit::Over; });
    }

    /// The coolest oil at which everything fits.
    [[nodiscard]] std::optional<Temperature> coolestThatFits(Flow flow, double allowance) const
    {
        const auto fits = [&](double celsius) { return fitsAt(Temperature(celsius, units::celsius), flow, allowance); };
        const double low = coldest.in(units::celsius);
        const double high = hottest.in(units::celsius);
        if (!fits(high)) {
            return std::nullopt;
        }
        return Temperature(fits(low) ? low : edge(low, high, 0.01, fits), units::celsius);
    }

    [[nodiscard]] bool isSuctionKnown() const
    {
        const HoseRecord& hose = setup_.cart.suctionHose;
        return hose.bore && hose.length && hose.lift;
    }

    /// The bare hose is told only where it makes a difference.
    static bool isAlike(const std::optional<Temperature>& a, const std::optional<Temperature>& b)
    {
        return a && b ? std::abs((*a - *b).in(units::kelvins)) < 0.1 : a.has_value() == b.has_value();
    }

    [[nodiscard]] std::vector<GoFrom> goFrom() const
    {
        std::vector<GoFrom> all;
        for (const double share : {allowance(), 1.0}) {
            for (const Flow flow : {rated(), lowestFlow(setup_.cart)}) {
                const GoFrom made{flow, share, coolestThatFits(flow, share)};
                const bool isThere = std::any_of(all.begin(), all.end(), [&](const GoFrom& from) {
                    return from.flow == made.flow && isAlike(from.temperature, made.temperature);
                });
                if (!isThere) {
                    all.push_back(made);
                }
            }
        }
        return all;
    }

    void decide(StartJudged& judged, std::optional<Temperature> today, const std::optional<OilNow>& oil) const
    {
        const auto find = [&](auto matches) {
            const auto found = std::find_if(judged.items.begin(), judged.items.end(), matches);
            return found == judged.items.end() ? std::nullopt
                                               : std::optional(static_cast<std::size_t>(found - judged.items.begin()));
        };
        const auto isOver = [](const ItemJudged& item) { return item.fit == Fit::Over; };
        judged.limiting = find(isOver);
        const auto beyondHelp = find(
            [&](const ItemJudged& item) { return isOver(item) && item.item >= StartItem::Circuit; });
        if (judged.limiting && judged.limiting != beyondHelp) {
            judged.verdict = wayOut(judged, today);
        }
        if (beyondHelp) { // neither warmth nor a lower flow helps
            judged.limiting = judged.verdict == Verdict::NoGo ? judged.limiting : beyondHelp;
            judged.verdict = Verdict::NoGo;
            judged.slower.reset();
        }
        if (!judged.limiting) {
            judged.limiting = find([](const ItemJudged& item) {
                return item.fit == Fit::Unknown
                    && (item.item == StartItem::Suction || item.item == StartItem::CartFluid);
            });
            judged.verdict = oil && !judged.limiting ? Verdict::Go : Verdict::CannotTell;
        }
    }

    [[nodiscard]] Verdict wayOut(StartJudged& judged, std::optional<Temperature> today) const
    {
        const Flow lowest = lowestFlow(setup_.cart);
        if (lowest < rated() && fitsAt(today, lowest, allowance())) {
            const auto fits = [&](double flow) {
                return fitsAt(today, Flow(flow, units::litrePerMinute), allowance());
            };
            const double slower = edge(rated().in(units::litrePerMinute), lowest.in(units::litrePerMinute), 0.001,
                                       fits);
            judged.slower = Flow(slower, units::litrePerMinute);
            return Verdict::GoSlower;
        }
        const auto needed = coolestThatFits(lowest, allowance());
        return needed && today && *needed - *today <= warmable ? Verdict::Warm : Verdict::NoGo;
    }

    [[nodiscard]] std::optional<double> heating() const
    {
        if (!setup_.cart.motor.power) {
            return std::nullopt;
        }
        const auto warming = filtration::warmingPerHour(setup_.cart.motor.power->value(), setup_.tank.volume.value());
        return warming ? std::optional(warming->in(units::kelvins)) : std::nullopt;
    }

    [[nodiscard]] std::vector<Message> cautions(const StartJudged& judged, std::optional<Temperature> today) const
    {
        std::vector<Message> all;
        for (const ItemJudged& item : judged.items) {
            if (item.item == StartItem::StageDrop && item.fit == Fit::Fits && *item.share > tightShare) {
                all.push_back({"plan.caution.tight", item.told.arguments});
            }
        }
        for (const filtration::Suit& suit : suitsOf(setup_)) {
            if (suit.level == filtration::SuitLevel::Caution && suit.subject != filtration::SuitSubject::CartFluid) {
                all.push_back(suit.told);
            }
        }
        if (today && *today > hot) {
            all.push_back({"plan.caution.hot", {{"limit", fixed(hot.in(units::celsius), 0) + " °C"}}});
        }
        for (Message& caution : tankCautions(setup_)) {
            all.push_back(std::move(caution));
        }
        return all;
    }

    [[nodiscard]] std::vector<Message> assumed() const
    {
        std::vector<Message> all;
        const CartRecord& cart = setup_.cart;
        const auto assume = [&](bool isKnown, const char* id, std::string value) {
            if (!isKnown) {
                all.push_back({std::string("plan.assumed.") + id, {{"value", std::move(value)}}});
            }
        };
        assume(cart.suctionLimit.has_value(), "suction-limit",
               units::printComputed(filtration::defaultSuctionLimit, suctionUnit(cart)));
        assume(cart.suctionAllowance.has_value(), "suction-allowance", fixed(filtration::defaultSuctionAllowance, 1));
        assume(cart.viscosityCeiling.has_value(), "viscosity-ceiling",
               fixed(filtration::defaultPumpViscosityMax.in(units::centistokes), 0) + " cSt");
        assume(cart.lowestFlow.has_value(), "lowest-flow", units::print(lowestFlow(cart), cart.flow.unit(), 1));
        assume(setup_.tank.fluid.density.has_value(), "density",
               fixed(usualDensity.in(units::kilogramPerCubicMetre), 0) + " kg/m³");
        assume(!cart.motor.power, "pump-efficiency", fixed(usualPumpEfficiency, 1));
        return all;
    }

    const Setup& setup_;
    TankOil oil_;
};

} // namespace

std::string_view nameOf(Verdict verdict)
{
    return verdictNames[static_cast<std::size_t>(verdict)];
}

std::string_view nameOf(StartItem item)
{
    return itemNames[static_cast<std::size_t>(item)];
}

units::Flow lowestFlow(const CartRecord& cart)
{
    return cart.lowestFlow ? cart.lowestFlow->value() : lowestFlowShare * cart.flow.value();
}

StartJudged judgeStart(const Setup& setup, std::optional<units::Temperature> oil)
{
    return Judge(setup).judge(oil);
}

} // namespace loopside::run
