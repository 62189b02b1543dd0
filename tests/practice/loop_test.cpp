// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/loop.h"

#include "filtration/pump.h"
#include "practice/bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::units;
using practice::FaultKind;

namespace {

practice::OilNow oilAt(const practice::Scenario& scenario, Temperature at)
{
    const auto fluid = oil::Fluid::from(scenario.oil.properties).value();
    return {at, fluid.viscosityAt(at).value(), fluid.densityAt(at)};
}

} // namespace

TEST_CASE("a clean stage drops what filtration says of it")
{
    auto scenario = test::plain();
    scenario.oil.start = scenario.oil.end = GENERATE(5.0, 20.0, 55.0) * celsius;
    scenario.pump.displaced = GENERATE(8.0, 20.0, 30.0) * litrePerMinute;
    scenario.pump.relief.reset();
    scenario.stages[1].clean.housing = 0.7 * psi;
    scenario.stages[1].clean.at.density = 860.0 * kilogramPerCubicMetre;
    const auto now = test::running(scenario).truth();
    const auto oil = oilAt(scenario, scenario.oil.start);
    for (std::size_t i = 0; i < 2; ++i) {
        const auto expected = filtration::cleanDropAt(scenario.stages[i].clean,
                                                      {scenario.pump.displaced, oil.viscosity, oil.density});
        CHECK_THAT(now.drops[i].in(pascal), Catch::WithinRel(expected.value().in(pascal), 1e-9));
        CHECK_THAT(now.loading[i], Catch::WithinRel(1.0, 1e-12));
    }
    const auto hose = filtration::pipeLoss(*scenario.wayBack.hose, scenario.pump.displaced, oil.viscosity,
                                           oil.densityOrUsual());
    CHECK_THAT(now.gauges[2].in(pascal), Catch::WithinRel((1.0 * psi + hose.value().loss).in(pascal), 1e-9));
    CHECK_THAT((now.gauges[0] - now.gauges[1]).in(pascal), Catch::WithinRel(now.drops[0].in(pascal), 1e-9));
}

TEST_CASE("without dirt the drop follows viscosity and nothing else")
{
    auto scenario = test::plain();
    scenario.oil.start = 10.0 * celsius;
    scenario.oil.end = 50.0 * celsius;
    auto cart = test::running(scenario);
    const auto before = cart.truth();
    test::advance(cart, 120.0);
    const auto after = cart.truth();
    const double ratio = after.viscosity / before.viscosity;
    CHECK(ratio < 0.3);
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK_THAT(after.drops[i] / before.drops[i], Catch::WithinRel(ratio, 1e-9));
        CHECK_THAT(after.loading[i], Catch::WithinRel(1.0, 1e-12));
    }
}

TEST_CASE("the pump slips as filtration says")
{
    auto scenario = test::plain();
    scenario.pump.slip = 1.5 * litrePerMinute;
    const auto now = test::running(scenario).truth();
    const auto oil = oilAt(scenario, now.oil);
    const auto slip = filtration::slipAt(scenario.pump.slip, scenario.pump.slipAt,
                                         {now.gauges[0], oil.viscosity * oil.densityOrUsual()});
    CHECK_THAT((scenario.pump.displaced - now.flow).in(litrePerMinute),
               Catch::WithinRel(slip.value().in(litrePerMinute), 1e-6));
}

TEST_CASE("the relief valve holds the pressure within its override")
{
    auto scenario = test::plain();
    scenario.pump.relief = 20.0 * psi;
    scenario.oil.start = scenario.oil.end = 2.0 * celsius;
    const auto now = test::running(scenario).truth();
    CHECK(now.relieved);
    CHECK(now.gauges[0] > 20.0 * psi);
    CHECK(now.gauges[0] <= 22.0 * psi);
    CHECK(now.flow < scenario.pump.displaced);
}

TEST_CASE("an open bypass valve makes the drop a plateau and lets the rest go round")
{
    auto scenario = test::plain();
    scenario.stages[1].loadedAtStart = GENERATE(12.0, 50.0, 1000.0);
    scenario.stages[1].bypass = practice::StageTruth::Bypass{25.0 * psi};
    const auto now = test::running(scenario).truth();
    CHECK(now.drops[1] >= 25.0 * psi);
    CHECK(now.drops[1] <= 25.0 * 1.1 * psi);
    const double through = now.drops[1]
        / (4.0 * psi * (now.viscosity / (46.0 * centistokes)) * scenario.stages[1].loadedAtStart);
    CHECK_THAT(now.throughElements[1], Catch::WithinRel(through, 1e-9)); // Darcy: what the drop can press through
    CHECK(now.throughElements[1] < 1.0);
    CHECK(now.throughElements[0] == 1.0);
}

TEST_CASE("a wider drop or a thicker oil never lets more flow")
{
    double before = 1e9;
    for (const double temperature : {60.0, 40.0, 20.0, 5.0, -5.0}) {
        auto scenario = test::plain();
        scenario.pump.slip = 0.0 * litrePerMinute;
        scenario.oil.start = scenario.oil.end = temperature * celsius;
        const double flow = test::running(scenario).truth().flow.in(litrePerMinute);
        CHECK(flow <= before * (1.0 + 1e-9));
        before = flow;
    }
    CHECK(before < 19.0); // at −5 °C the relief valve takes part of it
}
