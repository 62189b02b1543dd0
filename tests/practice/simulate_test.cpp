// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "practice/simulate.h"

#include "practice/bench.h"
#include "run/standing.h"
#include "support/golden.h"

#include <catch2/catch.hpp>

#include <cstdint>
#include <string>
#include <variant>
#include <vector>

using namespace loopside;
using namespace loopside::units;
using practice::Simulated;

namespace {

std::string digits(const run::ReadingLogged& reading)
{
    std::string text;
    for (const auto& gauge : reading.gauges) {
        text += (gauge ? gauge->low.toText() + (gauge->high ? ".." + gauge->high->toText() : "") : "-") + " ";
    }
    return text + reading.oil->toText();
}

/// A line per entry: what a person would see on paper.
std::vector<std::string> onPaper(const Simulated& simulated)
{
    std::vector<std::string> lines;
    for (const practice::Entry& entry : simulated.entries) {
        std::string what = "mode " + std::to_string(entry.what.index());
        if (const auto* reading = std::get_if<run::ReadingLogged>(&entry.what)) {
            what = digits(*reading);
        } else if (const auto* changed = std::get_if<run::ElementsChanged>(&entry.what)) {
            what = "changed stage " + std::to_string(changed->stage);
        } else if (const auto* mode = std::get_if<run::ModeChanged>(&entry.what)) {
            what = mode->mode == run::Mode::Filtering ? "filtering" : "stopped";
        }
        lines.push_back(std::to_string(entry.at.count() / 1000) + " " + what);
    }
    return lines;
}

/// FNV-1a, so that a run is one number.
std::uint64_t checksum(const std::vector<std::string>& lines)
{
    std::uint64_t sum = 14695981039346656037ULL;
    for (const std::string& line : lines) {
        for (const char sign : line + "\n") {
            sum = (sum ^ static_cast<unsigned char>(sign)) * 1099511628211ULL;
        }
    }
    return sum;
}

} // namespace

TEST_CASE("the same scenario gives the same digits, another seed others")
{
    const auto once = onPaper(practice::simulate(practice::testScenario(3)).value());
    CHECK(once == onPaper(practice::simulate(practice::testScenario(3)).value()));
    CHECK(once != onPaper(practice::simulate(practice::testScenario(4)).value()));
}

// Recorded by this test itself. If it changes, the test set of the forecast has changed, and every figure told of it
// is to be told anew.
TEST_CASE("a few runs of the test set are what they were")
{
    std::vector<std::string> lines = {"# Checksums of what is typed in simulated runs; recorded by simulate_test.cpp."};
    for (const int number : {0, 1, 2, 3, 500, 1000, 1999}) {
        const auto paper = onPaper(practice::simulate(practice::testScenario(number)).value());
        lines.push_back(std::to_string(number) + " " + std::to_string(paper.size()) + " "
                        + std::to_string(checksum(paper)));
    }
    CHECK(test::goldenDifference(LOOPSIDE_SOURCE_DIR "/tests/practice/data/test_set.txt", lines).empty());
}

TEST_CASE("a run can be folded and judged like any other, up to any moment")
{
    for (int number = 0; number < 40; ++number) {
        const Simulated simulated = practice::simulate(practice::testScenario(number)).value();
        CAPTURE(number);
        const auto run = practice::asRun(simulated);
        CHECK(run.facts.size() == simulated.entries.size());
        const auto standing = run::standingOf(run, simulated.entries.back().at);
        const double target = simulated.setup.target.turnovers->toDouble();
        CHECK_THAT(standing.credit.turnovers.high, Catch::WithinAbs(target, 0.01)); // as a person counts them
        const auto middle = simulated.entries[simulated.entries.size() / 2].at;
        const auto half = practice::asRun(simulated, middle);
        CHECK(half.facts.size() < run.facts.size());
        CHECK(half.facts.back().seen <= middle);
    }
}

TEST_CASE("with true dials the judged loading is the true one")
{
    auto scenario = test::dirty(test::plain(), 30.0, 1);
    scenario.oil.end = 42.0 * celsius;
    for (auto& stage : scenario.setup.stages) {
        stage.cleanAt->density = run::TypedDensity(Decimal(870, 0), *unitNamed<Density>("kg/m³").value());
    }
    scenario.stages[0].clean.at.density = scenario.stages[1].clean.at.density = 870.0 * kilogramPerCubicMetre;
    const Simulated simulated = practice::simulate(scenario).value();
    std::size_t readings = 0;
    for (const practice::Entry& entry : simulated.entries) {
        if (!std::holds_alternative<run::ReadingLogged>(entry.what)) {
            continue;
        }
        const practice::Snapshot& truth = simulated.truth.atReadings.at(readings++);
        if (truth.mode != run::Mode::Filtering) {
            continue;
        }
        const auto run = practice::asRun(simulated, entry.at);
        const auto standing = run::standingOf(run, entry.at);
        // A hundredth of a psi and half a degree: 3 % of viscosity a degree at these temperatures.
        CHECK_THAT(standing.stages.at(0).loading.value(), Catch::WithinRel(truth.loading[0], 0.03));
        CHECK_THAT(standing.stages.at(1).loading.value(), Catch::WithinRel(1.0, 0.03));
    }
    CHECK(readings == simulated.truth.atReadings.size());
    CHECK(simulated.truth.atEnd.loading[0] > 1.5);
}

