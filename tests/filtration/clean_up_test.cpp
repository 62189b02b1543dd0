// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/clean_up.h"

#include "filtration/turnover.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>
#include <vector>

using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside::filtration;
using namespace loopside::units;
using loopside::Errc;
using loopside::oil::CleanlinessCode;

namespace {

CleanlinessCode code(const char* text)
{
    return CleanlinessCode::parse(text).value();
}

PerSize<MixedTank> alike(double k, double floorPerMl = 0.0)
{
    return {MixedTank{k, floorPerMl}, MixedTank{k, floorPerMl}, MixedTank{k, floorPerMl}};
}

double captureOf(std::vector<double> betas, double mixing = 1.0)
{
    return captureTimesMixing(betas, mixing).value();
}

} // namespace

TEST_CASE("stages in series capture as the product of their filtration ratios, times the mixing")
{
    // ISO 16889: the efficiency is 1 − 1/β: 200 → 99.5 %, 1000 → 99.9 %, read.
    CHECK_THAT(captureOf({200.0}), WithinRel(0.995, 1e-12));
    CHECK_THAT(captureOf({1000.0}), WithinRel(0.999, 1e-12));
    CHECK_THAT(captureOf({10.0, 20.0}), WithinRel(captureOf({200.0}), 1e-12)); // computed: 10·20
    CHECK_THAT(captureOf({200.0}, 0.7), WithinRel(0.6965, 1e-12));
    CHECK(captureOf({}) == 0.0);
    CHECK(captureOf({1.0}) == 0.0);
    CHECK(captureOf({std::numeric_limits<double>::infinity()}) == 1.0);
    CHECK(captureOf({75.0, 200.0}) > captureOf({200.0}));
}

TEST_CASE("what has never passed falls to e to the minus n")
{
    // The table of perfect mixing, computed; 6.90776 for 99.9 % is published.
    const auto [turnovers, percents] = GENERATE(table<double, double>({{1.0, 36.79},
                                                                       {2.0, 13.53},
                                                                       {3.0, 4.98},
                                                                       {4.0, 1.83},
                                                                       {5.0, 0.674},
                                                                       {6.0, 0.248},
                                                                       {7.0, 0.0912},
                                                                       {10.0, 0.0045}}));
    CHECK_THAT(neverPassed(turnovers) * 100.0, WithinRel(percents, 0.01)); // printed with three figures
    CHECK_THAT(neverPassed(6.90776), WithinRel(1e-3, 1e-5));
    CHECK_THAT(turnoversBetween(1.0, 1e-3, {1.0}).value(), WithinAbs(6.90776, 1e-5));
    CHECK_THAT(turnoversBetween(1.0, 1e-2, {1.0}).value(), WithinAbs(4.605, 1e-3));
}

TEST_CASE("from 20 to 16 at a ratio of 1000 takes 2.7516 turnovers and 110.06 min")
{
    // Computed from the true limits of ISO 4406, 10 000 and 640 per mL: ln(15.625)/0.999; four times ln 2 is 2.7754.
    const double k = captureOf({1000.0});
    CHECK_THAT(turnoversBetween(10000.0, 640.0, {k}).value(), WithinAbs(2.7516, 5e-5));
    const WayToCode way = turnoversToCode(code("20/20/20"), code("16/16/16"), alike(k)).value();
    REQUIRE(way.turnovers.has_value());
    CHECK_THAT(*way.turnovers, WithinAbs(2.7516, 5e-5));
    CHECK_THAT(runTime(*way.turnovers, 200.0 * gallon, 5.0 * gallonPerMinute).value().in(minute),
               WithinAbs(110.06, 0.005));
}

TEST_CASE("with ingress the count comes down as in the worked example")
{
    // Computed: 200 gal, 5 gpm, β 200, 5000 per mL, 3.766·10⁵ particles a minute hold 20 per mL.
    const double k = captureOf({200.0});
    const double floor = floorFromIngress(3.766e5, 5.0 * gallonPerMinute, k).value();
    CHECK_THAT(floor, WithinRel(20.0, 1e-3));
    const auto [minutes, perMl] = GENERATE(
        table<double, double>({{40.0, 1861.2}, {80.0, 700.7}, {120.0, 271.7}, {240.0, 32.72}, {280.0, 24.70}}));
    CHECK_THAT(countAfter(5000.0, minutes / 40.0, {k, 20.0}).value(), WithinRel(perMl, 2e-4)); // four figures
}

