// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The shares of docs/findings.md must not get worse unnoticed: each floor is what was measured, rounded down. They are
// no aim; the aim is 95 % of the variants right, and fewer than 1 false caution in 100 sets of normal stories.
//
// f01, f08b, f09, f11 and f16 were at 82, 40, 89, 40 and 89 before false cautions were made four times rarer (10.1 in
// 100 sets of normal stories then): what is gained there was lost here, and is to be won back.

#include "stories_at_hand.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::evaluation;
using namespace loopside::test;

TEST_CASE("under noise the named stories stay right in no smaller a share than was measured")
{
    const auto [name, rightPercentFloor] = GENERATE(table<std::string, double>({
        {"f01_", 77.0},
        {"f03_", 95.0},
        {"f06_", 94.0},
        {"f07_", 75.0},
        {"f08b_", 19.0},
        {"f09_", 70.0},
        {"f10_", 38.0},
        {"f11_", 37.0},
        {"f16_", 61.0},
    }));
    const NoiseScore score = noiseOf(caseOf(name), 200).value();
    CAPTURE(name, score.rightPercent());
    CHECK(score.rightPercent() >= rightPercentFloor);
}

TEST_CASE("under noise normal stories are alarmed about in no more sets than was measured")
{
    constexpr double untruePer100Ceiling = 3.0; // 2.34 with 200 variants of each
    int sets = 0;
    int untrue = 0;
    for (const StoryCase& one : casesAtHand()) {
        if (one.isNormal) {
            const NoiseScore score = noiseOf(one, 20).value();
            sets += score.sets;
            untrue += score.untrue;
        }
    }
    CAPTURE(sets, untrue);
    CHECK(100.0 * untrue / sets <= untruePer100Ceiling);
}
