// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/loop.h"

#include "base/require.h"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cstdint>

namespace loopside::practice {

using units::cubicMetrePerSecond;
using units::Flow;
using units::pascal;
using units::Pressure;

namespace {

/// The pressures of a loop, ready to be asked at many flows.
class Pressures
{
public:
    Pressures(const Loop& loop, const OilNow& oil) : loop_{loop}, oil_{oil}
    {
        if (loop.hose) {
            reynoldsPerFlow_ = filtration::reynoldsNumber(loop.hose->bore, 1.0 * cubicMetrePerSecond, oil.viscosity);
            const Flow laminar = 0.5 * filtration::laminarReynoldsMax / reynoldsPerFlow_ * cubicMetrePerSecond;
            laminarResistance_ = hoseLoss(laminar).in(pascal) / laminar.in(cubicMetrePerSecond);
        }
    }

    [[nodiscard]] Pressure behind(Flow flow) const
    {
        const double q = flow.in(cubicMetrePerSecond);
        const bool isLaminar = q * reynoldsPerFlow_ < filtration::laminarReynoldsMax;
        const Pressure hose = isLaminar ? laminarResistance_ * q * pascal : hoseLoss(flow);
        return loop_.staticHead + hose + loop_.kink * q * q * pascal;
    }

    [[nodiscard]] Pressure before(Flow flow) const
    {
        Pressure pressure = behind(flow);
        for (const StagePath& stage : loop_.stages) {
            pressure += stage.at(flow).drop;
        }
        return pressure;
    }

    /// What the pump displaces too little at this flow, in m³/s.
    [[nodiscard]] double lacking(double flow) const
    {
        const double pressure = before(flow * cubicMetrePerSecond).in(pascal);
        const double setting = loop_.relief ? loop_.relief->in(pascal) : pressure;
        const double relieved = pressure > setting ? (pressure - setting) / loop_.reliefResistance : 0.0;
        return flow + loop_.slipPerPascal * pressure + relieved - loop_.displaced.in(cubicMetrePerSecond);
    }

private:
    [[nodiscard]] Pressure hoseLoss(Flow flow) const
    {
        const auto loss = filtration::pipeLoss(*loop_.hose, flow, oil_.viscosity, oil_.densityOrUsual());
        require(loss.has_value(), "the hose of a checked scenario has a loss");
        return loss->loss;
    }

    const Loop& loop_;
    const OilNow& oil_;
    double reynoldsPerFlow_ = 0.0;
    double laminarResistance_ = 0.0;
};

Flow flowOf(const Loop& loop, const Pressures& pressures)
{
    const double most = loop.displaced.in(cubicMetrePerSecond);
    const auto lacking = [&](double flow) { return pressures.lacking(flow); };
    const double atNone = lacking(0.0);
    if (!(most > 0.0) || atNone >= 0.0) {
        return {};
    }
    const double atMost = lacking(most);
    if (atMost <= 0.0) {
        return loop.displaced;
    }
    std::uintmax_t steps = 100;
    const auto [low, high] = boost::math::tools::toms748_solve(lacking, 0.0, most, atNone, atMost,
                                                               boost::math::tools::eps_tolerance<double>(40), steps);
    return 0.5 * (low + high) * cubicMetrePerSecond;
}

} // namespace

LoopFlow solve(const Loop& loop, const OilNow& oil)
{
    const Pressures pressures(loop, oil);
    LoopFlow solved{.flow = flowOf(loop, pressures)};
    Pressure pressure = pressures.behind(solved.flow);
    solved.gauges = {pressure};
    for (auto stage = loop.stages.rbegin(); stage != loop.stages.rend(); ++stage) {
        solved.stages.push_back(stage->at(solved.flow));
        pressure += solved.stages.back().drop;
        solved.gauges.push_back(pressure);
    }
    std::ranges::reverse(solved.stages);
    std::ranges::reverse(solved.gauges);
    solved.relieved = loop.relief && pressure > *loop.relief;
    return solved;
}

} // namespace loopside::practice