TEST_CASE("readings come at the times of practice when nobody is late")
{
    const Simulated simulated = practice::simulate(test::plain()).value();
    std::vector<double> minutes;
    for (const practice::Entry& entry : simulated.entries) {
        if (std::holds_alternative<run::ReadingLogged>(entry.what)) {
            minutes.push_back(static_cast<double>(entry.at.count()) / 60000.0);
        }
    }
    // Pump off at 0, started after a minute; then 2, 5, 10, 15, 30, 45, 60 and once a turnover, of 20 min here.
    CHECK(minutes == std::vector<double>{0.0, 3.0, 6.0, 11.0, 16.0, 31.0, 46.0, 61.0, 81.0, 101.0, 121.0});
    CHECK_THAT(simulated.truth.targetAt.in(minute), Catch::WithinAbs(141.0, 1e-6));
    CHECK_THAT(simulated.truth.atEnd.turnovers, Catch::WithinRel(7.0, 1e-6));
}

TEST_CASE("a stage read at its limit is changed, unless told otherwise")
{
    auto scenario = test::dirty(test::plain(), 0.0, 1);
    scenario.tank.ingressMgPerMin.fill(250.0);
    scenario.changesAtLimit = GENERATE(true, false);
    const Simulated simulated = practice::simulate(scenario).value();
    CHECK(simulated.reachedLimit());
    CHECK(simulated.reachedLimit(1));
    CHECK_FALSE(simulated.reachedLimit(2));
    int changes = 0;
    for (const practice::Entry& entry : simulated.entries) {
        changes += std::holds_alternative<run::ElementsChanged>(entry.what) ? 1 : 0;
    }
    CHECK((changes > 0) == scenario.changesAtLimit);
    CHECK(simulated.truth.lives.size() == 2U + static_cast<std::size_t>(changes));
}

TEST_CASE("a fault of the scenario happens at its time")
{
    auto scenario = test::plain();
    scenario.faults = {{{practice::FaultKind::ReturnKinked}, 50.0 * minute}};
    const Simulated simulated = practice::simulate(scenario).value();
    for (const practice::Snapshot& now : simulated.truth.atReadings) {
        if (now.mode == run::Mode::Filtering) {
            CHECK((now.gauges[2] > 15.0 * psi) == (now.at > 50.0 * minute));
        }
    }
}

TEST_CASE("a run without a target in turnovers is not simulated")
{
    auto scenario = test::plain();
    scenario.setup.target = {};
    CHECK_THAT(practice::simulate(scenario).error().sentence, Catch::Contains("target in turnovers"));
}

TEST_CASE("occasions share the place and differ in the day")
{
    const auto first = practice::drawScenario(77);
    const auto second = practice::drawScenario(77, 1);
    CHECK(first.setup.cart == second.setup.cart);
    CHECK(first.setup.tank == second.setup.tank);
    CHECK(first.tank.volume == second.tank.volume);
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK(first.stages[i].law.perGram == second.stages[i].law.perGram);
        CHECK(first.stages[i].clean.total == second.stages[i].clean.total);
        CHECK(first.setup.stages[i].cleanDp == second.setup.stages[i].cleanDp);
        CHECK(first.dials[i].standing == second.dials[i].standing);
    }
    CHECK(first.tank.dirtMgPerL != second.tank.dirtMgPerL);
    CHECK(first.oil.start != second.oil.start);
    CHECK(first.seed != second.seed);
}

TEST_CASE("every drawn scenario can be and can be started, and stays within its table")
{
    for (int number = 0; number < 300; ++number) {
        CAPTURE(number);
        const auto scenario = practice::testScenario(number);
        REQUIRE(checkScenario(scenario).has_value());
        const auto cold = test::running(scenario).truth();
        for (std::size_t i = 0; i < 2; ++i) {
            CHECK(cold.drops[i] <= 0.8 * scenario.setup.stages[i].changeLimit->value());
        }
        CHECK(cold.gauges[0] <= 0.75 * *scenario.pump.relief);
        CHECK(scenario.oil.end >= scenario.oil.start);
        CHECK(scenario.oil.end <= 70.0 * celsius);
        const double turnover = (scenario.setup.tank.volume.value() / scenario.setup.cart.flow.value()).in(minute);
        CHECK(turnover > 2.0);
        CHECK(turnover < 80.0);
    }
}

// Of the first 200 of the test set; all 2000 are counted in the slow test. A share of 0.45 in 200 runs has a standard
// error of 0.035.
TEST_CASE("a sensible share of the runs reaches a limit before the target")
{
    int reached = 0;
    int warmed = 0;
    for (int number = 0; number < 200; ++number) {
        const auto simulated = practice::simulate(practice::testScenario(number)).value();
        reached += simulated.reachedLimit() ? 1 : 0;
        warmed += simulated.truth.atEnd.oil > simulated.truth.atReadings.front().oil + 5.0 * kelvins ? 1 : 0;
    }
    CHECK(reached >= 40);
    CHECK(reached <= 120);
    CHECK(warmed >= 100);
}
