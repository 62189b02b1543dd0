// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/mixed_tank.h"

#include "filtration/clean_up.h"
#include "practice/bench.h"

#include <boost/numeric/odeint.hpp>
#include <catch2/catch.hpp>

#include <cmath>

using namespace loopside;
using namespace loopside::units;
using practice::mixedStep;

// V·dc/dt = R − Q·m·E·c, integrated by Boost.Odeint.
TEST_CASE("a step agrees with the differential equation, however long it is")
{
    const double share = GENERATE(0.0, 1e-9, 0.3, 1.0);
    const double ingress = GENERATE(0.0, 35.0);
    const double minutes = GENERATE(0.01, 5.0, 200.0);
    CAPTURE(share, ingress, minutes);
    double content = 12.0;
    const auto slope = [&](const double& now, double& change, double) {
        change = (ingress - 15.0 * share * now) / 400.0;
    };
    using Stepper = boost::numeric::odeint::runge_kutta_dopri5<double>;
    boost::numeric::odeint::integrate_adaptive(boost::numeric::odeint::make_controlled<Stepper>(1e-12, 1e-12), slope,
                                               content, 0.0, minutes, minutes / 100.0);
    const auto moved = mixedStep(12.0, 400.0 * litre, 15.0 * litrePerMinute, share, ingress, minutes * minute);
    CHECK_THAT(moved.perLitre, Catch::WithinRel(content, 1e-9));
    const double takenOut = 12.0 * 400.0 + ingress * minutes - content * 400.0;
    CHECK_THAT(moved.takenOut, Catch::WithinRel(takenOut, 1e-8) || Catch::WithinAbs(takenOut, 1e-6));
}

// Computed from the formula of a mixed tank with ingress: 200 US gal at 5 gpm, β 200, 5000/mL, floor 20/mL.
TEST_CASE("many steps are as one, and both as the clean-up formula")
{
    const double share = 1.0 - 1.0 / 200.0;
    const Flow flow = 5.0 * gallonPerMinute;
    const Volume tank = 200.0 * gallon;
    const double ingress = 20.0 * flow.in(litrePerMinute)*share;
    double inSteps = 5000.0;
    for (int i = 0; i < 2400; ++i) {
        inSteps = mixedStep(inSteps, tank, flow, share, ingress, 0.1 * minute).perLitre;
    }
    const double atOnce = mixedStep(5000.0, tank, flow, share, ingress, 240.0 * minute).perLitre;
    const filtration::MixedTank model{share, 20.0};
    CHECK_THAT(inSteps, Catch::WithinRel(atOnce, 1e-10));
    CHECK_THAT(atOnce, Catch::WithinRel(filtration::countAfter(5000.0, 6.0, model).value(), 1e-12));
    CHECK_THAT(atOnce, Catch::WithinAbs(32.72, 0.005)); // after 240 min
}

TEST_CASE("without ingress and with perfect capture a running cart leaves e to the minus turnovers")
{
    auto scenario = test::dirty(test::plain(), 0.1, 1); // too little to slow anything
    scenario.tank.mixing = GENERATE(1.0, 0.6);
    auto cart = test::running(scenario);
    const auto before = cart.truth().countsPerMl;
    test::advance(cart, 70.0); // 3.5 turnovers
    const auto after = cart.truth();
    CHECK_THAT(after.turnovers, Catch::WithinRel(3.5, 1e-9));
    for (std::size_t size = 0; size < before.size(); ++size) {
        CHECK_THAT(after.countsPerMl[size] / before[size],
                   Catch::WithinRel(std::exp(-3.5 * scenario.tank.mixing), 1e-7));
    }
}
