// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What each fault does to the gauges, against the pattern by which practice knows it ("common practice": the table of
// patterns that a technician reads the three gauges by). Every case names its pattern.

#include "practice/bench.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::units;
using practice::FaultKind;
using practice::Snapshot;

namespace {

/// How the gauges moved from one moment to another: ΔP of the stages, and what is behind the last less the static head.
struct Moved
{
    double d1;
    double d2;
    double r3;
};

Moved moved(const Snapshot& before, const Snapshot& after)
{
    const Pressure head = 1.0 * psi;
    return {after.drops[0] / before.drops[0], after.drops[1] / before.drops[1],
            (after.gauges[2] - head) / (before.gauges[2] - head)};
}

/// What a fault changes at once, on the plain cart.
Moved atOnce(FaultKind kind, int place = 0, std::optional<double> size = {})
{
    auto cart = test::running(test::plain());
    const Snapshot before = cart.truth();
    test::inflict(cart, kind, place, size);
    return moved(before, cart.truth());
}

auto same()
{
    return Catch::WithinRel(1.0, 1e-6);
}

double shown(const run::ReadingLogged& reading, std::size_t gauge)
{
    return reading.gauges.at(gauge)->low.toDouble();
}

} // namespace

TEST_CASE("warming or cooling: all three move in the same proportion")
{
    auto scenario = test::plain();
    scenario.oil.end = GENERATE(45.0, 15.0) * celsius;
    auto cart = test::running(scenario);
    const Snapshot before = cart.truth();
    test::advance(cart, 60.0);
    const Moved now = moved(before, cart.truth());
    CHECK((scenario.oil.end > scenario.oil.start ? now.d1 < 0.8 : now.d1 > 1.25));
    CHECK_THAT(now.d2 / now.d1, same());
    CHECK_THAT(now.r3 / now.d1, Catch::WithinRel(1.0, 0.02)); // the hose sees the density, too
}

TEST_CASE("strainer blocking: all fall slowly in the same proportion at the same temperature")
{
    auto cart = test::running(test::plain());
    const Snapshot before = cart.truth();
    test::inflict(cart, FaultKind::StrainerBlocking, 0, 0.25);
    test::advance(cart, 15.0);
    const Moved half = moved(before, cart.truth());
    test::advance(cart, 45.0);
    const Moved now = moved(before, cart.truth());
    CHECK_THAT(half.d1, Catch::WithinAbs(0.875, 1e-6));
    CHECK_THAT(now.d1, Catch::WithinAbs(0.75, 1e-6));
    CHECK_THAT(now.d2, Catch::WithinAbs(0.75, 1e-6));
    CHECK_THAT(now.r3, Catch::WithinAbs(0.75, 1e-6));
    CHECK(cart.truth().oil == before.oil);
}

TEST_CASE("coarse dirt: stage 1 loads, faster and faster, stage 2 stays")
{
    auto scenario = test::dirty(test::plain(), 0.0, 1);
    scenario.tank.ingressMgPerMin.fill(80.0);
    auto cart = test::running(scenario);
    std::vector<double> drops;
    const Snapshot before = cart.truth();
    for (int i = 0; i < 3; ++i) {
        drops.push_back(cart.truth().drops[0].in(psi));
        test::advance(cart, 40.0);
    }
    CHECK(moved(before, cart.truth()).d1 > 1.5);
    CHECK(drops[2] - drops[1] > 1.1 * (drops[1] - drops[0]));
    CHECK_THAT(moved(before, cart.truth()).d2, same());
    CHECK_THAT(moved(before, cart.truth()).r3, same());
}

TEST_CASE("fine dirt: stage 2 rises, stage 1 stays flat and low")
{
    auto scenario = test::plain();
    scenario.stages[1].beta.fill(1000.0);
    scenario.stages[0].beta = {1.0, 1.0, 100.0, 1000.0, 1000.0};
    auto cart = test::running(scenario);
    const Snapshot before = cart.truth();
    test::inflict(cart, FaultKind::DirtSlug);
    test::advance(cart, 40.0);
    CHECK(moved(before, cart.truth()).d2 > 1.5);
    CHECK_THAT(moved(before, cart.truth()).d1, same());
}

