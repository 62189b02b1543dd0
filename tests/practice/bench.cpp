// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/bench.h"

#include <catch2/catch.hpp>

namespace loopside::test {

using namespace units;
using practice::PracticeCart;
using practice::Scenario;

namespace {

template<class Q>
Typed<Q> typed(std::string_view text)
{
    return Typed<Q>::parse(text).value();
}

void addStage(Scenario& scenario, Pressure clean, std::string_view limit)
{
    practice::StageTruth truth;
    truth.clean = {clean, {}, {20.0 * litrePerMinute, 46.0 * centistokes, {}}};
    truth.law = practice::BlockingLaw::through(1.5, 20.0, 10.0).value();
    scenario.stages.push_back(truth);
    run::StageRecord told;
    told.kind = "particle";
    told.cleanDp = run::TypedPressure(Decimal::nearest(clean.in(psi), 3), *unitNamed<Pressure>("psi").value());
    told.cleanAt = run::CleanAt{typed<Flow>("20 L/min"), typed<KinematicViscosity>("46 cSt")};
    told.changeLimit = typed<Pressure>(limit);
    scenario.setup.stages.push_back(told);
}

} // namespace

Scenario plain()
{
    const run::GaugeRecord dial{unitNamed<Pressure>("psi").value(), Decimal(100, 0), Decimal(1, 2), "1A"};
    Scenario scenario{.seed = 1,
                      .setup = {.title = "plain",
                                .tank = {.name = "T",
                                         .volume = typed<Volume>("400 L"),
                                         .fluid = {.kind = "hydraulic",
                                                   .grade = "ISO VG 46",
                                                   .viscosityIndex = Decimal(95, 0),
                                                   .density = typed<Density>("870 kg/m³")}},
                                .cart = {.name = "C",
                                         .flow = typed<Flow>("20 L/min"),
                                         .lastFluid = "same",
                                         .gauges = {dial, dial, dial},
                                         .staticHead = typed<Pressure>("1 psi")},
                                .stages = {},
                                .target = {.turnovers = Decimal(7, 0), .code = {}}}};
    scenario.oil = {.properties = scenario.setup.tank.fluid.properties(),
                    .start = 30.0 * celsius,
                    .end = 30.0 * celsius,
                    .timeConstant = 1.0 * hour};
    scenario.tank.volume = 400.0 * litre;
    scenario.pump = {.displaced = 20.0 * litrePerMinute, .relief = 100.0 * psi};
    scenario.wayBack = {practice::ReturnTruth{filtration::Pipe{19.0 * millimetre, 3.0 * metre}, 1.0 * psi}};
    scenario.dials.resize(3);
    addStage(scenario, 2.0 * psi, "25 psi");
    addStage(scenario, 4.0 * psi, "35 psi");
    return scenario;
}

Scenario dirty(Scenario scenario, double mgPerL, int holding)
{
    scenario.tank.dirtMgPerL.fill(mgPerL);
    scenario.stages.at(static_cast<std::size_t>(holding - 1)).beta.fill(1e9);
    return scenario;
}

PracticeCart running(const Scenario& scenario)
{
    auto cart = PracticeCart::of(scenario);
    if (!cart) {
        FAIL(cart.error().sentence);
    }
    REQUIRE(cart->setMode(run::Mode::Filtering).has_value());
    return *cart;
}

void advance(PracticeCart& cart, double minutes)
{
    REQUIRE(cart.advance(minutes * minute).has_value());
}

void inflict(PracticeCart& cart, practice::FaultKind kind, int place, std::optional<double> size)
{
    const auto done = cart.inflict({kind, place, size});
    if (!done) {
        FAIL(done.error().sentence);
    }
}

void change(PracticeCart& cart, int stage, int elements)
{
    REQUIRE(cart.setMode(run::Mode::Stopped).has_value());
    REQUIRE(cart.changeElements(stage, elements).has_value());
    REQUIRE(cart.setMode(run::Mode::Filtering).has_value());
}

} // namespace loopside::test
