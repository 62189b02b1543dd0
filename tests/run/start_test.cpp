// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The verdict before the start.

#include "run/plan.h"
#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

units::Temperature celsius(double number)
{
    return {number, units::celsius};
}

/// VG 460 in a gearbox of 300 L; 3 m of 32 mm hose, half a metre of lift; a gear set of elements.
Setup coldGearOil()
{
    Setup setup = ordinary();
    setup.tank.volume = typed<units::Volume>("300 L");
    setup.tank.fluid = {.kind = "gear", .grade = "ISO VG 460", .viscosityIndex = number("95")};
    setup.cart.flow = typed<units::Flow>("19 L/min");
    setup.cart.lowestFlow = typed<units::Flow>("7.6 L/min");
    setup.cart.lastFluid = "ISO VG 460 gear";
    setup.cart.relief = typed<units::Pressure>("100 psi");
    setup.cart.suctionLimit = typed<units::Pressure>("17 kPa");
    setup.cart.suctionHose = {typed<units::Length>("32 mm"), typed<units::Length>("3 m"),
                              typed<units::Length>("0.5 m")};
    setup.cart.returnHose = {typed<units::Length>("19 mm"), typed<units::Length>("3 m"), std::nullopt};
    setup.stages[0].cleanDp = typed<units::Pressure>("0.6 psi");
    setup.stages[1].cleanDp = typed<units::Pressure>("1.6 psi");
    for (StageRecord& stage : setup.stages) {
        stage.cleanAt->flow = typed<units::Flow>("19 L/min");
    }
    return setup;
}

Setup withAllowance(const char* allowance)
{
    Setup setup = coldGearOil();
    setup.cart.suctionAllowance = number(allowance);
    return setup;
}

const ItemJudged* itemOf(const StartJudged& start, StartItem item, std::optional<int> stage = {})
{
    const auto found = std::find_if(start.items.begin(), start.items.end(), [&](const ItemJudged& judged) {
        return judged.item == item && judged.stage == stage;
    });
    return found == start.items.end() ? nullptr : &*found;
}

double goesFrom(const StartJudged& start, double flow_l_min, double allowance)
{
    for (const GoFrom& from : start.goFrom) {
        if (std::abs(from.flow.in(units::litrePerMinute)-flow_l_min) < 1e-9 && from.allowance == allowance) {
            return from.temperature.value().in(units::celsius);
        }
    }
    FAIL("no such flow and allowance");
    return 0.0;
}

} // namespace

TEST_CASE("gear oil at 8 degrees is a no-go, and suction gives way first")
{
    const StartJudged start = judgeStart(coldGearOil(), celsius(8.0));
    CHECK(start.verdict == Verdict::NoGo);
    REQUIRE(start.limitingItem() != nullptr);
    CHECK(start.limitingItem()->item == StartItem::Suction);
    CHECK(start.limitingItem()->told.id == "plan.suction.impossible");
    CHECK(itemOf(start, StartItem::Relief)->fit == Fit::Over);
    CHECK(itemOf(start, StartItem::StageDrop, 1)->fit == Fit::Over);
    CHECK(itemOf(start, StartItem::StageDrop, 2)->fit == Fit::Over);
}

TEST_CASE("the temperatures from which it goes, for the bare hose and with couplings and strainer")
{
    // Computed by hand from Hagen and Poiseuille's law, the lift and the line of the grade at VI 95.
    const StartJudged bare = judgeStart(withAllowance("1"), celsius(8.0));
    CHECK(goesFrom(bare, 19.0, 1.0) >= 42.0);
    CHECK(goesFrom(bare, 19.0, 1.0) <= 44.0);
    CHECK(goesFrom(bare, 7.6, 1.0) >= 29.0);
    CHECK(goesFrom(bare, 7.6, 1.0) <= 30.0);
    CHECK(bare.goFrom.size() == 2);

    const StartJudged planned = judgeStart(withAllowance("0.7"), celsius(8.0));
    CHECK(goesFrom(planned, 19.0, 0.7) >= 48.0);
    CHECK(goesFrom(planned, 19.0, 0.7) <= 49.0);
    CHECK(goesFrom(planned, 7.6, 0.7) >= 33.0);
    CHECK(goesFrom(planned, 7.6, 0.7) <= 34.5);
    CHECK(goesFrom(planned, 19.0, 1.0) == Approx(goesFrom(bare, 19.0, 1.0)));
}

