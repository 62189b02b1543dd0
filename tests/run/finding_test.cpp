// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The diagnosis on walks of a few sets. Each pattern and its near miss stand in tests/stories (p_…); here is what a
// story cannot show: the table itself, missing data, order, time and held sets.

#include "run/judge.h"
#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

Walk& read(Walk& walk, double minute, std::string_view set, std::string_view oil = "10 C")
{
    ReadingLogged reading = gauges(set);
    reading.oil = oil.empty() ? std::nullopt : std::optional(typed<units::Temperature>(oil));
    return walk.sayAt(minute, reading);
}

std::vector<std::string> found(const Walk& walk, double minute)
{
    std::vector<std::string> ids;
    const Standing standing = walk.standingAt(minute);
    for (const Finding& finding : standing.findings) {
        ids.push_back(std::string(finding.id) + (finding.stage ? " " + std::to_string(*finding.stage) : ""));
    }
    return ids;
}

bool has(const Walk& walk, double minute, std::string_view id)
{
    const auto ids = found(walk, minute);
    return std::find(ids.begin(), ids.end(), id) != ids.end();
}

Finding findingOf(const Walk& walk, double minute, std::string_view id)
{
    const Standing standing = walk.standingAt(minute);
    const auto at = std::find_if(standing.findings.begin(), standing.findings.end(),
                                 [&](const Finding& finding) { return finding.id == id; });
    REQUIRE(at != standing.findings.end());
    return *at;
}

/// Sets at 2, 10 and 20 min of a steady run with new elements: at 10 °C they take 11 and 23 psi of this oil.
Walk steady(std::string_view oil = "10 C")
{
    Walk walk(ordinary());
    walk.filteringAt(0);
    for (const double minute : {2.0, 10.0, 20.0}) {
        read(walk, minute, "44 33 10", oil);
    }
    return walk;
}

} // namespace

TEST_CASE("every pattern is of a known finding, asks for something, and excludes only findings")
{
    std::set<std::string_view> ids;
    for (const Pattern& pattern : patterns()) {
        CAPTURE(pattern.id);
        ids.insert(pattern.id);
        CHECK(isFinding(pattern.id));
        REQUIRE(pattern.needs[0].clue != nullptr);
        CHECK(std::any_of(pattern.needs.begin(), pattern.needs.end(),
                          [](const Need& need) { return need.clue != nullptr && need.least > even; }));
        for (const std::string_view excluded : pattern.excludes) {
            CHECK((excluded.empty() || isFinding(excluded)));
            CHECK(excluded != pattern.id);
        }
    }
    CHECK(ids.size() >= 30);
}

TEST_CASE("what a pattern rules out does not contradict its reasons")
{
    // ruled-out.flow says that the last gauge did not fall, ruled-out.elements that several things changed together.
    for (const Pattern& pattern : patterns()) {
        CAPTURE(pattern.id);
        for (const Need& need : pattern.needs) {
            if (need.clue == &clue::headGone || need.clue == &clue::headLow) {
                CHECK(std::ranges::find(pattern.ruledOut, "flow") == pattern.ruledOut.end());
            }
            if (need.clue == &clue::filtersKept) {
                CHECK(std::ranges::find(pattern.ruledOut, "elements") == pattern.ruledOut.end());
            }
        }
    }
}

TEST_CASE("a steady run has nothing to say")
{
    const Walk walk = steady();
    CAPTURE(found(walk, 20));
    CHECK(found(walk, 20).empty());
}

TEST_CASE("rounding of a dial alone never says anything")
{
    // Every gauge one division up or down in turn: what a reader may do without the oil doing anything.
    Walk walk = steady();
    double minute = 30.0;
    for (const char* set :
         {"45 33 10", "44 34 10", "44 33 11", "43 33 10", "44 32 10", "44 33 9", "45 32 10", "43 34 9"}) {
        read(walk, minute, set);
        CAPTURE(set, found(walk, minute));
        CHECK(found(walk, minute).empty());
        minute += 10.0;
    }
}

TEST_CASE("a finding dates from the first set of an unbroken row")
{
    Walk walk = steady();
    read(walk, 30, "36 33 10"); // stage 1 fell from 11 to 3 psi
    read(walk, 32, "44 33 10");
    read(walk, 40, "36 33 10");
    read(walk, 50, "36 33 10");
    CHECK(findingOf(walk, 50, "stage-torn-or-bypassed").since == std::chrono::minutes(40));
}

TEST_CASE("a torn stage stays torn until its elements are changed")
{
    Walk walk = steady();
    read(walk, 30, "23 12 10"); // stage 2 fell from 23 to 2 psi
    CHECK(has(walk, 30, "stage-torn-or-bypassed 2"));
    CHECK_FALSE(has(walk, 30, "stage-torn-or-bypassed 1"));
    read(walk, 60, "23 12 10");
    CHECK(has(walk, 60, "stage-torn-or-bypassed 2"));
    walk.stoppedAt(61);
    CHECK(has(walk, 61, "stage-torn-or-bypassed 2"));
    walk.changeoverAt(65, 2, 2);
    CHECK_FALSE(has(walk, 65, "stage-torn-or-bypassed 2"));
}

TEST_CASE("no flow is over when the pump is stopped")
{
    Walk walk = steady();
    read(walk, 30, "1 1 1");
    CHECK(found(walk, 30) == std::vector<std::string>{"no-flow"});
    walk.stoppedAt(31);
    CHECK(found(walk, 31).empty());
}

