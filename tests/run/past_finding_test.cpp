// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How new elements begin, by those before them on the same dials. Lives: life_learned_test.cpp. The cart of `ordinary`
// has a clean ΔP of 4 psi (27 579 Pa) in stage 2 at the grade of its oil at 40 °C, which is what the walk reads.

#include "run/past_finding.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

constexpr double psi_pa = 6894.757;

PlaceLearned knowing(double low_psi, double best_psi, double high_psi, int sets)
{
    PlaceLearned place;
    place.clean = {CleanLearned{},
                   CleanLearned{filtration::Band{low_psi * psi_pa, best_psi * psi_pa, high_psi * psi_pa}, sets}};
    return place;
}

Setup named()
{
    Setup setup = ordinary();
    setup.stages[1].type = "G3";
    return setup;
}

/// "clean-dp-low 2", or nothing, after three sets in which stage 2 shows `drop` psi.
std::string cleanFound(const PlaceLearned& place, int drop, const Setup& setup = named())
{
    Walk walk(setup, {}, place);
    const std::string set = std::to_string(6 + drop) + " " + std::to_string(4 + drop) + " 4";
    walk.filteringAt(0);
    walk.readingAt(2, set).readingAt(5, set).readingAt(10, set);
    for (const Finding& finding : walk.standingAt(11).findings) {
        if (finding.id.starts_with("clean-dp")) {
            return std::string(finding.id) + " " + std::to_string(finding.stage.value_or(0));
        }
    }
    return {};
}

} // namespace

TEST_CASE("new elements that begin as those before them did are no matter")
{
    CHECK(cleanFound(knowing(10.0, 12.0, 14.4, 5), 12).empty());
    CHECK(cleanFound(knowing(10.0, 12.0, 14.4, 5), 15).empty());
    CHECK(cleanFound(knowing(10.0, 12.0, 14.4, 5), 9).empty());
}

TEST_CASE("new elements that begin far from those before them are told, on either side")
{
    CHECK(cleanFound(knowing(10.0, 12.0, 14.4, 5), 30) == "clean-dp-high 2");
    CHECK(cleanFound(knowing(10.0, 12.0, 14.4, 5), 4) == "clean-dp-low 2");
}

TEST_CASE("a wide history and one of two sets hold nothing against new elements")
{
    CHECK(cleanFound(knowing(4.0, 12.0, 36.0, 5), 30).empty());
    CHECK(cleanFound(knowing(10.0, 12.0, 14.4, setsForClean - 1), 30).empty());
    CHECK(cleanFound(knowing(10.0, 12.0, 14.4, setsForClean), 30) == "clean-dp-high 2");
    CHECK(cleanFound({}, 30).empty());
}

TEST_CASE("what the dials cannot tell apart is not told of clean elements")
{
    // needles are read to a division of 1 psi or so: 2 psi may be 3, and none at all may not
    CHECK(cleanFound(knowing(2.7, 3.0, 3.3, 5), 2).empty());
    CHECK(cleanFound(knowing(2.7, 3.0, 3.3, 5), 0) == "clean-dp-low 2");
}

TEST_CASE("one set tells no clean elements, nor do sets of which one fits")
{
    Walk walk(named(), {}, knowing(10.0, 12.0, 14.4, 5));
    walk.filteringAt(0).readingAt(2, "36 34 4");
    const auto isSaid = [&](double minute) {
        const auto findings = walk.standingAt(minute).findings;
        return std::any_of(findings.begin(), findings.end(),
                           [](const Finding& finding) { return finding.id == "clean-dp-high"; });
    };
    CHECK_FALSE(isSaid(3));
    walk.readingAt(5, "36 34 4");
    CHECK(isSaid(6));
    walk.readingAt(10, "18 16 4");
    CHECK_FALSE(isSaid(11));
}

TEST_CASE("elements that were used before are held against no clean ones")
{
    Setup setup = named();
    setup.stages[1].loaded = number("2.5");
    CHECK(cleanFound(knowing(10.0, 12.0, 14.4, 5), 30, setup).empty());
}

TEST_CASE("a finding of clean elements quotes their first sets, and stands until they are changed")
{
    Walk walk(named(), {}, knowing(10.0, 12.0, 14.4, 5));
    walk.filteringAt(0);
    walk.readingAt(2, "36 34 4").readingAt(5, "36 34 4").readingAt(10, "36 34 4").readingAt(20, "38 36 4");
    const auto findings = walk.standingAt(21).findings;
    const auto found = std::find_if(findings.begin(), findings.end(),
                                    [](const Finding& finding) { return finding.id == "clean-dp-high"; });
    REQUIRE(found != findings.end());
    CHECK(found->level == FindingLevel::Caution);
    REQUIRE(found->because.size() == 1);
    CHECK(found->because.front().id == "because.clean-history");
    const auto& values = found->because.front().arguments;
    CHECK(std::find(values.begin(), values.end(), Message::Argument("runs", "5")) != values.end());
    walk.stoppedAt(22).changeoverAt(25, 2, 2).filteringAt(27).readingAt(29, "18 16 4");
    const auto later = walk.standingAt(30).findings;
    CHECK(
        std::none_of(later.begin(), later.end(), [](const Finding& finding) { return finding.id == "clean-dp-high"; }));
}