TEST_CASE("the verdict turns at the temperature that was told, not elsewhere")
{
    const Setup setup = withAllowance("0.7");
    const double rated = goesFrom(judgeStart(setup, celsius(8.0)), 19.0, 0.7);
    const double slow = goesFrom(judgeStart(setup, celsius(8.0)), 7.6, 0.7);
    CHECK(judgeStart(setup, celsius(rated + 0.05)).verdict == Verdict::Go);
    CHECK(judgeStart(setup, celsius(rated - 0.05)).verdict == Verdict::GoSlower);
    CHECK(judgeStart(setup, celsius(slow + 0.05)).verdict == Verdict::GoSlower);
    CHECK(judgeStart(setup, celsius(slow - 0.05)).verdict == Verdict::Warm);
    CHECK(judgeStart(setup, celsius(slow - 14.9)).verdict == Verdict::Warm);
    CHECK(judgeStart(setup, celsius(slow - 15.1)).verdict == Verdict::NoGo);
}

TEST_CASE("a slower flow is one at which everything fits, and a little more is too much")
{
    const Setup setup = withAllowance("0.7");
    const StartJudged start = judgeStart(setup, celsius(40.0));
    REQUIRE(start.verdict == Verdict::GoSlower);
    REQUIRE(start.slower.has_value());
    const auto itemsAt = [&](double share) {
        Setup slower = setup;
        const double flow = start.slower->in(units::litrePerMinute)*share;
        slower.cart.flow = {Decimal::nearest(flow, 4), slower.cart.flow.unit()};
        return judgeStart(slower, celsius(40.0)).verdict;
    };
    CHECK(itemsAt(0.999) == Verdict::Go);
    CHECK(itemsAt(1.001) == Verdict::GoSlower);
}

TEST_CASE("warmer oil never makes a verdict worse, nor does a shorter lift")
{
    const Setup setup = withAllowance("0.7");
    int before = 10;
    for (double at = 0.0; at <= 80.0; at += 2.5) {
        const StartJudged start = judgeStart(setup, celsius(at));
        const int rank = static_cast<int>(start.verdict); // from go to no-go
        CHECK(rank <= before);
        before = rank;
    }
    Setup lower = setup;
    lower.cart.suctionHose.lift = typed<units::Length>("0.1 m");
    CHECK(goesFrom(judgeStart(lower, {}), 19.0, 0.7) < goesFrom(judgeStart(setup, {}), 19.0, 0.7));
}

TEST_CASE("what is not known is said, and what decides and is not known keeps the verdict open")
{
    Setup setup = coldGearOil();
    CHECK(judgeStart(setup, std::nullopt).verdict == Verdict::CannotTell);
    CHECK(judgeStart(setup, std::nullopt).limitingItem()->told.id == "plan.viscosity.no-temperature");
    CHECK(judgeStart(setup, std::nullopt).goFrom.size() == 4);

    setup.cart.suctionHose.bore.reset();
    const StartJudged start = judgeStart(setup, celsius(60.0));
    CHECK(start.verdict == Verdict::CannotTell);
    CHECK(start.limitingItem()->told.id == "plan.suction.no-hose");
    CHECK(itemOf(start, StartItem::Relief)->fit == Fit::Fits);

    setup.stages[0].cleanDp.reset();
    CHECK(itemOf(judgeStart(setup, celsius(60.0)), StartItem::StageDrop, 1)->fit == Fit::Unknown);
    CHECK(itemOf(judgeStart(setup, celsius(60.0)), StartItem::Relief)->fit == Fit::Unknown);
    // The return hose alone is over the relief setting: that is known without the stage.
    CHECK(itemOf(judgeStart(setup, celsius(8.0)), StartItem::Relief)->fit == Fit::Over);
}

TEST_CASE("an unknown oil keeps the verdict open")
{
    Setup setup = coldGearOil();
    setup.tank.fluid = {.kind = "gear", .grade = ""};
    setup.cart.lastFluid = "same";
    const StartJudged start = judgeStart(setup, celsius(40.0));
    CHECK(start.verdict == Verdict::CannotTell);
    CHECK(start.limitingItem()->told.id == "plan.viscosity.unknown");
    CHECK(start.goFrom.empty());
}