TEST_CASE("a set in bypass mode and a set that a question holds back drive no diagnosis")
{
    Walk walk = steady();
    walk.bypassingAt(25);
    read(walk, 30, "11 11 10");
    CHECK(found(walk, 30).empty());
    walk.filteringAt(35);
    read(walk, 40, "300 33 10"); // beyond the dial: a question about typing
    CHECK(found(walk, 40).empty());
}

TEST_CASE("without a temperature the confidence is low where oil might explain it")
{
    Walk walk = steady("");
    read(walk, 30, "74 63 40", "");
    CHECK(findingOf(walk, 30, "return-restricted").confidence == Confidence::Low);
    Walk warm = steady();
    read(warm, 30, "74 63 40");
    CHECK(findingOf(warm, 30, "return-restricted").confidence == Confidence::High);
}

TEST_CASE("a last gauge below about 3 psi allows no high confidence to what leans on it")
{
    Walk walk(ordinary());
    walk.filteringAt(0);
    read(walk, 2, "37 26 3");
    read(walk, 10, "37 26 3");
    read(walk, 20, "5 4 3");
    CHECK(findingOf(walk, 20, "valve-in-bypass").confidence <= Confidence::Medium);
}

TEST_CASE("a gauge that could not be read takes away what hung on it, and nothing else")
{
    Walk walk = steady();
    read(walk, 30, "23 12 -");
    CHECK_FALSE(has(walk, 30, "stage-torn-or-bypassed 2"));
    read(walk, 40, "74 63 40");
    CHECK(has(walk, 40, "return-restricted"));
}

TEST_CASE("a cart without described dials, oil or elements is judged without a crash and says less")
{
    Setup bare = ordinary();
    for (GaugeRecord& gauge : bare.cart.gauges) {
        gauge.span = {};
        gauge.graduation = {};
        gauge.grade.clear();
    }
    bare.cart.staticHead = {};
    bare.tank.fluid = {};
    Walk walk(bare);
    walk.filteringAt(0);
    read(walk, 2, "44 33 10", "");
    read(walk, 10, "23 12 10", "");
    CHECK_FALSE(has(walk, 10, "warming"));
    CHECK_FALSE(has(walk, 10, "stage-loading 1"));
}

TEST_CASE("findings are told stop first, then by confidence, the table's order last")
{
    std::vector<Finding> findings = {{.id = "warming", .level = FindingLevel::Note, .confidence = Confidence::High},
                                     {.id = "cold-oil", .level = FindingLevel::Caution, .confidence = Confidence::Low},
                                     {.id = "aerated", .level = FindingLevel::Caution, .confidence = Confidence::High},
                                     {.id = "no-flow", .level = FindingLevel::Stop, .confidence = Confidence::Low},
                                     {.id = "cooling", .level = FindingLevel::Note, .confidence = Confidence::High}};
    rank(findings);
    std::vector<std::string_view> order;
    for (const Finding& finding : findings) {
        order.push_back(finding.id);
    }
    CHECK(order == std::vector<std::string_view>{"no-flow", "aerated", "cold-oil", "warming", "cooling"});
}

TEST_CASE("a forecast that puts the limit before the next reading is a limit that is near")
{
    const Walk walk = steady();
    const Standing standing = walk.standingAt(20);
    const std::vector<std::optional<double>> chances = {0.2, 0.5};
    const auto findings = findingsOf(walk.run(), standing.moments, standing.diagnosis, standing.credit.turnovers,
                                     chances);
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].id == "stage-near-limit");
    CHECK(findings[0].stage == 2);
}

TEST_CASE("a doubtful stretch lowers the low end, and the best value too once somebody says that it was so")
{
    // 400 L at 20 L/min is a turnover in 20 min: sets at 2, 5, 10, 15, 30 (bypass) and 45 min. From 15 to 45 min is in
    // doubt: 1.5 turnovers of 2.25.
    Walk walk(ordinary());
    walk.filteringAt(0);
    for (const double minute : {2.0, 5.0, 10.0, 15.0}) {
        read(walk, minute, "44 33 10");
    }
    read(walk, 30, "12 11 10");
    const Id bypassed = walk.last();
    CHECK(has(walk, 30, "valve-in-bypass"));
    read(walk, 45, "44 33 10");
    const TurnoverBand doubted = walk.standingAt(45).credit.turnovers;
    CHECK_THAT(doubted.low, Catch::WithinAbs(0.75, 1e-9));
    CHECK_THAT(doubted.best, Catch::WithinAbs(2.25, 1e-9));
    walk.answerAt(46, "valve-in-bypass", bypassed, "yes");
    CHECK_THAT(walk.standingAt(46).credit.turnovers.best, Catch::WithinAbs(0.8, 1e-9)); // and the minute since
    walk.answerAt(47, "valve-in-bypass", bypassed, "no");
    CHECK_THAT(walk.standingAt(47).credit.turnovers.best, Catch::WithinAbs(2.35, 1e-9));
}

TEST_CASE("lost flow lowers the low end by its share alone")
{
    Walk walk(ordinary());
    walk.filteringAt(0);
    for (const double minute : {2.0, 5.0, 10.0, 15.0}) {
        read(walk, minute, "44 33 11");
    }
    read(walk, 30, "27 20 7"); // 40 % less of each loss, the same oil
    CHECK(has(walk, 30, "flow-falling"));
    const TurnoverBand band = walk.standingAt(30).credit.turnovers;
    CHECK_THAT(band.best, Catch::WithinAbs(1.5, 1e-9));
    CHECK_THAT(band.low, Catch::WithinAbs(0.75 + 0.75 * 0.6, 0.02)); // 26/43, within the rounding of the dials
}
