// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/scenario.h"

#include "base/text.h"
#include "filtration/checks.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace loopside::practice {

using filtration::checkAboveZero;
using filtration::checkZeroOrMore;
using units::pascal;

namespace {

std::string stageName(std::size_t index)
{
    return "stage " + std::to_string(index + 1);
}

Done checkFromTo(double number, double low, double high, const std::string& what)
{
    if (!(number >= low && number <= high)) {
        return fail(Errc::OutOfRange,
                    "The " + what + " must be from " + fixed(low, 2) + " to " + fixed(high, 2) + "; it is "
                        + fixed(number, 2) + ".");
    }
    return {};
}

Done checkSetup(const Scenario& scenario)
{
    if (const auto fault = run::faultIn(scenario.setup)) {
        return fail(Errc::Malformed,
                    "The set-up of the scenario has a fault at " + fault->place + ": " + fault->sentence);
    }
    if (scenario.stages.size() != scenario.setup.stages.size() || scenario.stages.empty()) {
        return fail(Errc::Malformed,
                    "The scenario needs as many stages as its set-up, at least one; it has "
                        + std::to_string(scenario.stages.size()) + " against "
                        + std::to_string(scenario.setup.stages.size()) + ".");
    }
    if (scenario.dials.size() != scenario.setup.cart.gauges.size()) {
        return fail(Errc::Malformed,
                    "The scenario needs as many dials as its set-up has gauges; it has "
                        + std::to_string(scenario.dials.size()) + " against "
                        + std::to_string(scenario.setup.cart.gauges.size()) + ".");
    }
    return {};
}

/// That there is an oil which has a viscosity at every temperature on the way. What the drift adds is held in by a
/// margin; 10 K is a drift of 1 °C/h over ten hours.
Done checkOil(const OilTruth& oil)
{
    const auto fluid = oil::Fluid::from(oil.properties);
    if (!fluid) {
        return fail(fluid.error());
    }
    constexpr units::TemperatureDifference margin = 10.0 * units::kelvins;
    for (const units::Temperature at : {std::min(oil.start, oil.end) - margin, std::max(oil.start, oil.end) + margin}) {
        if (const auto viscosity = fluid->viscosityAt(at); !viscosity) {
            return fail(viscosity.error());
        }
    }
    return checkAboveZero(oil.viscosityTimes, "factor on the viscosity", "")
        .and_then([&] { return checkAboveZero(oil.timeConstant.in(units::minute), "time constant of the oil", "min"); })
        .and_then([&] { return checkFromTo(oil.driftKelvinPerHour, -5.0, 5.0, "drift of the oil in °C/h"); })
        .and_then([&] { return checkAboveZero(oil.saturationPpm, "water that the oil dissolves", "ppm"); });
}

Done checkDirt(const PerClass<double>& dirt, std::string_view what, std::string_view unit)
{
    for (const double size : dirt) {
        if (const Done checked = checkZeroOrMore(size, what, unit); !checked) {
            return checked;
        }
    }
    return {};
}

Done checkTank(const TankTruth& tank)
{
    return checkAboveZero(tank.volume.in(units::litre), "volume of the tank", "L")
        .and_then([&] { return checkAboveZero(tank.mixing, "mixing factor", ""); })
        .and_then([&] { return checkFromTo(tank.mixing, 0.0, 1.0, "mixing factor"); })
        .and_then([&] { return checkDirt(tank.dirtMgPerL, "dirt in the tank", "mg/L"); })
        .and_then([&] { return checkDirt(tank.settledMg, "settled dirt", "mg"); })
        .and_then([&] { return checkDirt(tank.ingressMgPerMin, "ingress", "mg/min"); })
        .and_then([&] { return checkZeroOrMore(tank.waterPpm, "water in the tank", "ppm"); });
}

Done checkPump(const PumpTruth& pump)
{
    Done checked =
        checkAboveZero(pump.displaced.in(units::litrePerMinute), "flow that the pump displaces", "L/min")
            .and_then([&] { return checkZeroOrMore(pump.slip.in(units::litrePerMinute), "slip of the pump", "L/min"); })
            .and_then(
                [&] { return checkAboveZero(pump.slipAt.rise.in(units::kilopascal), "pressure of the slip", "kPa"); })
            .and_then([&] {
                return checkAboveZero(pump.slipAt.viscosity.in(units::centipoise), "viscosity of the slip", "mPa·s");
            })
            .and_then([&] { return checkAboveZero(pump.reliefOverride, "override of the relief valve", ""); });
    return checked && pump.relief ? checkAboveZero(pump.relief->in(units::kilopascal), "relief setting", "kPa")
                                  : checked;
}

Done checkWayBack(const ReturnTruth& wayBack)
{
    Done checked = checkZeroOrMore(wayBack.staticHead.in(units::kilopascal), "static head", "kPa");
    if (!checked || !wayBack.hose) {
        return checked;
    }
    return checkAboveZero(wayBack.hose->bore.in(units::millimetre), "bore of the return hose", "mm").and_then([&] {
        return checkAboveZero(wayBack.hose->length.in(units::metre), "length of the return hose", "m");
    });
}

/// The clean drop is checked where it is used for the first time: at its own conditions.
Done checkCapture(const StageTruth& stage, const std::string& name)
{
    for (const double beta : stage.beta) {
        if (!(beta >= 1.0 && std::isfinite(beta))) {
            return fail(Errc::OutOfRange, "β of " + name + " must be 1 or more; it is " + fixed(beta, 2) + ".");
        }
    }
    return checkDirt(stage.blockingPerGram, "blocking of a gram in " + name, "").and_then([&] {
        return stage.water ? checkLaw(stage.water->swelling).and_then([&] {
            return checkFromTo(stage.water->capture, 0.0, 1.0, "capture of water in " + name);
        })
                           : Done{};
    });
}

Done checkStage(const StageTruth& stage, const std::string& name)
{
    if (stage.elements < 1) {
        return fail(Errc::OutOfRange,
                    "The elements of " + name + " must be at least one; they are " + std::to_string(stage.elements)
                        + ".");
    }
    const auto clean = filtration::cleanDropAt(stage.clean, stage.clean.at);
    if (!clean) {
        return fail(clean.error());
    }
    return checkAboveZero((stage.clean.total - stage.clean.housing).in(pascal), "clean drop of the elements of " + name,
                          "Pa")
        .and_then([&] { return checkLaw(stage.law); })
        .and_then([&] { return checkCapture(stage, name); })
        .and_then([&] { return checkFromTo(stage.loadedAtStart, 1.0, loadingMax, "loading at the start of " + name); })
        .and_then([&] { return checkFromTo(stage.roughness, 0.0, 1.0, "roughness of " + name); })
        .and_then(
            [&] { return checkAboveZero(stage.roughnessTime.in(units::minute), "correlation time of " + name, "min"); })
        .and_then([&] {
            return stage.bypass
                ? checkAboveZero(stage.bypass->setting.in(pascal), "bypass setting of " + name, "Pa").and_then([&] {
                      return checkAboveZero(stage.bypass->overridden, "override of the bypass valve of " + name, "");
                  })
                : Done{};
        });
}

Done checkReader(const Scenario& scenario)
{
    for (const DialTruth& dial : scenario.dials) {
        const Done checked = checkZeroOrMore(dial.readingSdDivisions, "reading error of a dial", "divisions");
        if (!checked || !std::isfinite(dial.standing.in(pascal))) {
            return checked ? fail(Errc::OutOfRange, "The standing error of a dial must be a number.") : checked;
        }
    }
    const ReaderTruth& reader = scenario.reader;
    return checkFromTo(reader.missesShare, 0.0, 0.95, "share of missed readings")
        .and_then([&] { return checkFromTo(reader.blankShare, 0.0, 1.0, "share of dials that cannot be read"); })
        .and_then([&] { return checkFromTo(reader.misreadShare, 0.0, 1.0, "share of dials misread"); })
        .and_then([&] { return checkZeroOrMore(reader.meanLate.in(units::minute), "mean lateness", "min"); })
        .and_then([&] {
            return checkZeroOrMore(scenario.thermometer.readingSdKelvin, "reading error of the thermometer", "K");
        });
}

Done checkFaults(const Scenario& scenario)
{
    for (const FaultAt& fault : scenario.faults) {
        const Done checked = checkFault(fault.fault, scenario).and_then([&] {
            return checkZeroOrMore(fault.at.in(units::minute), "time of a fault", "min");
        });
        if (!checked) {
            return checked;
        }
    }
    return {};
}

Done checkFaultPlace(const Fault& fault, const FaultNature& nature, const Scenario& scenario)
{
    const std::size_t stages = scenario.stages.size();
    const std::size_t most = nature.place == FaultPlace::Whole ? 0
        : nature.place == FaultPlace::Stage                    ? stages
                                                               : stages + 1;
    const int least = most == 0 ? 0 : 1;
    if (fault.place < least || fault.place > static_cast<int>(most)) {
        return fail(Errc::OutOfRange,
                    "The place of the fault " + std::string(nature.name) + " must be "
                        + (most == 0 ? "0" : "from 1 to " + std::to_string(most)) + "; it is "
                        + std::to_string(fault.place) + ".");
    }
    return {};
}

Done checkFaultSize(const Fault& fault, const FaultNature& nature)
{
    const double size = fault.size.value_or(nature.typicalSize);
    const bool mayBeAny = nature.typicalSize == 0.0 || fault.kind == FaultKind::GaugeOffset
        || fault.kind == FaultKind::ThermometerOff;
    const bool isShare = fault.kind == FaultKind::StrainerBlocking || fault.kind == FaultKind::Aeration
        || fault.kind == FaultKind::GaugeOffset;
    if (!std::isfinite(size) || !(mayBeAny || size > 0.0) || (isShare && std::abs(size) >= 1.0)) {
        return fail(Errc::OutOfRange,
                    "The size of the fault " + std::string(nature.name) + " must be "
                        + (mayBeAny ? "a number" : "above zero") + (isShare ? ", below one" : "") + "; it is "
                        + fixed(size, 2) + ".");
    }
    return fault.over ? checkZeroOrMore(fault.over->in(units::minute), "time in which a fault grows", "min") : Done{};
}

} // namespace