TEST_CASE("every default that stands in for a figure of the cart is named")
{
    Setup setup = coldGearOil();
    setup.cart.suctionLimit.reset();
    setup.cart.lowestFlow.reset();
    const auto named = [&](const char* id) {
        const auto assumed = judgeStart(setup, celsius(50.0)).assumed;
        return std::any_of(assumed.begin(), assumed.end(),
                           [&](const Message& message) { return message.id == std::string("plan.assumed.") + id; });
    };
    CHECK(named("suction-limit"));
    CHECK(named("suction-allowance"));
    CHECK(named("viscosity-ceiling"));
    CHECK(named("lowest-flow"));
    CHECK(named("density"));
    CHECK_FALSE(named("pump-efficiency"));
    setup.cart.suctionAllowance = number("0.8");
    setup.cart.viscosityCeiling = typed<units::KinematicViscosity>("2000 cSt");
    setup.tank.fluid.density = typed<units::Density>("895 kg/m³");
    setup.cart.motor.power = typed<units::Power>("0.75 kW");
    CHECK_FALSE(named("suction-allowance"));
    CHECK_FALSE(named("viscosity-ceiling"));
    CHECK_FALSE(named("density"));
    CHECK(named("pump-efficiency"));
    CHECK(lowestFlow(setup.cart).in(units::litrePerMinute) == Approx(7.6));
}

TEST_CASE("a motor of one horsepower at 115 V is at the end of a 20 A circuit, and over a 15 A one")
{
    // NEC table 430.248: 16 A; 210.20(A): 80 % of 20 A is 16 A, of 15 A 12 A. At second hand.
    Setup setup = coldGearOil();
    setup.cart.motor = {typed<units::Power>("1 hp"), std::nullopt, typed<units::Voltage>("115 V")};
    setup.cart.circuit = typed<units::Current>("20 A");
    CHECK(itemOf(judgeStart(setup, celsius(60.0)), StartItem::Circuit)->fit == Fit::Fits);
    CHECK(judgeStart(setup, celsius(60.0)).verdict == Verdict::Go);
    setup.cart.circuit = typed<units::Current>("15 A");
    CHECK(itemOf(judgeStart(setup, celsius(60.0)), StartItem::Circuit)->fit == Fit::Over);
    CHECK(judgeStart(setup, celsius(60.0)).verdict == Verdict::NoGo);
    setup.cart.motor.current = typed<units::Current>("11 A"); // the plate goes before the table
    CHECK(judgeStart(setup, celsius(60.0)).verdict == Verdict::Go);
}

TEST_CASE("whether the circuit bears a motor that is asked for too much cannot be told")
{
    Setup setup = coldGearOil();
    setup.cart.motor = {typed<units::Power>("1 hp"), std::nullopt, typed<units::Voltage>("115 V")};
    setup.cart.circuit = typed<units::Current>("20 A");
    const StartJudged cold = judgeStart(setup, celsius(8.0));
    REQUIRE(itemOf(cold, StartItem::MotorPower)->fit == Fit::Over);
    CHECK(itemOf(cold, StartItem::Circuit)->fit == Fit::Unknown);
    setup.cart.circuit = typed<units::Current>("15 A"); // too little for what the plate says already
    CHECK(itemOf(judgeStart(setup, celsius(8.0)), StartItem::Circuit)->fit == Fit::Over);
}

TEST_CASE("a cart that held phosphate ester does not start on mineral oil, however warm")
{
    Setup setup = coldGearOil();
    setup.cart.lastFluid = "phosphate ester";
    const StartJudged start = judgeStart(setup, celsius(60.0));
    CHECK(start.verdict == Verdict::NoGo);
    CHECK(start.limitingItem()->item == StartItem::CartFluid);
}

TEST_CASE("a cart that held another kind of oil asks for a flush first, one that nobody knows keeps the verdict open")
{
    Setup setup = coldGearOil();
    setup.cart.lastFluid = "ISO VG 46 hydraulic";
    CHECK(judgeStart(setup, celsius(60.0)).verdict == Verdict::NoGo);
    CHECK(judgeStart(setup, celsius(60.0)).limitingItem()->item == StartItem::CartFluid);
    CHECK(judgeStart(setup, celsius(40.0)).limitingItem()->item == StartItem::CartFluid); // slower would not help
    CHECK_FALSE(judgeStart(setup, celsius(40.0)).slower.has_value());
    CHECK(judgeStart(setup, celsius(8.0)).limitingItem()->item == StartItem::Suction); // no-go by itself
    setup.cart.lastFluid.clear();
    CHECK(judgeStart(setup, celsius(60.0)).verdict == Verdict::CannotTell);
    CHECK(judgeStart(setup, celsius(60.0)).limitingItem()->told.id == "suit.cart.not-told");
    setup.cart.lastFluid = "same";
    CHECK(judgeStart(setup, celsius(60.0)).verdict == Verdict::Go);
}

