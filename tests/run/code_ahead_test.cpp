// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Held against worked points of the mixed tank, C(n) = F + (C₀ − F)·e^(−k·n), computed here; the model itself is
// checked against published tables in tests/filtration/clean_up_test.cpp.

#include "run/code_ahead.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using Catch::WithinAbs;
using Catch::WithinRel;
using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

/// 400 L at 20 L/min, mixing 0.8; read every quarter of an hour, a bottle of the tank at each of `drawn` with counts
/// of `perMl` at 4 µm(c) alone.
Walk walked(const std::vector<std::pair<int, double>>& drawn, int until, const std::string& target = "15/-/-",
            const PlaceLearned& place = {})
{
    Setup setup = withTarget(ordinary(), "12", target);
    setup.tank.mixing = number("0.8");
    Walk walk(setup, {}, place);
    walk.filteringAt(0);
    for (int minute = 0; minute <= until; minute += 5) {
        if (minute == 5 || minute % 15 == 0) {
            walk.readingAt(minute + 0.1, "17 13 5");
        }
        const auto bottle = std::find_if(drawn.begin(), drawn.end(),
                                         [&](const auto& one) { return one.first == minute; });
        if (bottle != drawn.end()) {
            const std::string id = "B" + std::to_string(minute);
            const Decimal count = number(std::to_string(std::lround(bottle->second)));
            walk.sayAt(minute + 0.2, SampleDrawn{id, 1});
            walk.sayAt(minute + 0.3,
                       ResultEntered{.sample = id, .code = {}, .countsPerMl = {count}, .water = {}, .viscosity = {}});
        }
    }
    return walk;
}

std::optional<CodeAhead> aheadOf(const Walk& walk, double minute)
{
    return codeAheadOf(walk.run(), walk.standingAt(minute));
}

bool tells(const Walk& walk, double minute, const std::string& id)
{
    const auto told = tellCodeAhead(*aheadOf(walk, minute), walk.run());
    return std::any_of(told.begin(), told.end(), [&](const Message& message) { return message.id == id; });
}

} // namespace

TEST_CASE("without a count nothing is said of the code")
{
    CHECK_FALSE(aheadOf(walked({}, 60), 60.2));
}

/// 90 % of what two tests of one oil differ by, as a logarithm: 1.645 · ln 2/2.
constexpr double scatter = 0.57006;

TEST_CASE("with one count the model runs on, with a quarter of the mixing either way and the scatter of a test")
{
    const Walk walk = walked({{0, 10000.0}}, 60);
    const auto ahead = aheadOf(walk, 60.1);
    REQUIRE(ahead);
    REQUIRE(ahead->sizes.size() == 1);
    const SizeAhead& size = ahead->sizes.front();
    const double since = walk.standingAt(60.1).credit.turnovers.best - 0.2 / 20.0;
    CHECK_THAT(since, WithinAbs(3.0, 0.01)); // an hour of 20 min each
    CHECK_THAT(size.nowPerMl.best, WithinRel(10000.0 * std::exp(-0.8 * since), 1e-6));
    const double off = std::hypot(scatter, 0.2 * since);
    CHECK_THAT(size.nowPerMl.low, WithinRel(10000.0 * std::exp(-0.8 * since - off), 1e-4));
    CHECK_THAT(size.nowPerMl.high, WithinRel(10000.0 * std::exp(-0.8 * since + off), 1e-4));
    // 15 allows 320 per mL: ln(10000/320)/0.8 = 4.303 turnovers from the bottle
    REQUIRE(ahead->toTarget);
    CHECK_THAT(ahead->toTarget->best.value(), WithinAbs(4.303 - since, 0.002));
    const double ofCount = scatter / 0.8;
    CHECK_THAT(ahead->toTarget->low.value(), WithinAbs(4.303 - std::hypot(ofCount, 4.303 - 3.442) - since, 0.002));
    CHECK_THAT(ahead->toTarget->high.value(), WithinAbs(4.303 + std::hypot(ofCount, 5.737 - 4.303) - since, 0.002));
    CHECK(ahead->nowBest->at4().number() == 16);   // 397
    CHECK(ahead->nowMiddle->at4().number() == 17); // 907
    CHECK(ahead->nowWorst->at4().number() == 18);  // 2074
    CHECK_FALSE(ahead->isAtFloor());
    CHECK(tells(walk, 60.1, "code-ahead.now-model"));
    CHECK(tells(walk, 60.1, "code-ahead.way"));
    CHECK_FALSE(tells(walk, 60.1, "code-ahead.floor"));
}

TEST_CASE("a bottle that was counted just now leaves the scatter of its test")
{
    const auto ahead = aheadOf(walked({{0, 10000.0}}, 0), 0.4);
    REQUIRE(ahead);
    CHECK_THAT(ahead->sizes.front().nowPerMl.low, WithinRel(10000.0 * std::exp(-scatter), 0.02));
    CHECK_THAT(ahead->sizes.front().nowPerMl.high, WithinRel(10000.0 * std::exp(scatter), 0.02));
    CHECK(ahead->nowBest->at4().number() < ahead->nowWorst->at4().number());
}