TEST_CASE("codes fall by as many numbers a turnover as mixing and capture allow")
{
    // Computed table of common practice: numbers down at 1.0, 0.7, 0.5, printed with one digit.
    const auto [turnovers, full, fair, poor] = GENERATE(table<double, double, double, double>(
        {{1.0, 1.4, 1.0, 0.7}, {3.0, 4.3, 3.0, 2.2}, {6.0, 8.7, 6.1, 4.3}, {10.0, 14.4, 10.1, 7.2}}));
    CHECK_THAT(codesDown(turnovers, 1.0), WithinAbs(full, 0.05));
    CHECK_THAT(codesDown(turnovers, 0.7), WithinAbs(fair, 0.051));
    CHECK_THAT(codesDown(turnovers, 0.5), WithinAbs(poor, 0.05));
    // Computed: after 7 turnovers 5.05 (β 2), 9.96 (β 75), 10.09 (β 1000).
    CHECK_THAT(codesDown(7.0, captureOf({2.0})), WithinAbs(5.05, 0.005));
    CHECK_THAT(codesDown(7.0, captureOf({75.0})), WithinAbs(9.96, 0.005));
    CHECK_THAT(codesDown(7.0, captureOf({1000.0})), WithinAbs(10.09, 0.005));
}

TEST_CASE("turnovers and counts are each other's inverse, and fall and rise as they must")
{
    const double k = GENERATE(0.05, 0.35, 0.7, 1.0);
    const double floor = GENERATE(0.0, 20.0, 300.0);
    const double target = GENERATE(320.0, 1300.0, 4999.0);
    CAPTURE(k, floor, target);
    const MixedTank tank{k, floor};
    const double turnovers = turnoversBetween(5000.0, target, tank).value();
    CHECK_THAT(countAfter(5000.0, turnovers, tank).value(), WithinRel(target, 1e-9));
    CHECK(turnoversBetween(5000.0, target * 0.99, tank).value() > turnovers);
    CHECK(turnoversBetween(6000.0, target, tank).value() > turnovers);
    CHECK(turnoversBetween(5000.0, target, {k * 0.9, floor}).value() > turnovers);
    CHECK(turnoversBetween(5000.0, target, {k, floor + 10.0}).value() > turnovers);
    CHECK(countAfter(5000.0, 0.0, tank).value() == 5000.0);
    CHECK_THAT(countAfter(5000.0, 1e6, tank).value(), WithinAbs(floor, 1e-6));
}

TEST_CASE("a target at the floor, or nothing captured, is said never to be reached")
{
    const double target = GENERATE(100.0, 99.0, 1.0);
    const auto never = turnoversBetween(5000.0, target, {0.7, 100.0});
    REQUIRE_FALSE(never.has_value());
    CHECK(never.error().code == Errc::Unavailable);
    CHECK_THAT(never.error().sentence, Contains("never reached") && Contains("100 per mL"));
    CHECK(turnoversBetween(5000.0, 101.0, {0.7, 100.0}).has_value());
    CHECK_THAT(turnoversBetween(5000.0, 640.0, {0.0}).error().sentence, Contains("nothing is captured"));
    CHECK(turnoversBetween(640.0, 640.0, {0.0}).value() == 0.0);
    CHECK(turnoversBetween(50.0, 640.0, {0.7, 1000.0}).value() == 0.0);
}

TEST_CASE("the slowest size decides how long a code takes")
{
    // 20/18/15 to 17/15/12, upper limits 10 000/2500/320 and 1300/320/40: the ratios are 7.69, 7.81 and 8.
    const WayToCode way = turnoversToCode(code("20/18/15"), code("17/15/12"), alike(0.7)).value();
    REQUIRE(way.slowest.has_value());
    CHECK(*way.slowest == 2);
    CHECK_THAT(way.turnovers.value(), WithinRel(std::log(8.0) / 0.7, 1e-12));
    CHECK_THAT(way.sizes[0].value().turnovers.value(), WithinRel(std::log(10000.0 / 1300.0) / 0.7, 1e-12));
    CHECK(way.why.empty());
    // A given count instead of the upper limit shortens the way.
    const auto counted = turnoversToCode({6000.0, 1500.0, 170.0}, code("17/15/12"), alike(0.7)).value();
    CHECK(counted.turnovers.value() < *way.turnovers);
}

TEST_CASE("a size that is never reached or not counted leaves the code without turnovers, and says why")
{
    PerSize<MixedTank> tank = alike(0.7);
    tank[1].floorPerMl = 400.0; // the target 15 ends at 320 per mL
    const WayToCode floor = turnoversToCode(code("20/18/15"), code("17/15/12"), tank).value();
    CHECK_FALSE(floor.turnovers.has_value());
    CHECK(floor.slowest == 1);
    CHECK_THAT(floor.why, Contains("At 6 µm") && Contains("never reached"));
    CHECK(floor.sizes[0].value().turnovers.has_value());

    const WayToCode unknown = turnoversToCode(code("-/18/15"), code("17/15/12"), alike(0.7)).value();
    CHECK_FALSE(unknown.turnovers.has_value());
    CHECK_THAT(unknown.why, Contains("At 4 µm") && Contains("not known"));

    const WayToCode two = turnoversToCode(code("-/18/15"), code("-/15/12"), alike(0.7)).value();
    CHECK(two.turnovers.has_value());
    CHECK_FALSE(two.sizes[0].has_value());
    CHECK_FALSE(turnoversToCode(code(">28/18/15"), code("17/15/12"), alike(0.7)).value().turnovers.has_value());
    CHECK(turnoversToCode(code("16/14/11"), code("17/15/12"), alike(0.7)).value().turnovers == 0.0);
}