TEST_CASE("stage 1 torn: its drop falls at once, the return stays, then stage 2 climbs")
{
    auto scenario = test::dirty(test::plain(), 0.0, 1);
    scenario.tank.ingressMgPerMin.fill(250.0);
    scenario.stages[1].beta.fill(1000.0);
    auto cart = test::running(scenario);
    test::advance(cart, 30.0);
    const Snapshot before = cart.truth();
    REQUIRE(before.loading[0] > 2.0);
    test::inflict(cart, FaultKind::StageTorn, 1);
    const Snapshot torn = cart.truth();
    CHECK(torn.loading[0] < 0.6);
    CHECK_THAT(moved(before, torn).d2, same());
    CHECK_THAT(moved(before, torn).r3, same());
    test::advance(cart, 15.0);
    CHECK(moved(torn, cart.truth()).d2 > 1.1);
    CHECK(cart.countsAt(2).value()[2] > 0.3 * cart.countsAt(1).value()[2]); // and what is behind it is hardly cleaner
}

TEST_CASE("stage 2 torn, or its seal out of place: its drop falls below clean, all else stays")
{
    const FaultKind kind = GENERATE(FaultKind::StageTorn, FaultKind::ElementMissing);
    const Moved now = atOnce(kind, 2);
    CHECK(now.d2 < 0.5);
    CHECK_THAT(now.d1, same());
    CHECK_THAT(now.r3, same());
}

TEST_CASE("bypass valve of a stage stuck open: its drop falls to next to nothing, the return stays")
{
    auto scenario = test::plain();
    scenario.stages[1].bypass = practice::StageTruth::Bypass{40.0 * psi};
    auto cart = test::running(scenario);
    const Snapshot before = cart.truth();
    test::inflict(cart, FaultKind::StageBypassOpen, 2);
    const Moved now = moved(before, cart.truth());
    CHECK(now.d2 < 0.7);
    CHECK_THAT(now.d1, same());
    CHECK_THAT(now.r3, same());
    CHECK(cart.truth().throughElements[1] < 0.7);
}

TEST_CASE("a loading stage with a bypass valve climbs and then sits flat at its setting")
{
    auto scenario = test::dirty(test::plain(), 20.0, 2);
    scenario.tank.ingressMgPerMin.fill(150.0);
    scenario.stages[1].bypass = practice::StageTruth::Bypass{25.0 * psi};
    auto cart = test::running(scenario);
    double before = 0.0;
    for (int i = 0; i < 12; ++i) {
        test::advance(cart, 20.0);
        const double now = cart.truth().drops[1].in(psi);
        CHECK(now > before);
        CHECK(now < 27.5);
        before = now;
    }
    CHECK(before > 25.0);
    CHECK(cart.lives()[1].limitAt == std::nullopt); // the limit, 35 psi, lies above the setting: never reached
}

TEST_CASE("valve left in bypass: both drops nothing, the return normal, and no turnover")
{
    auto cart = test::running(test::plain());
    const Snapshot before = cart.truth();
    test::inflict(cart, FaultKind::ValveInBypass);
    test::advance(cart, 20.0);
    const Snapshot now = cart.truth();
    CHECK(now.mode == run::Mode::Bypassing);
    CHECK(cart.modeTold() == run::Mode::Filtering);
    CHECK(now.gauges[0] == now.gauges[2]);
    CHECK_THAT(now.gauges[2].in(psi), Catch::WithinRel(before.gauges[2].in(psi), 1e-9));
    CHECK(now.filtered == before.filtered);
}

TEST_CASE("prime lost: all three at the static head while the motor runs")
{
    auto cart = test::running(test::plain());
    test::inflict(cart, FaultKind::PrimeLost);
    for (const Pressure gauge : cart.truth().gauges) {
        CHECK_THAT(gauge.in(psi), Catch::WithinAbs(1.0, 1e-9));
    }
}

TEST_CASE("return shut: all three equal and high, at the relief valve")
{
    auto cart = test::running(test::plain());
    test::inflict(cart, FaultKind::ReturnShut);
    const Snapshot now = cart.truth();
    CHECK(now.relieved);
    CHECK(now.gauges[2] > 100.0 * psi);
    CHECK(now.gauges[0] <= 110.0 * psi);
    CHECK((now.gauges[0] - now.gauges[2]).in(psi) < 0.5);
    CHECK(now.flow < 1.0 * litrePerMinute);
}

TEST_CASE("kinked return: the return up, both drops unchanged, every gauge up by the same")
{
    auto cart = test::running(test::plain());
    const Snapshot before = cart.truth();
    test::inflict(cart, FaultKind::ReturnKinked, 0, 124.1); // 18 psi
    const Snapshot now = cart.truth();
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK_THAT((now.gauges[i] - before.gauges[i]).in(psi), Catch::WithinAbs(18.0, 0.01));
    }
    CHECK_THAT(moved(before, now).d1, same());
    CHECK_THAT(moved(before, now).d2, same());
}