TEST_CASE("what does not decide but is to be settled first is a caution")
{
    Setup setup = coldGearOil();
    const auto has = [&](double at, const char* id) {
        const auto cautions = judgeStart(setup, celsius(at)).cautions;
        return std::any_of(cautions.begin(), cautions.end(), [&](const Message& said) { return said.id == id; });
    };
    CHECK_FALSE(has(60.0, "plan.caution.hot"));
    CHECK(has(60.5, "plan.caution.hot"));
    // Stage 2: 1.6 psi at 46 cSt; half of its 42 psi at 604 cSt, about 36 °C.
    CHECK_FALSE(has(38.0, "plan.caution.tight"));
    CHECK(has(34.0, "plan.caution.tight"));
    setup.cart.holdUp = typed<units::Volume>("30 L");
    CHECK_FALSE(has(50.0, "plan.caution.hold-up"));
    setup.cart.holdUp = typed<units::Volume>("31 L");
    CHECK(has(50.0, "plan.caution.hold-up"));
}

TEST_CASE("a level that tells another volume than the record is a caution, and the level's fall is told")
{
    Setup setup = ordinary(); // 400 L
    setup.cart.holdUp = typed<units::Volume>("8 L");
    setup.tank.shape = TankShapeRecord{.form = "box",
                                       .length = typed<units::Length>("1 m"),
                                       .width = typed<units::Length>("0.8 m"),
                                       .height = typed<units::Length>("0.6 m")};
    const Plan plain = planOf(setup, celsius(40.0));
    CHECK(plain.tank.fall->in(units::millimetre) == Approx(10.0)); // 8 L on 0.8 m²
    CHECK(plain.tank.headSpace->free.in(units::litre) == Approx(80.0));
    CHECK(tankCautions(setup).empty());

    setup.tank.level = typed<units::Length>("35 cm"); // 280 L: turnovers would be 43 % more than counted
    CHECK(planOf(setup, celsius(40.0)).tank.atLevel->in(units::litre) == Approx(280.0));
    REQUIRE(tankCautions(setup).size() == 1);
    CHECK(tankCautions(setup).front().id == "plan.caution.level");

    setup.tank.level.reset();
    setup.tank.volume = typed<units::Volume>("470 L");
    REQUIRE(tankCautions(setup).size() == 1);
    CHECK(tankCautions(setup).front().id == "plan.caution.head-space");
}

TEST_CASE("no temperature is told where the suction hose is not known, and the bare hose only where it differs")
{
    Setup setup = coldGearOil();
    setup.cart.relief = typed<units::Pressure>("10 psi"); // gives way before the suction
    CHECK(judgeStart(setup, celsius(50.0)).goFrom.size() == 2);
    setup.cart.suctionHose.length.reset();
    CHECK(judgeStart(setup, celsius(50.0)).goFrom.empty());
}

TEST_CASE("a stage is held against its bypass setting less what the gauges may be off by")
{
    Setup setup = ordinary(); // grade B dials of 100 psi, 3 % in the first quarter: 4.9 psi (k = 2) on a ΔP
    setup.cart.suctionHose = {typed<units::Length>("32 mm"), typed<units::Length>("3 m"),
                              typed<units::Length>("0.5 m")};
    setup.stages[1].bypass = typed<units::Pressure>("10 psi");
    // VG 46: the clean ΔP of stage 2 is 4 psi × ν/46, so 5 psi at 58 cSt, about 35 °C.
    CHECK(itemOf(judgeStart(setup, celsius(38.0)), StartItem::StageDrop, 2)->fit == Fit::Fits);
    CHECK(itemOf(judgeStart(setup, celsius(32.0)), StartItem::StageDrop, 2)->fit == Fit::Over);
    CHECK(judgeStart(setup, celsius(32.0)).limitingItem()->stage == 2);
}

TEST_CASE("a stage that was put in loaded takes as much more")
{
    Setup setup = ordinary();
    const auto shareOf = [&] {
        return itemOf(judgeStart(setup, celsius(40.0)), StartItem::StageDrop, 1)->share.value();
    };
    const double clean = shareOf();
    setup.stages[0].loaded = number("3");
    CHECK(shareOf() == Approx(3.0 * clean));
}