TEST_CASE("the code that is expected is a range, from the lower and the upper limits of the start")
{
    const CodeRange start = codeAfter(code("20/18/15"), 0.0, alike(0.7)).value();
    CHECK(start.from == code("20/18/15"));
    CHECK(start.to == code("20/18/15"));
    const double turnovers = GENERATE(0.5, 2.0, 5.0, 9.0);
    const CodeRange range = codeAfter(code("20/18/15"), turnovers, alike(0.7)).value();
    for (std::size_t i = 0; i < 3; ++i) {
        const int low = range.from.scales()[i].number().value();
        const int high = range.to.scales()[i].number().value();
        CHECK(low <= high);
        CHECK(high - low <= 2); // both ends of one number are a factor of two apart
        const double down = code("20/18/15").scales()[i].number().value() - codesDown(turnovers, 0.7);
        CHECK_THAT(high, WithinAbs(down, 1.1)); // the limits are rounded
    }
    // Computed: 10 000 per mL and 3 turnovers at 0.7 leave 1224.6, number 17.
    CHECK(codeAfter(code("20/18/15"), 3.0, alike(0.7)).value().to.at4().number() == 17);
}

TEST_CASE("what was not counted stays so, and no size is told below a larger one")
{
    CHECK(codeAfter(code("-/18/15"), 3.0, alike(0.7)).value().to.isMicroscope());
    CHECK(codeAfter(code("*/18/15"), 3.0, alike(0.7)).value().to.toText().starts_with("*/"));
    CHECK(codeAfter(code(">28/18/15"), 3.0, alike(0.7)).value().to.toText().starts_with(">28/"));
    // A floor at 14 µm above all that is left at 4 and 6 µm holds these up too: 300 per mL is number 15.
    PerSize<MixedTank> tank = alike(0.9);
    tank[2].floorPerMl = 300.0;
    const CodeRange held = codeAfter(code("20/18/15"), 50.0, tank).value();
    CHECK(held.to == code("15/15/15"));
}

TEST_CASE("numbers that a tank or a cart cannot have are refused with the fault named")
{
    const double wrong = GENERATE(-0.1, 1.1, std::nan(""));
    CAPTURE(wrong);
    CHECK_THAT(captureTimesMixing(std::vector{200.0}, wrong).error().sentence, Contains("mixing factor"));
    CHECK_THAT(captureTimesMixing(std::vector{200.0}, 0.0).error().sentence, Contains("mixing factor"));
    CHECK_THAT(captureTimesMixing(std::vector{0.9}, 0.7).error().sentence, Contains("filtration ratio"));
    CHECK_THAT(countAfter(100.0, 1.0, {wrong}).error().sentence, Contains("capture times mixing"));
    CHECK_THAT(countAfter(-1.0, 1.0, {0.7}).error().sentence, Contains("count at the start"));
    CHECK_THAT(countAfter(100.0, -1.0, {0.7}).error().sentence, Contains("turnovers"));
    CHECK_THAT(countAfter(100.0, 1.0, {0.7, -1.0}).error().sentence, Contains("floor"));
    CHECK_THAT(turnoversBetween(100.0, 0.0, {0.7}).error().sentence, Contains("target"));
    CHECK_THAT(floorFromIngress(-1.0, 1.0 * litrePerMinute, 0.7).error().sentence, Contains("ingress"));
    CHECK_THAT(floorFromIngress(1.0, Flow{}, 0.7).error().sentence, Contains("flow"));
    CHECK_THAT(floorFromIngress(1.0, 1.0 * litrePerMinute, 0.0).error().sentence, Contains("capture"));
    CHECK_THAT(turnoversToCode({-1.0, 1.0, 1.0}, code("17/15/12"), alike(0.7)).error().sentence, Contains("count"));
    CHECK_THAT(turnoversToCode(code("20/18/15"), code("17/15/12"), alike(wrong)).error().sentence, Contains("capture"));
    CHECK_THAT(codeAfter(code("20/18/15"), -1.0, alike(0.7)).error().sentence, Contains("turnovers"));
}
