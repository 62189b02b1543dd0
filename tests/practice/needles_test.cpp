// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The dials as they look, beside the digits that the simulated reader types.

#include "practice/bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::units;
using practice::FaultKind;

TEST_CASE("on dials without error the needles stand where the pressures are")
{
    auto cart = test::running(test::plain());
    const auto needles = cart.lookAtGauges();
    REQUIRE(needles.size() == 3);
    for (std::size_t i = 0; i < needles.size(); ++i) {
        CHECK_THAT(needles[i].shown, Catch::WithinRel(cart.truth().gauges[i].in(psi), 1e-9));
        CHECK(needles[i].halfSwing == 0.0);
    }
}

TEST_CASE("a needle stays within its scale")
{
    auto cart = test::running(test::plain());
    test::inflict(cart, FaultKind::ReturnShut);
    CHECK(cart.lookAtGauges()[0].shown == 100.0);
}

TEST_CASE("with air in the oil every needle swings about what it shows")
{
    auto cart = test::running(test::plain());
    test::inflict(cart, FaultKind::Aeration, 0, 0.25);
    for (const auto& needle : cart.lookAtGauges()) {
        CHECK_THAT(needle.halfSwing, Catch::WithinRel(0.25 * needle.shown, 1e-9));
    }
}

TEST_CASE("a needle that was looked at gets stuck where it stood")
{
    auto cart = test::running(test::plain());
    const double before = cart.lookAtGauges()[1].shown;
    test::inflict(cart, FaultKind::GaugeStuck, 2);
    REQUIRE(cart.setMode(run::Mode::Stopped).has_value());
    CHECK(cart.lookAtGauges()[1].shown == before);
    CHECK(cart.lookAtGauges()[0].shown < before);
}

TEST_CASE("looking does not change what a reader types afterwards")
{
    auto scenario = test::plain();
    scenario.dials[0].readingSdDivisions = 3.0;
    auto looked = test::running(scenario);
    auto other = test::running(scenario);
    static_cast<void>(looked.lookAtGauges());
    CHECK(looked.readGauges() == other.readGauges());
}

TEST_CASE("the thermometer shows the oil and what it is off by")
{
    auto cart = test::running(test::plain());
    CHECK_THAT(cart.thermometer().in(celsius), Catch::WithinAbs(30.0, 1e-9));
    test::inflict(cart, FaultKind::ThermometerOff, 0, 6.0);
    CHECK_THAT(cart.thermometer().in(celsius), Catch::WithinAbs(36.0, 1e-9));
}