TEST_CASE("the gauges are expected where they would stand")
{
    // 46 cSt at 40 °C: 2 and 4 psi over the stages, the return hose by Hagen and Poiseuille, 1 psi of static head.
    Setup setup = ordinary();
    setup.tank.fluid.density = typed<units::Density>("870 kg/m³");
    setup.cart.returnHose = {typed<units::Length>("19 mm"), typed<units::Length>("3 m"), std::nullopt};
    const StartJudged start = judgeStart(setup, celsius(40.0));
    REQUIRE(start.gauges.size() == 3);
    const auto psi = [&](std::size_t i) { return start.gauges[i].value().in(units::psi); };
    const double density = 870.0 * 0.981866; // at 40 °C
    const double loss_pa = 128.0 * 46e-6 * density * 3.0 * (20e-3 / 60.0) / (M_PI * std::pow(0.019, 4));
    CHECK(psi(2) == Approx(1.0 + loss_pa / 6894.757).epsilon(1e-4));
    CHECK(psi(1) - psi(2) == Approx(4.0).epsilon(0.002));
    CHECK(psi(0) - psi(1) == Approx(2.0).epsilon(0.002));
}

TEST_CASE("how a tank mixed in its runs takes the place of what was told, with its range and their number")
{
    Setup setup = withTarget(ordinary(), "7", "16/14/11");
    setup.tank.code = "20/18/15";
    setup.stages[1].ratingUm = number("3");
    setup.stages[1].beta = number("1000");
    setup.tank.mixing = number("1");
    const CodePlan told = *planOf(setup, celsius(40.0)).code;
    CHECK(told.runs == 0);
    CHECK_FALSE(told.runMost.has_value());
    // Nothing gets in: ln(count) falls by k a turnover, so the time goes as 1/k. As told k is 1 − 1/1000.
    const Taught learned{.place = {.mixing = MixingLearned{{0.25, 0.5, 0.75}, 1.0, 3}}};
    const CodePlan plan = *planOf(setup, celsius(40.0), learned).code;
    CHECK(plan.runs == 3);
    CHECK(plan.run->in(units::minute) == Approx(told.run->in(units::minute) * 0.999 / 0.5));
    CHECK(plan.runLeast->in(units::minute) == Approx(told.run->in(units::minute) * 0.999 / 0.75));
    CHECK(plan.runMost->in(units::minute) == Approx(told.run->in(units::minute) * 0.999 / 0.25));
    const Taught still{.place = {.mixing = MixingLearned{{0.0, 0.5, 0.75}, 1.0, 1}}};
    CHECK_FALSE(planOf(setup, celsius(40.0), still).code->runMost.has_value());
}

TEST_CASE("what gets in between runs lengthens the way to a code, or bars it")
{
    Setup setup = withTarget(ordinary(), "7", "16/-/-"); // 640 per mL at most
    setup.tank.code = "20/18/15";                        // 10 000 per mL at most
    setup.stages[1].ratingUm = number("3");
    setup.stages[1].beta = number("1000");
    setup.tank.mixing = number("1");
    const auto with = [&](double perMlADay) {
        Taught taught;
        taught.place.ingress[0] = IngressLearned{{0.8 * perMlADay, perMlADay, 1.25 * perMlADay}, 2};
        return *planOf(setup, celsius(40.0), taught).code;
    };
    const CodePlan told = *planOf(setup, celsius(40.0)).code;
    CHECK(told.gaps == 0);
    // a turnover is 20 min: 23 040 a day are 320 in one, a floor of 320/0.999, and
    // ln((10 000 − 320.3)/(640 − 320.3))/0.999 = 3.414 turnovers instead of 2.752
    const CodePlan plan = with(23040.0);
    CHECK(plan.gaps == 2);
    CHECK(*told.turnovers == Approx(2.752).epsilon(1e-3));
    CHECK(*plan.turnovers == Approx(3.414).epsilon(1e-3));
    CHECK(*plan.runLeast < *plan.run);
    CHECK(*plan.runMost > *plan.run);
    const CodePlan barred = with(72.0 * 700.0);
    CHECK(barred.gaps == 2);
    CHECK_FALSE(barred.run.has_value());
}