Done checkFault(const Fault& fault, const Scenario& scenario)
{
    const FaultNature& nature = natureOf(fault.kind);
    Done checked = checkFaultPlace(fault, nature, scenario).and_then([&] { return checkFaultSize(fault, nature); });
    if (!checked || nature.place != FaultPlace::Stage) {
        return checked;
    }
    const StageTruth& stage = scenario.stages[static_cast<std::size_t>(fault.place - 1)];
    if (fault.kind == FaultKind::StageBypassOpen && !stage.bypass) {
        return fail(Errc::Conflict, "Stage " + std::to_string(fault.place) + " has no bypass valve that could open.");
    }
    if (fault.kind == FaultKind::ElementNotFlowing && stage.elements < 2) {
        return fail(Errc::Conflict, "Stage " + std::to_string(fault.place) + " has one element only.");
    }
    return {};
}

Done checkScenario(const Scenario& scenario)
{
    Done checked = checkSetup(scenario)
                       .and_then([&] { return checkOil(scenario.oil); })
                       .and_then([&] { return checkTank(scenario.tank); })
                       .and_then([&] { return checkPump(scenario.pump); })
                       .and_then([&] { return checkWayBack(scenario.wayBack); });
    for (std::size_t i = 0; i < scenario.stages.size() && checked; ++i) {
        checked = checkStage(scenario.stages[i], stageName(i));
    }
    return checked.and_then([&] { return checkReader(scenario); }).and_then([&] { return checkFaults(scenario); });
}

} // namespace loopside::practice
