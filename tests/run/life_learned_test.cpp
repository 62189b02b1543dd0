// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How long elements last by those before them. Loads of a run are worked out as in learning_test.cpp.

#include "run/life_learned.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

std::vector<ElementLife> lives(std::initializer_list<double> litres)
{
    std::vector<ElementLife> all;
    for (const double one : litres) {
        all.push_back({"G3", one, false});
    }
    return all;
}

double width(const LifeLearned& learned)
{
    return std::log(learned.litres->high / learned.litres->low);
}

std::vector<LoadingLearned> pastOf(std::initializer_list<double> litres, const std::string& tank = "T1")
{
    std::vector<LoadingLearned> past;
    for (const double one : litres) {
        past.push_back({.stage = 2, .tank = tank, .elementType = "G3", .kind = "particle", .end_l = one});
    }
    return past;
}

/// Stage 2 goes from 4 psi to its limit of 42 psi at 40 min, with 400 L worth of dirt at 30 min and 486 L at 40 min.
Walk hungryStage2(const std::vector<LoadingLearned>& past, bool isRunToLimit)
{
    Setup setup = ordinary();
    setup.stages[1].type = "G3";
    Walk walk(setup, past);
    walk.filteringAt(0);
    walk.readingAt(2, "10 8 4").readingAt(10, "14 12 4").readingAt(20, "22 20 4").readingAt(30, "34 32 4");
    if (isRunToLimit) {
        walk.readingAt(40, "48 46 4");
    }
    return walk;
}

/// "element-life-long 2", or nothing.
std::string lifeFound(const std::vector<LoadingLearned>& past, bool isRunToLimit)
{
    const Walk walk = hungryStage2(past, isRunToLimit);
    for (const Finding& finding : walk.standingAt(isRunToLimit ? 40 : 30).findings) {
        if (finding.id.starts_with("element-life")) {
            return std::string(finding.id) + " " + std::to_string(finding.stage.value_or(0));
        }
    }
    return {};
}

} // namespace

TEST_CASE("without a whole life nothing is told of the next")
{
    CHECK_FALSE(lifeLearned({}).litres);
    const std::vector<ElementLife> cut = {{"G3", 800.0, true}, {"G3", 900.0, true}};
    CHECK_FALSE(lifeLearned(cut).litres);
    CHECK(lifeLearned(cut).cutShort == 2);
}

TEST_CASE("one life leaves a wide band about it, many alike a narrow one")
{
    const LifeLearned one = lifeLearned(lives({800.0}));
    REQUIRE(one.litres);
    CHECK_THAT(one.litres->best, Catch::WithinRel(800.0, 0.1));
    CHECK(width(one) > std::log(4.0));
    double before = width(one);
    std::vector<ElementLife> more = lives({800.0});
    for (int pairs = 1; pairs <= 16; pairs *= 2) { // each about 800 L, a tenth either way
        for (int i = 0; i < pairs; ++i) {
            more.push_back({"G3", 720.0, false});
            more.push_back({"G3", 800.0 * 800.0 / 720.0, false});
        }
        const LifeLearned learned = lifeLearned(more);
        CHECK(learned.whole == static_cast<int>(more.size()));
        CHECK(width(learned) < before);
        CHECK_THAT(learned.litres->best, Catch::WithinRel(800.0, 0.03));
        before = width(learned);
    }
}

TEST_CASE("of many lives the band is the one that they were drawn from")
{
    // Evenly spaced quantiles of a normal distribution of ln(life), mean ln 600, standard deviation 0.3: of the next
    // life 90 % lie within exp(±1.645·0.3), a little more because mean and spread are learned.
    std::vector<ElementLife> drawn;
    constexpr int count = 60;
    for (int i = 0; i < count; ++i) {
        drawn.push_back({"G3", 600.0 * std::exp(0.3 * asDeviates((i + 0.5) / count)), false});
    }
    const LifeLearned learned = lifeLearned(drawn);
    CHECK_THAT(learned.litres->best, Catch::WithinRel(600.0, 0.02));
    CHECK_THAT(learned.litres->low, Catch::WithinRel(600.0 * std::exp(-1.645 * 0.3), 0.06));
    CHECK_THAT(learned.litres->high, Catch::WithinRel(600.0 * std::exp(1.645 * 0.3), 0.06));
}

