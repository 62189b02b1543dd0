// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/practice_cart.h"

#include "practice/bench.h"

#include <catch2/catch.hpp>

#include <string>

using namespace loopside;
using namespace loopside::units;
using practice::FaultKind;
using practice::sizeClasses;

namespace {

template<class T>
std::string sentence(const Result<T>& result)
{
    return result ? std::string() : result.error().sentence;
}

void checkBalanced(const practice::PracticeCart& cart)
{
    const auto dirt = cart.dirtBalance();
    for (std::size_t i = 0; i < sizeClasses; ++i) {
        CAPTURE(i);
        CHECK_THAT(dirt.inTankMg[i] + dirt.heldMg[i] + dirt.takenAwayMg[i],
                   Catch::WithinRel(dirt.atStartMg[i] + dirt.cameInMg[i], 1e-10));
    }
    const auto water = cart.waterBalance();
    CHECK_THAT(water.inTank + water.held + water.takenAway, Catch::WithinRel(water.atStart + water.cameIn, 1e-10));
}

} // namespace

TEST_CASE("no dirt and no water is lost or made, whatever happens")
{
    auto scenario = test::plain();
    scenario.tank.dirtMgPerL = {30.0, 8.0, 5.0, 3.0, 1.0};
    scenario.tank.settledMg = {900.0, 400.0, 400.0, 2000.0, 3000.0};
    scenario.tank.ingressMgPerMin = {20.0, 5.0, 4.0, 3.0, 1.0};
    scenario.tank.waterPpm = 900.0;
    scenario.tank.mixing = 0.7;
    scenario.stages[0].beta = {1.1, 3.0, 75.0, 1000.0, 1e6};
    scenario.stages[1].beta = {3.0, 75.0, 1000.0, 1e6, 1e6};
    scenario.stages[0].water = practice::StageTruth::Water{practice::BlockingLaw::through(1.0, 350.0, 6.0).value(),
                                                           0.9};
    scenario.stages[1].bypass = practice::StageTruth::Bypass{20.0 * psi};
    auto cart = test::running(scenario);
    test::advance(cart, 30.0);
    checkBalanced(cart);
    test::inflict(cart, FaultKind::DirtStirred);
    test::inflict(cart, FaultKind::DirtSlug);
    test::inflict(cart, FaultKind::WaterSlug);
    test::inflict(cart, FaultKind::SlowLeak, 2);
    test::advance(cart, 30.0);
    checkBalanced(cart);
    test::inflict(cart, FaultKind::StageTorn, 1);
    test::advance(cart, 5.0);
    checkBalanced(cart);
    test::inflict(cart, FaultKind::HalfChangedPair, 2);
    test::change(cart, 2, 2);
    test::change(cart, 1, 2);
    test::advance(cart, 200.0);
    checkBalanced(cart);
    CHECK(cart.dirtBalance().takenAwayMg[3] > 0.0);
    CHECK(cart.waterBalance().takenAway > 0.0);
}

TEST_CASE("at a constant feed the loading is that of the law at what has come")
{
    auto scenario = test::dirty(test::plain(), 0.0, 2);
    // So large a tank stays as dirty as it is: 20 L/min of 0.5 g/L in five sizes, half of it to each element.
    scenario.tank.volume = 1e9 * litre;
    scenario.tank.dirtMgPerL.fill(0.1);
    auto cart = test::running(scenario);
    test::advance(cart, 600.0);
    const double gramsEach = 0.1e-3 * sizeClasses * 20.0 * 600.0 / 2.0;
    CHECK_THAT(cart.truth().loading[1], Catch::WithinRel(loadingAt(scenario.stages[1].law, gramsEach), 1e-4));
    CHECK(cart.truth().loading[1] > 1.2);
}

TEST_CASE("how the time is cut changes nothing to speak of")
{
    auto scenario = test::dirty(test::plain(), 12.0, 1);
    scenario.oil.end = 45.0 * celsius;
    scenario.stages[0].roughness = 0.03;
    auto inOne = test::running(scenario);
    auto inMany = test::running(scenario);
    test::advance(inOne, 60.0);
    for (int i = 0; i < 600; ++i) {
        test::advance(inMany, 0.1);
    }
    CHECK_THAT(inMany.truth().drops[0] / inOne.truth().drops[0], Catch::WithinRel(1.0, 1e-3));
    CHECK_THAT(inMany.truth().filtered / inOne.truth().filtered, Catch::WithinRel(1.0, 1e-6));
    CHECK_THAT(inMany.truth().oil.in(celsius), Catch::WithinAbs(inOne.truth().oil.in(celsius), 1e-6));
}

TEST_CASE("the time of the limit is when the raw drop is there, and stays when it falls back")
{
    auto scenario = test::dirty(test::plain(), 0.0, 1);
    scenario.tank.ingressMgPerMin.fill(300.0);
    auto cart = test::running(scenario);
    while (!cart.lives()[0].limitAt) {
        REQUIRE(cart.truth().drops[0] < 25.0 * psi);
        test::advance(cart, 1.0);
    }
    const auto life = cart.lives()[0];
    CHECK(*life.limitAt <= cart.now());
    CHECK(*life.limitAt >= cart.now() - 1.0 * minute);
    CHECK_THAT(life.filteredAtLimit->in(litre), Catch::WithinRel(life.limitAt->in(minute) * 20.0, 1e-6));
    test::change(cart, 1, 2);
    CHECK(cart.lives()[0].changedAt == cart.now());
    CHECK(cart.lives()[0].limitAt == life.limitAt);
    REQUIRE(cart.lives().size() == 3);
    CHECK(cart.lives()[2].stage == 1);
    CHECK_THAT(cart.lives()[2].loadingAtStart, Catch::WithinRel(1.0, 1e-9));
}