TEST_CASE("return nearly shut: the return up and both drops down, as the relief valve takes flow")
{
    const Moved now = atOnce(FaultKind::ReturnKinked, 0, 1500.0);
    CHECK(now.r3 > 2.0);
    CHECK(now.d1 < 0.95);
    CHECK_THAT(now.d2 / now.d1, same());
}

TEST_CASE("return hose off: the return down alone, both drops unchanged")
{
    const Moved now = atOnce(FaultKind::ReturnOff);
    CHECK(now.r3 < 0.1);
    CHECK_THAT(now.d1, same());
    CHECK_THAT(now.d2, same());
}

TEST_CASE("aeration: every needle swings, and stands still with the pump off")
{
    auto cart = test::running(test::plain());
    test::inflict(cart, FaultKind::Aeration);
    const auto swinging = cart.readGauges();
    for (const auto& gauge : swinging.gauges) {
        REQUIRE(gauge->high.has_value());
        CHECK(*gauge->high > gauge->low);
    }
    REQUIRE(cart.setMode(run::Mode::Stopped).has_value());
    CHECK(cart.readGauges().gauges[0]->high == std::nullopt);
}

TEST_CASE("water element swelling: stage 1 doubles in minutes although the oil warms, stage 2 stays")
{
    auto scenario = test::plain();
    scenario.oil.end = 40.0 * celsius;
    scenario.stages[0].water = practice::StageTruth::Water{practice::BlockingLaw::through(1.5, 350.0, 10.0).value(),
                                                           0.9};
    auto cart = test::running(scenario);
    test::inflict(cart, FaultKind::WaterSlug, 0, 3000.0);
    const Snapshot before = cart.truth();
    test::advance(cart, 14.0);
    const Moved now = moved(before, cart.truth());
    CHECK(now.d1 > 2.0);
    CHECK(now.d2 < 1.0);
    CHECK(cart.truth().waterPpm < before.waterPpm);
}

TEST_CASE("one of a pair gets no oil: twice the clean drop, and a finer element: as much as it is finer")
{
    CHECK_THAT(atOnce(FaultKind::ElementNotFlowing, 2).d2, Catch::WithinRel(2.0, 1e-9));
    CHECK_THAT(atOnce(FaultKind::WrongElement, 1, 2.5).d1, Catch::WithinRel(2.5, 1e-9));
    CHECK_THAT(atOnce(FaultKind::WrongElement, 1, 2.5).d2, same());
}

TEST_CASE("only one of the pair changed: 2 ÷ (1 + 1 ÷ loading of the old one)")
{
    auto scenario = test::plain();
    scenario.stages[1].loadedAtStart = 4.2;
    auto cart = test::running(scenario);
    const bool isTold = GENERATE(true, false);
    if (!isTold) {
        test::inflict(cart, FaultKind::HalfChangedPair, 2);
    }
    test::change(cart, 2, isTold ? 1 : 2);
    const double expected = filtration::halfChangedLoading(4.2).value();
    CHECK_THAT(cart.truth().loading[1], Catch::WithinRel(expected, 1e-9));
    test::change(cart, 2, 2); // and it is put right by a second change
    CHECK_THAT(cart.truth().loading[1], same());
}

TEST_CASE("slow leak past a stage: its corrected drop drifts down, the return stays")
{
    auto cart = test::running(test::plain());
    const Snapshot before = cart.truth();
    test::inflict(cart, FaultKind::SlowLeak, 2);
    test::advance(cart, 30.0);
    const Snapshot later = cart.truth();
    test::advance(cart, 30.0);
    CHECK(later.loading[1] < 0.9);
    CHECK(cart.truth().loading[1] < later.loading[1]);
    CHECK_THAT(moved(before, cart.truth()).d1, same());
    CHECK_THAT(moved(before, cart.truth()).r3, same());
}

TEST_CASE("another oil than told: both drops and the return are off by its viscosity")
{
    const Moved now = atOnce(FaultKind::WrongOil, 0, 2.3);
    CHECK_THAT(now.d1, Catch::WithinRel(2.3, 1e-6));
    CHECK_THAT(now.d2, Catch::WithinRel(2.3, 1e-6));
    CHECK_THAT(now.r3, Catch::WithinRel(2.3, 1e-6));
}

