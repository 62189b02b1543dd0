// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a loading that is over teaches, and to whom. Loads are worked out by hand: 400 L at 20 L/min, of the dirt at the
// start (1 − φ)(1 − e^(−k·n))/k + φ·n litres' worth went through in n turnovers, k = 0.7, φ = 0.15 (load_axis.h).

#include "run/learning.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

Setup typedElements()
{
    Setup setup = ordinary();
    setup.stages[0].type = "G10";
    setup.stages[1].type = "G3";
    return setup;
}

double load_l(double minutes)
{
    const double turnovers = minutes / 20.0;
    return 400.0 * (0.85 * (1.0 - std::exp(-0.7 * turnovers)) / 0.7 + 0.15 * turnovers);
}

/// Stage 2 goes from 4 to its limit of 42 psi at 40 min, stage 1 stays at 2 psi.
Walk hungryStage2(Setup setup = typedElements())
{
    Walk walk(std::move(setup));
    walk.filteringAt(0);
    walk.readingAt(2, "10 8 4").readingAt(10, "14 12 4").readingAt(20, "22 20 4").readingAt(30, "34 32 4");
    walk.readingAt(40, "48 46 4").stoppedAt(41);
    return walk;
}

std::vector<LoadingLearned> learnedBy(const Walk& walk)
{
    std::vector<LoadingLearned> all;
    for (const Decided& decided : walk.decided()) {
        if (const auto* learned = std::get_if<LoadingLearned>(&decided.event)) {
            all.push_back(*learned);
        }
    }
    return all;
}

/// What the second run of `walk`, opened with `setup`, may learn from.
std::vector<LoadingLearned> pastOfNext(Walk walk, const Setup& setup)
{
    walk.openRunAt(200, 9, setup);
    return std::get<RunOpened>(walk.decided().front().event).learned;
}

} // namespace

TEST_CASE("a loading that reached its limit teaches its curve once its elements are changed")
{
    const Walk walk = hungryStage2().changeoverAt(45, 2, 2);
    const auto learned = learnedBy(walk);
    REQUIRE(learned.size() == 1);
    CHECK(learned[0].stage == 2);
    CHECK(learned[0].number == 1);
    CHECK(learned[0].tank == "T1");
    CHECK(learned[0].elementType == "G3");
    CHECK_FALSE(learned[0].isCutShort);
    CHECK(learned[0].end_l == Approx(load_l(40)).epsilon(1e-5));
    REQUIRE(learned[0].curve.size() == 5);
    CHECK(learned[0].curve[1].load_l == Approx(load_l(10)).epsilon(1e-5));
    CHECK(learned[0].curve.back().drop_pa == Approx(42 * 6894.757).epsilon(0.01)); // 46 cSt: corrected is raw
    CHECK(learned[0].limit_pa == learned[0].curve.back().drop_pa);
}

TEST_CASE("what is in when a run closes teaches that its life is longer")
{
    const Walk walk = hungryStage2().closeAt(42);
    const auto learned = learnedBy(walk);
    REQUIRE(learned.size() == 2);
    CHECK(learned[0].stage == 1);
    CHECK(learned[0].isCutShort);
    CHECK(learned[0].end_l == Approx(load_l(41)).epsilon(1e-5)); // it filtered a minute more than was read
    CHECK(learned[1].stage == 2);
    CHECK_FALSE(learned[1].isCutShort);
}

TEST_CASE("nothing is learned where the evidence is none")
{
    SECTION("from a practice run")
    {
        Setup setup = typedElements();
        setup.isPractice = true;
        CHECK(learnedBy(hungryStage2(setup).closeAt(42)).empty());
    }
    SECTION("from half a pair")
    {
        Walk walk = hungryStage2().changeoverAt(45, 2, 1).filteringAt(46);
        walk.readingAt(48, "14 12 4").readingAt(55, "18 16 4").readingAt(60, "24 22 4").changeoverAt(62, 2, 2);
        CHECK(learnedBy(walk).empty());
    }
    SECTION("from fewer than three sets, or sets seen earlier than entered")
    {
        Walk walk(typedElements());
        walk.filteringAt(0).readingAt(2, "10 8 4").readingAt(10, "12 10 4");
        for (const double minute : {22.0, 32.0}) {
            walk.readingSeenEarlierAt(minute, 2, "14 12 4");
        }
        CHECK(learnedBy(walk.closeAt(40)).empty());
    }
}

