// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/pump.h"

#include "base/text.h"
#include "filtration/checks.h"

#include <string>

namespace loopside::filtration {

using units::Flow;
using units::litrePerMinute;
using units::Power;
using units::Pressure;

namespace {

Done checkConditions(const SlipConditions& conditions, const std::string& when)
{
    return checkAboveZero(conditions.rise.in(units::kilopascal), "pressure rise of the pump " + when, "kPa")
        .and_then(
            [&] { return checkAboveZero(conditions.viscosity.in(units::centipoise), "viscosity " + when, "cP"); });
}

Done checkSlip(Flow slip)
{
    return checkZeroOrMore(slip.in(litrePerMinute), "slip of the pump", "L/min");
}

} // namespace

Result<Power> shaftPower(Flow flow, Pressure rise, double efficiency)
{
    const auto checkEfficiency = [&]() -> Done {
        if (!(efficiency > 0.0 && efficiency <= 1.0)) {
            return fail(Errc::OutOfRange,
                        "The efficiency of the pump must be above 0 and at most 1; it is " + fixed(efficiency, 2)
                            + ".");
        }
        return {};
    };
    return checkAboveZero(flow.in(litrePerMinute), "flow", "L/min")
        .and_then([&] { return checkAboveZero(rise.in(units::kilopascal), "pressure rise of the pump", "kPa"); })
        .and_then(checkEfficiency)
        .transform(
            [&] { return flow.in(units::cubicMetrePerSecond)*rise.in(units::pascal) / efficiency * units::watt; });
}

Result<Flow> slipAt(Flow slip, const SlipConditions& known, const SlipConditions& now)
{
    return checkSlip(slip)
        .and_then([&] { return checkConditions(known, "where the slip is known"); })
        .and_then([&] { return checkConditions(now, "now"); })
        .transform([&] { return slip * (now.rise / known.rise) * (known.viscosity / now.viscosity); });
}

Result<double> volumetricEfficiency(Flow displaced, Flow slip)
{
    const auto checkShare = [&]() -> Done {
        if (slip > displaced) {
            return fail(Errc::OutOfRange,
                        "The slip of the pump, " + fixed(slip.in(litrePerMinute), 2)
                            + " L/min, cannot be more than what it displaces, " + fixed(displaced.in(litrePerMinute), 2)
                            + " L/min.");
        }
        return {};
    };
    return checkAboveZero(displaced.in(litrePerMinute), "flow that the pump displaces", "L/min")
        .and_then([&] { return checkSlip(slip); })
        .and_then(checkShare)
        .transform([&] { return 1.0 - slip / displaced; });
}

} // namespace loopside::filtration