TEST_CASE("lives that were cut short lengthen what is expected, and those of nothing are left out")
{
    std::vector<ElementLife> some = lives({500.0, 600.0, 550.0});
    const double before = lifeLearned(some).litres->best;
    some.push_back({"G3", 900.0, true});
    CHECK(lifeLearned(some).litres->best > before * 1.05);
    some.push_back({"G3", 0.0, false});
    CHECK(lifeLearned(some).whole == 3);
    some.back() = {"G3", 50.0, true}; // says next to nothing: all others lasted longer
    CHECK_THAT(lifeLearned(some).litres->best, Catch::WithinRel(lifeLearned({some.data(), 4}).litres->best, 0.01));
}

TEST_CASE("how ΔP rises is learned from the lives whose middle is known")
{
    std::vector<ElementLife> some = lives({800.0, 700.0, 900.0});
    CHECK_FALSE(lifeLearned(some).halfWay.has_value());
    some[0].halfWay = 0.35;
    const LifeLearned one = lifeLearned(some);
    CHECK(one.shapes == 1);
    REQUIRE(one.halfWay);
    some[1].halfWay = 0.4;
    some[2].halfWay = 0.3;
    const LifeLearned three = lifeLearned(some);
    CHECK(three.shapes == 3);
    CHECK(three.halfWay->low < 0.35);
    CHECK(three.halfWay->high > 0.35);
    CHECK(three.halfWay->high / three.halfWay->low < one.halfWay->high / one.halfWay->low);
}

TEST_CASE("a stage at its limit much sooner than ever before is told, one as ever is not")
{
    CHECK(lifeFound(pastOf({2000, 2100, 1900, 2050}), true) == "element-life-short 2");
    CHECK(lifeFound(pastOf({480, 500, 450, 520}), true).empty());
    CHECK(lifeFound(pastOf({2000, 2100, 1900, 2050}), false).empty()); // not at its limit yet
}

TEST_CASE("elements that last much longer than ever before are suspicious")
{
    const auto many = pastOf({130, 140, 125, 135, 130, 140, 125, 135, 130, 140, 125, 135});
    CHECK(lifeFound(many, false) == "element-life-long 2");
    CHECK(lifeFound(pastOf({130, 140, 125, 135}), false).empty()); // three times as long, but by four lives only
    CHECK(lifeFound(pastOf({400, 410, 390, 420}), false).empty());
    const Walk walk = hungryStage2(many, false);
    const auto findings = walk.standingAt(30).findings;
    const auto found = std::find_if(findings.begin(), findings.end(),
                                    [](const Finding& finding) { return finding.id == "element-life-long"; });
    REQUIRE(found != findings.end());
    CHECK(found->level == FindingLevel::Caution);
    CHECK(found->because.front().id == "because.life-history");
    const auto& values = found->because.front().arguments;
    CHECK(std::find(values.begin(), values.end(), Message::Argument("runs", "12")) != values.end());
}

TEST_CASE("too few lives, lives of another tank and used elements are no history to hold elements against")
{
    CHECK(lifeFound(pastOf({30, 31}), false).empty());
    CHECK(lifeFound(pastOf({30, 31, 29, 30}), false) == "element-life-long 2"); // what is missing in the others
    CHECK(lifeFound(pastOf({30, 31, 29, 30}, "T2"), false).empty());
    auto used = pastOf({30, 31, 29, 30});
    for (LoadingLearned& one : used) {
        one.isUsed = true;
    }
    CHECK(lifeFound(used, false).empty());
}