TEST_CASE("elements that had caught something before are marked, told or shown")
{
    Setup told = typedElements();
    told.stages[0].loaded = number("1.5");
    const auto byWord = learnedBy(hungryStage2(told).closeAt(42));
    REQUIRE(byWord.size() == 2);
    CHECK(byWord[0].isUsed);
    CHECK_FALSE(byWord[1].isUsed);

    Walk shown(typedElements());
    shown.filteringAt(0).readingAt(2, "16 12 4").readingAt(10, "18 14 4").readingAt(20, "20 16 4");
    const auto bySight = learnedBy(shown.closeAt(21)); // 4 psi against 2, 8 against 4
    REQUIRE(bySight.size() == 2);
    CHECK(bySight[0].isUsed);
    CHECK(bySight[1].isUsed);
}

TEST_CASE("an amendment teaches anew, and takes back what has lost its ground")
{
    Walk walk(typedElements());
    walk.filteringAt(0).readingAt(2, "10 8 4").readingAt(10, "14 12 4").readingAt(20, "22 20 4");
    walk.readingAt(30, "30 28 4");
    const Id lastSet = walk.last();
    walk.stoppedAt(31).changeoverAt(35, 2, 2);
    const Id changeover = walk.last();
    REQUIRE(learnedBy(walk).size() == 1);
    CHECK(learnedBy(walk)[0].isCutShort);

    walk.amendAt(40, lastSet, "48 46 4"); // it had been at the limit
    REQUIRE(learnedBy(walk).size() == 1);
    CHECK_FALSE(learnedBy(walk)[0].isCutShort);
    CHECK(walk.run().taught.size() == 1);

    walk.strikeAt(41, changeover); // nobody changed anything
    REQUIRE(learnedBy(walk).size() == 1);
    CHECK(learnedBy(walk)[0].isWithdrawn);
    CHECK(pastOfNext(walk, typedElements()).empty());
}

TEST_CASE("a run is opened with the nearest kin first, and with nothing that is none")
{
    const Walk walk = hungryStage2().closeAt(42);
    SECTION("the same elements on the same tank")
    {
        const auto past = pastOfNext(walk, typedElements());
        REQUIRE(past.size() == 2);
        const auto kin = pastLoadings(past, {"T1", "G3", "particle"});
        REQUIRE(kin.size() == 2);
        CHECK(kin[0].kinship == forecast::Kinship::SameKind); // the other stage's elements: a hint
        CHECK(kin[1].kinship == forecast::Kinship::SameTank);
    }
    SECTION("the same elements elsewhere")
    {
        Setup other = typedElements();
        other.tank.name = "T2";
        const auto kin = pastLoadings(pastOfNext(walk, other), {"T2", "G3", "particle"});
        REQUIRE(kin.size() == 2);
        CHECK(kin[1].kinship == forecast::Kinship::SameType);
    }
    SECTION("elements whose type nobody knows learn by their kind at most")
    {
        for (const auto& one : pastLoadings(pastOfNext(walk, ordinary()), {"T1", "", "particle"})) {
            CHECK(one.kinship == forecast::Kinship::SameKind);
        }
    }
    SECTION("another kind")
    {
        Setup other = typedElements();
        for (StageRecord& stage : other.stages) {
            stage.type = "W1";
            stage.kind = "water";
        }
        CHECK(pastOfNext(walk, other).empty());
    }
}

TEST_CASE("what a run may learn from stays as it was when it was opened")
{
    Walk walk = hungryStage2();
    walk.openRunAt(41, 9, typedElements());
    walk.changeoverAt(45, 2, 2);
    REQUIRE(walk.run().taught.size() == 1);
    for (const auto& [id, run] : walk.state().runs) {
        CHECK(run.past.empty()); // both were opened before anything was taught
    }
}

TEST_CASE("a long loading is thinned, its first and last point stay")
{
    Walk walk(typedElements());
    walk.filteringAt(0);
    for (int i = 0; i < 60; ++i) {
        walk.readingAt(2 + i, std::to_string(10 + i / 3) + " " + std::to_string(8 + i / 3) + " 4");
    }
    walk.closeAt(63);
    const auto learned = learnedBy(walk);
    REQUIRE(learned.size() == 2);
    REQUIRE(learned[1].curve.size() == curvePointsMost);
    CHECK(learned[1].curve.front().load_l == Approx(load_l(2)).epsilon(1e-5));
    CHECK(learned[1].curve.back().load_l == Approx(load_l(61)).epsilon(1e-5));
}