TEST_CASE("an elements' start is where they were left, and a stopped cart catches nothing")
{
    auto scenario = test::dirty(test::plain(), 40.0, 1);
    scenario.stages[0].loadedAtStart = 2.5;
    auto cart = practice::PracticeCart::of(scenario).value();
    CHECK_THAT(cart.lives()[0].loadingAtStart, Catch::WithinRel(2.5, 1e-9));
    test::advance(cart, 60.0);
    CHECK(cart.truth().caughtMg[0] == 0.0);
    CHECK(cart.truth().turnovers == 0.0);
    CHECK_THAT(cart.truth().gauges[0].in(psi), Catch::WithinAbs(1.0, 1e-9));
    CHECK(cart.truth().flow == Flow{});
}

TEST_CASE("half the flow is half the drop")
{
    auto cart = test::running(test::plain());
    const auto before = cart.truth();
    REQUIRE(cart.setMode(run::Mode::Filtering, 10.0 * litrePerMinute).has_value());
    CHECK_THAT(cart.truth().drops[0] / before.drops[0], Catch::WithinRel(0.5, 1e-9));
    CHECK_THAT(cart.truth().flow / before.flow, Catch::WithinRel(0.5, 1e-9));
}

TEST_CASE("samples fall from port to port as β says")
{
    auto scenario = test::plain();
    scenario.tank.dirtMgPerL = {0.0, 1.0, 1.0, 1.0, 1.0};
    scenario.tank.mixing = 0.8;
    scenario.stages[0].beta.fill(10.0);
    scenario.stages[1].beta.fill(100.0);
    const auto cart = test::running(scenario);
    const auto at = [&](int port) { return cart.countsAt(port).value()[1]; };
    CHECK_THAT(at(1) / at(0), Catch::WithinRel(0.8, 1e-9));
    CHECK_THAT(at(2) / at(1), Catch::WithinRel(0.1, 1e-9));
    CHECK_THAT(at(3) / at(2), Catch::WithinRel(0.01, 1e-9));
    CHECK_THAT(sentence(cart.countsAt(4)), Catch::Contains("0 (the tank) to 3"));
    CHECK_FALSE(cart.countsAt(-1).has_value());
}

TEST_CASE("what cannot be done with a cart is refused in a sentence")
{
    auto cart = test::running(test::plain());
    CHECK_THAT(sentence(cart.advance(-1.0 * second)), Catch::Contains("time to let pass"));
    CHECK_THAT(sentence(cart.advance(std::numeric_limits<double>::infinity() * second)), Catch::Contains("time"));
    CHECK_THAT(sentence(cart.setMode(run::Mode::Filtering, 0.0 * litrePerMinute)), Catch::Contains("flow"));
    CHECK_THAT(sentence(cart.changeElements(1, 2)), Catch::Contains("pump runs"));
    CHECK_THAT(sentence(cart.changeElements(3, 2)), Catch::Contains("stage must be from 1 to 2"));
    CHECK_THAT(sentence(cart.changeElements(1, 3)), Catch::Contains("from 1 to all 2"));
    CHECK(cart.advance(0.0 * second).has_value());
}

TEST_CASE("a scenario that cannot be is refused by the name of what is wrong")
{
    const auto refused = [](void (*spoil)(practice::Scenario&)) {
        auto scenario = test::plain();
        spoil(scenario);
        return sentence(practice::PracticeCart::of(scenario));
    };
    CHECK_THAT(refused([](auto& s) { s.tank.volume = 0.0 * litre; }), Catch::Contains("volume of the tank"));
    CHECK_THAT(refused([](auto& s) { s.tank.mixing = 1.2; }), Catch::Contains("mixing factor"));
    CHECK_THAT(refused([](auto& s) { s.tank.dirtMgPerL[2] = -1.0; }), Catch::Contains("dirt in the tank"));
    CHECK_THAT(refused([](auto& s) { s.pump.displaced = {}; }), Catch::Contains("pump displaces"));
    CHECK_THAT(refused([](auto& s) { s.stages.pop_back(); }), Catch::Contains("as many stages"));
    CHECK_THAT(refused([](auto& s) { s.dials.pop_back(); }), Catch::Contains("as many dials"));
    CHECK_THAT(refused([](auto& s) { s.stages[1].beta[0] = 0.5; }), Catch::Contains("β of stage 2"));
    CHECK_THAT(refused([](auto& s) { s.stages[0].loadedAtStart = 0.9; }),
               Catch::Contains("loading at the start of stage 1"));
    CHECK_THAT(refused([](auto& s) { s.stages[0].law.perGram = 0.0; }), Catch::Contains("slope"));
    CHECK_THAT(refused([](auto& s) { s.stages[0].elements = 0; }), Catch::Contains("elements of stage 1"));
    CHECK_THAT(refused([](auto& s) { s.oil.timeConstant = {}; }), Catch::Contains("time constant"));
    CHECK_THAT(refused([](auto& s) { s.oil.end = 400.0 * celsius; }), Catch::Contains("°C"));
    CHECK_THAT(refused([](auto& s) { s.reader.missesShare = 1.0; }), Catch::Contains("missed readings"));
    CHECK_THAT(refused([](auto& s) { s.setup.cart.gauges.pop_back(); }), Catch::Contains("cart.gauges"));
    CHECK_THAT(refused([](auto& s) { s.faults.push_back({{FaultKind::StageTorn, 7}, {}}); }),
               Catch::Contains("stage-torn"));
}