TEST_CASE("machine starts: what had settled is in the oil, and the stages load faster")
{
    auto scenario = test::dirty(test::plain(), 2.0, 1);
    scenario.tank.settledMg.fill(8000.0);
    auto still = test::running(scenario);
    auto stirred = test::running(scenario);
    test::inflict(stirred, FaultKind::DirtStirred);
    CHECK(stirred.truth().countsPerMl[0] > 5.0 * still.truth().countsPerMl[0]);
    test::advance(still, 20.0);
    test::advance(stirred, 20.0);
    CHECK(stirred.truth().drops[0] > 1.05 * still.truth().drops[0]);
}

TEST_CASE("a stuck needle shows the same while the others move, and put right it moves")
{
    auto scenario = test::plain();
    scenario.oil.end = 50.0 * celsius;
    auto cart = test::running(scenario);
    const auto before = cart.readGauges();
    test::inflict(cart, FaultKind::GaugeStuck, 2);
    test::advance(cart, 30.0);
    const auto stuck = cart.readGauges();
    CHECK(shown(stuck, 1) == shown(before, 1));
    CHECK(shown(stuck, 0) < shown(before, 0));
    cart.putRight(FaultKind::GaugeStuck, 2);
    CHECK(shown(cart.readGauges(), 1) < shown(before, 1));
}

TEST_CASE("an offset of a gauge shows with the pump off, and can make gauge 2 read above gauge 1")
{
    auto cart = test::running(test::plain());
    test::inflict(cart, FaultKind::GaugeOffset, 2, 0.06);
    const auto reading = cart.readGauges();
    CHECK(shown(reading, 1) > shown(reading, 0));
    REQUIRE(cart.setMode(run::Mode::Stopped).has_value());
    const auto pumpOff = cart.readGauges();
    CHECK_THAT(shown(pumpOff, 0), Catch::WithinAbs(1.0, 0.006));
    CHECK_THAT(shown(pumpOff, 1), Catch::WithinAbs(7.0, 0.006));
}

TEST_CASE("a thermometer that is off moves the temperature typed and nothing else")
{
    auto cart = test::running(test::plain());
    const auto before = cart.readGauges();
    test::inflict(cart, FaultKind::ThermometerOff, 0, 6.0);
    const auto after = cart.readGauges();
    CHECK(after.oil->number().toDouble() - before.oil->number().toDouble() == 6.0);
    CHECK(shown(after, 0) == shown(before, 0));
}

TEST_CASE("every kind of fault has a name that finds it, and an unknown name is refused with the names")
{
    for (const auto& nature : practice::faultNatures()) {
        CHECK(practice::faultNamed(nature.name).value() == nature.kind);
    }
    CHECK_THAT(practice::faultNamed("pump-on-fire").error().sentence, Catch::Contains("stage-torn"));
}

TEST_CASE("a fault that this cart cannot have is refused by name")
{
    auto scenario = test::plain();
    scenario.stages[0].elements = 1;
    auto cart = test::running(scenario);
    const auto sentence = [&](const practice::Fault& fault) {
        const auto done = cart.inflict(fault);
        return done ? std::string() : done.error().sentence;
    };
    CHECK_THAT(sentence({FaultKind::StageTorn, 3}), Catch::Contains("stage-torn") && Catch::Contains("1 to 2"));
    CHECK_THAT(sentence({FaultKind::StageTorn, 0}), Catch::Contains("it is 0"));
    CHECK_THAT(sentence({FaultKind::GaugeStuck, 4}), Catch::Contains("1 to 3"));
    CHECK_THAT(sentence({FaultKind::PrimeLost, 1}), Catch::Contains("must be 0"));
    CHECK_THAT(sentence({FaultKind::StageBypassOpen, 1}), Catch::Contains("no bypass valve"));
    CHECK_THAT(sentence({FaultKind::ElementNotFlowing, 1}), Catch::Contains("one element only"));
    CHECK_THAT(sentence({FaultKind::StrainerBlocking, 0, 1.0}), Catch::Contains("below one"));
    CHECK_THAT(sentence({FaultKind::ReturnKinked, 0, -1.0}), Catch::Contains("above zero"));
    CHECK_THAT(sentence({FaultKind::WrongOil, 0, std::numeric_limits<double>::quiet_NaN()}), Catch::Contains("size"));
    CHECK(sentence({FaultKind::GaugeOffset, 3, -0.05}).empty());
}
