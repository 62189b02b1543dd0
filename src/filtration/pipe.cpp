// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/pipe.h"

#include "base/text.h"
#include "filtration/checks.h"

#include <boost/math/special_functions/lambert_w.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace loopside::filtration {

using units::Density;
using units::Flow;
using units::KinematicViscosity;
using units::Length;

namespace {

constexpr double measuredReynoldsMax = 3.4e6;

double frictionAt(double reynolds)
{
    switch (regimeOf(reynolds)) {
    case FlowRegime::Laminar:
        return laminarFriction(reynolds);
    case FlowRegime::Turbulent:
        return turbulentFriction(reynolds);
    case FlowRegime::Between:
        break;
    }
    return std::max(laminarFriction(reynolds), turbulentFriction(reynolds));
}

Done checkMeasured(double reynolds)
{
    if (reynolds <= measuredReynoldsMax) {
        return {};
    }
    return fail(Errc::OutOfRange,
                "The flow is too fast for the hose and the viscosity: its Reynolds number is above "
                    + fixed(measuredReynoldsMax, 0) + ", where friction was not measured.");
}

} // namespace

double reynoldsNumber(Length bore, Flow flow, KinematicViscosity viscosity)
{
    return 4.0 * flow.in(units::cubicMetrePerSecond)
        / (std::numbers::pi * bore.in(units::metre)*viscosity.in(units::squareMetrePerSecond));
}

FlowRegime regimeOf(double reynolds)
{
    if (reynolds < laminarReynoldsMax) {
        return FlowRegime::Laminar;
    }
    return reynolds > turbulentReynoldsMin ? FlowRegime::Turbulent : FlowRegime::Between;
}

double laminarFriction(double reynolds)
{
    return 64.0 / reynolds;
}

double turbulentFriction(double reynolds)
{
    // With x = 1/√f and a = 2/ln 10 the law is x/a + ln(x/a) = ln(Re/(2.51·a)), which Lambert's W solves for x/a.
    constexpr double a = 2.0 / std::numbers::ln10;
    const double x = a * boost::math::lambert_w0(reynolds / (2.51 * a));
    return 1.0 / (x * x);
}

Result<PipeLoss> pipeLoss(const Pipe& pipe, Flow flow, KinematicViscosity viscosity, Density density)
{
    const double reynolds = reynoldsNumber(pipe.bore, flow, viscosity);
    return checkAboveZero(pipe.bore.in(units::millimetre), "bore of the hose", "mm")
        .and_then([&] { return checkAboveZero(pipe.length.in(units::metre), "length of the hose", "m"); })
        .and_then([&] { return checkAboveZero(flow.in(units::litrePerMinute), "flow", "L/min"); })
        .and_then([&] { return checkAboveZero(viscosity.in(units::centistokes), "viscosity", "cSt"); })
        .and_then([&] { return checkAboveZero(density.in(units::kilogramPerCubicMetre), "density", "kg/m³"); })
        .and_then([&] { return checkMeasured(reynolds); })
        .transform([&] {
            const double bore = pipe.bore.in(units::metre);
            const double speed = flow.in(units::cubicMetrePerSecond) / (std::numbers::pi / 4.0 * bore * bore);
            const double headPressure = density.in(units::kilogramPerCubicMetre)*speed * speed / 2.0;
            const double loss = frictionAt(reynolds) * (pipe.length / pipe.bore) * headPressure;
            return PipeLoss{loss * units::pascal, reynolds, regimeOf(reynolds)};
        });
}

} // namespace loopside::filtration