TEST_CASE("what dials showed of clean elements takes the place of what was told of them, from three sets on")
{
    const auto with = [](int sets) {
        Taught taught;
        taught.place.clean = {CleanLearned{}, CleanLearned{filtration::Band{30000.0, 40000.0, 50000.0}, sets}};
        return planOf(ordinary(), celsius(40.0), taught).stages.at(1);
    };
    const StagePlan told = planOf(ordinary(), celsius(40.0)).stages.at(1);
    CHECK_FALSE(told.byDials.has_value());
    CHECK(with(2).cleanDp->in(units::pascal) == told.cleanDp->in(units::pascal));
    const StagePlan plan = with(3);
    const double today = told.cleanDp->in(units::pascal) / ordinary().stages[1].cleanDp->value().in(units::pascal);
    CHECK(plan.cleanDp->in(units::pascal) == Approx(40000.0 * today).epsilon(1e-3));
    CHECK(plan.byDials->least.in(units::pascal) == Approx(30000.0 * today).epsilon(1e-3));
    CHECK(plan.byDials->most.in(units::pascal) == Approx(50000.0 * today).epsilon(1e-3));
    CHECK(plan.byDials->sets == 3);
    CHECK(*plan.room
          == Approx(ordinary().stages[1].changeLimit->value().in(units::pascal) / plan.cleanDp->in(units::pascal)));
}

TEST_CASE("how many elements a run uses up follows from the lives at its tank")
{
    Setup setup = withTarget(ordinary(), "7");
    setup.stages[1].type = "G3";
    Taught taught;
    CHECK_FALSE(planOf(setup, celsius(40.0), taught).stages.at(1).usedUp.has_value());
    for (int i = 0; i < 20; ++i) {
        taught.loadings.push_back({.stage = 2, .tank = setup.tank.name, .elementType = "G3", .end_l = 250.0});
    }
    taught.loadings.push_back({.stage = 2, .tank = "another", .elementType = "G3", .end_l = 1.0});
    const StagePlan plan = planOf(setup, celsius(40.0), taught).stages.at(1);
    REQUIRE(plan.usedUp);
    CHECK(plan.usedUp->lives == 20);
    // the dirt of 400 L comes by 0.15·7 + 0.85·(1 − e^(−0.7·7))/0.7 = 2.255 times in seven turnovers, which is 3.6
    // lives of a pair
    CHECK(plan.usedUp->elements.best == 8);
    CHECK(plan.usedUp->elements.low < 8);
    CHECK(plan.usedUp->elements.high > 8);
    setup.target.turnovers.reset();
    CHECK_FALSE(planOf(setup, celsius(40.0), taught).stages.at(1).usedUp.has_value());
}

TEST_CASE("the way to a code is told where the tank's code and a stage fine enough are known")
{
    Setup setup = withTarget(ordinary(), "7", "16/14/11");
    CHECK(planOf(setup, celsius(40.0)).code->why.find("before sample") != std::string::npos);
    setup.tank.code = "20/18/15";
    CHECK(planOf(setup, celsius(40.0)).code->why.find("rating") != std::string::npos);
    setup.stages[1].ratingUm = number("3");
    setup.stages[1].beta = number("1000");
    setup.tank.mixing = number("1");
    const Plan plan = planOf(setup, celsius(40.0));
    // The slowest is 15 → 11: 320 to 20 per mL, ln(16)/0.999 = 2.7754 turnovers.
    REQUIRE(plan.code->turnovers.has_value());
    CHECK(*plan.code->turnovers == Approx(2.7754).epsilon(1e-4));
    CHECK(plan.code->run->in(units::minute) == Approx(2.7754 * 20.0).epsilon(1e-4));
}

TEST_CASE("water is weighed against what the fitted elements hold")
{
    Setup setup = ordinary();
    setup.tank.volume = typed<units::Volume>("800 L");
    setup.tank.water = typed<units::Fraction>("1400 ppm");
    setup.stages[0].kind = "water";
    setup.stages[0].waterCapacity = typed<units::Volume>("0.35 L");
    const Plan plan = planOf(setup, celsius(24.0));
    REQUIRE(plan.water.has_value());
    CHECK(plan.water->water.in(units::litre) == Approx(0.97).epsilon(0.02));
    CHECK(plan.water->setsMore == 1);
    CHECK(plan.stages[0].sets == 2);
    CHECK_FALSE(plan.stages[1].sets.has_value());
    setup.tank.water = typed<units::Fraction>("400 ppm");
    CHECK(planOf(setup, celsius(24.0)).water->setsMore == 0);
}