TEST_CASE("how the tank mixed in runs before takes the place of what was told, until this run is counted twice")
{
    PlaceLearned place;
    place.mixing = MixingLearned{{0.3, 0.4, 0.5}, 0.8, 6};
    const Walk walk = walked({{0, 10000.0}}, 60, "15/-/-", place);
    const auto ahead = aheadOf(walk, 60.1);
    REQUIRE(ahead);
    const double since = walk.standingAt(60.1).credit.turnovers.best - 0.2 / 20.0;
    CHECK_THAT(ahead->sizes.front().nowPerMl.best, WithinRel(10000.0 * std::exp(-0.4 * since), 1e-6));
    CHECK(tells(walk, 60.1, "code-ahead.now-taught"));
    CHECK_FALSE(tells(walk, 60.1, "code-ahead.now-model"));
    std::vector<std::pair<int, double>> drawn;
    for (int i = 0; i < 5; ++i) {
        drawn.emplace_back(30 * i, 20000.0 * std::exp(-0.8 * 1.5 * i));
    }
    CHECK(tells(walked(drawn, 120, "13/-/-", place), 120.4, "code-ahead.now-counted"));
}

TEST_CASE("what got in between runs before may bar a target that one count is far from")
{
    PlaceLearned place;
    place.ingress[0] = IngressLearned{{72.0 * 300.0, 72.0 * 400.0, 72.0 * 500.0}, 3}; // a floor of 500 at k = 0.8
    const Walk walk = walked({{0, 10000.0}}, 60, "15/-/-", place);                    // 320 at most
    const auto ahead = aheadOf(walk, 60.1);
    REQUIRE(ahead);
    REQUIRE(ahead->sizes.front().floorPerMl);
    CHECK_THAT(ahead->sizes.front().floorPerMl->best, WithinRel(500.0, 1e-6));
    CHECK_FALSE(ahead->toTarget->best.has_value());
    CHECK(ahead->toTarget->neverShare > 0.95);
    CHECK(tells(walk, 60.1, "code-ahead.never-taught"));
}

TEST_CASE("counts of the run take the place of the mixing that was told")
{
    // true k 0.4 at C₀ 20 000, no floor: 20 000·e^(−0.4·n) every turnover and a half
    std::vector<std::pair<int, double>> drawn;
    for (int i = 0; i < 5; ++i) {
        drawn.emplace_back(30 * i, 20000.0 * std::exp(-0.4 * 1.5 * i));
    }
    const Walk walk = walked(drawn, 120);
    const auto ahead = aheadOf(walk, 120.4);
    REQUIRE(ahead);
    const SizeAhead& size = ahead->sizes.front();
    CHECK(size.counts == 5);
    const double truth = 20000.0 * std::exp(-0.4 * 6.0);
    CHECK(size.nowPerMl.low < truth);
    CHECK(size.nowPerMl.high > truth);
    CHECK(size.nowPerMl.low > truth / 3.0);
    CHECK(tells(walk, 120.4, "code-ahead.now-counted"));
}

TEST_CASE("at the floor three more hours buy less than one code")
{
    // floor 1500 per mL, k 0.8: flat from the fourth turnover on; the target of 320 is never reached
    std::vector<std::pair<int, double>> drawn;
    for (int i = 0; i < 9; ++i) {
        drawn.emplace_back(30 * i, 1500.0 + 18500.0 * std::exp(-0.8 * 1.5 * i));
    }
    const Walk walk = walked(drawn, 240);
    const auto ahead = aheadOf(walk, 240.4);
    REQUIRE(ahead);
    CHECK(ahead->isAtFloor());
    CHECK(ahead->sizes.front().codesMore < 1.0);
    REQUIRE(ahead->sizes.front().floorPerMl);
    CHECK(ahead->sizes.front().floorPerMl->low < 1500.0);
    CHECK(ahead->sizes.front().floorPerMl->high > 1500.0);
    REQUIRE(ahead->toTarget);
    CHECK(ahead->toTarget->neverShare > 0.9);
    CHECK(tells(walk, 240.4, "code-ahead.floor"));
    CHECK(tells(walk, 240.4, "code-ahead.never"));
}

TEST_CASE("a size that the target asks for and nobody counted leaves the way untold")
{
    const auto ahead = aheadOf(walked({{0, 10000.0}}, 60, "15/13/10"), 60.1);
    REQUIRE(ahead);
    CHECK_FALSE(ahead->toTarget);
}

TEST_CASE("a bottle drawn at rest or behind the filters tells nothing of what is ahead")
{
    Walk walk(ordinary());
    walk.sayAt(0, SampleDrawn{"B0", 1}).filteringAt(1).readingAt(3, "17 13 5").sayAt(4, SampleDrawn{"OUT", 3});
    walk.sayAt(5, ResultEntered{.sample = "B0", .code = "20/18/15", .water = {}, .viscosity = {}});
    walk.sayAt(6, ResultEntered{.sample = "OUT", .code = "14/12/9", .water = {}, .viscosity = {}});
    CHECK_FALSE(aheadOf(walk, 7));
}
