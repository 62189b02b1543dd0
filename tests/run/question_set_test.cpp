// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What one set of gauges is asked about. The rules are common practice, no source; the thresholds are worked out beside
// each check from a graduation of 1 psi: reading error of a dial 1/√12 psi (k = 1, JCGM 100), of a difference twice
// that times √2, 0.82 psi (k = 2, root sum of squares: NIST TN 1297), of a change of a difference √2 of it, 1.15 psi.

#include "run/question.h"
#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

/// The questions of the last set of `walk`, in one line.
std::string askedOfLast(const Walk& walk, double minute = 1000)
{
    const Standing standing = walk.standingAt(minute);
    std::string asked;
    for (const Question& question : standing.questions) {
        if (question.of->header.id == walk.last() && question.id != unwatchedGap) {
            asked += (asked.empty() ? "" : " ") + std::string(question.id);
        }
    }
    return asked;
}

/// Filtering from 0, a set at 2 and one at 10 min.
std::string asked(std::string_view first, std::string_view second, std::string_view unit = {})
{
    return askedOfLast(Walk().filteringAt(0).readingAt(2, first).readingAt(10, second, unit));
}

std::optional<Amended> proposalOfLast(const Walk& walk)
{
    const Standing standing = walk.standingAt(1000);
    for (const Question& question : standing.questions) {
        if (question.of->header.id == walk.last() && question.proposal) {
            return proposalOf(question);
        }
    }
    return std::nullopt;
}

Walk twoSets(std::string_view first, std::string_view second)
{
    return Walk().filteringAt(0).readingAt(2, first).readingAt(10, second);
}

} // namespace

TEST_CASE("gauges that stand the wrong way round and fit the last set exchanged are asked about")
{
    CHECK(asked("31 24 9", "24 31 9") == "gauges-swapped");
    CHECK(asked("31 24 9", "31 9 24") == "gauges-swapped");
    CHECK(asked("31 24 9", "9 24 31") == "gauges-swapped"); // first and last
    CHECK(asked("31 24 9", "31 24 9").empty());
    CHECK(asked("31 - 9", "9 - 31") == "gauges-swapped"); // the middle one cannot be read
    CHECK(asked("31 24 9", "- 31 9") == "");              // in order as far as it goes
}

TEST_CASE("two gauges may scatter about each other by a division each")
{
    CHECK(asked("26 25 9", "25 27 9") == "");               // 2 psi: two divisions
    CHECK(asked("28 25 9", "25 28 9") == "gauges-swapped"); // 3 psi
    CHECK(asked("5 5 4", "4 6 4").empty());                 // exchanged it fits no better
}

TEST_CASE("on the first set the gauges' own errors count, unless their zeros were read")
{
    // Grade B: ±3 psi below 25, ±2 psi in the middle; (2/√3) · √(3² + 2²) = 4.2 psi, 4.9 psi with 3 twice (k = 2).
    CHECK(askedOfLast(Walk().filteringAt(0).readingAt(2, "24 31 9")) == "gauges-swapped");
    CHECK(askedOfLast(Walk().filteringAt(0).readingAt(2, "20 24 9")).empty());
    CHECK(askedOfLast(Walk().readingAt(0, "1 1 1").filteringAt(1).readingAt(2, "20 24 9")) == "gauges-swapped");
    CHECK(askedOfLast(Walk().readingAt(0, "1 1 1").filteringAt(1).readingAt(2, "20 22 9")).empty());
    // G2 stands 3 psi too high: with that off, 21 psi.
    CHECK(askedOfLast(Walk().readingAt(0, "1 4 1").filteringAt(1).readingAt(2, "20 24 9")).empty());
}

TEST_CASE("the exchange is proposed as an amendment, and nothing is proposed where none helps")
{
    const auto proposal = proposalOfLast(twoSets("31 24 9", "24 31 9"));
    REQUIRE(proposal);
    CHECK(proposal->gauges == gauges("31 24 9").gauges);
    CHECK(proposal->unit == nullptr);
    CHECK(proposal->why == "gauges-swapped");
    CHECK_FALSE(proposalOfLast(Walk().filteringAt(0).readingAt(2, "24 40 55"))); // no one exchange puts it right
}

TEST_CASE("a needle that swings is not out of order, and has not jumped")
{
    CHECK(asked("20 12 4", "8..19 12 4").empty());
    CHECK(asked("20 12 4", "6..14 12 4").empty());
    CHECK(asked("20 12 4", "8..19 6..14 4").empty());
}

TEST_CASE("every gauge off by what lies between two units is asked about")
{
    CHECK(asked("23 17 5", "1.6 1.2 0.3") == "wrong-unit");                       // 14.5: bar
    CHECK(asked("13 10 3", "90 69 21") == "wrong-unit");                          // 6.9: kPa, within the dial
    CHECK(asked("23 17 5", "1.6 1.2 0.3", "bar").empty());                        // said so
    CHECK(asked("23 17 5", "1.6 1.2 -") == "wrong-unit");                         // two are enough
    CHECK(asked("23 17 5", "1.6 - -").find("wrong-unit") == std::string::npos);   // one is not
    CHECK(asked("23 17 5", "1.6 1.2 5").find("wrong-unit") == std::string::npos); // not all of them
    const auto proposal = proposalOfLast(twoSets("23 17 5", "1.6 1.2 0.3"));
    REQUIRE(proposal);
    CHECK(proposal->unit->symbol == "bar");
    CHECK(proposal->gauges.empty());
}

TEST_CASE("oil that stands still is no other unit")
{
    CHECK(asked("23 17 5", "1 1 1").find("wrong-unit") == std::string::npos);
    CHECK(asked("23 17 5", "0 0 0").find("wrong-unit") == std::string::npos);
}

TEST_CASE("gauges with units of their own are compared as pressures")
{
    Setup setup = ordinary();
    setup.cart.gauges[1] = {units::unitNamed<units::Pressure>("bar").value(), number("10"), number("0.1"), "B"};
    const auto after = [&](std::string_view set) {
        return askedOfLast(Walk(setup).filteringAt(0).readingAt(2, "30 1.6 9").readingAt(10, set)); // 1.6 bar: 23 psi
    };
    CHECK(after("30 1.6 9").empty());
    CHECK(after("30 9 1.6") != "");
    CHECK(after("22 2.2 9") == "gauges-swapped"); // 32 psi behind 22: no exchange of digits helps, but it cannot be
}

TEST_CASE("one gauge off by a digit is asked about while the others are as before")
{
    CHECK(asked("23 17 5", "23 17 50") == "digit-slip");
    CHECK(asked("50 20 5", "5 20 5") == "digit-slip");
    CHECK(asked("46 24 5", "46 42 5") == "digit-slip");
    CHECK(asked("46 24 5", "46 43 5").find("digit-slip") == std::string::npos); // 34 was not it
    CHECK(asked("46 24 5", "60 42 5").find("digit-slip") == std::string::npos); // another one moved, too
    const auto proposal = proposalOfLast(twoSets("46 24 5", "46 42 5"));
    REQUIRE(proposal);
    CHECK(proposal->gauges == gauges("46 24 5").gauges);
}

TEST_CASE("a digit that the dial does not have was not meant")
{
    // 4 on a dial of whole psi is not 0.4, though 1 was shown before.
    CHECK(asked("50 43 1", "50 43 4").find("digit-slip") == std::string::npos);
}

TEST_CASE("a ΔP that falls at once is asked about, beyond 2.7 times the error of the change and 30 %")
{
    // Three times 1/√12 psi for each of four needles, 2.7 times: 4.7 psi.
    CHECK(asked("20 14 4", "16 10 4").empty());  // ΔP2 10 → 6: 4 psi, 40 %
    CHECK(asked("20 14 4", "15 9 4") == "jump"); // 10 → 5: 5 psi, 50 %
    CHECK(asked("45 35 5", "37 27 5").empty());  // 30 → 22: 8 psi, but 27 %
    CHECK(asked("45 39 5", "17 10 5") == "jump");
}

TEST_CASE("dirt takes its time: what may be dirt is not asked about")
{
    CHECK(asked("20 14 4", "30 24 4").empty()); // doubled in 8 min, the gauges before rose with it
    CHECK(askedOfLast(Walk().filteringAt(0).readingAt(2, "20 14 4").readingAt(4, "30 24 4")) == "jump"); // in 2 min
    CHECK(asked("30 24 14", "30 24 4") == "jump"); // the gauge behind fell: that is not dirt
}

TEST_CASE("what was told between two sets explains a jump")
{
    Walk walk = Walk().filteringAt(0).readingAt(2, "45 39 5");
    CHECK(askedOfLast(Walk(walk).readingAt(10, "17 10 5")) == "jump");
    CHECK(askedOfLast(Walk(walk).stoppedAt(4).filteringAt(6).readingAt(10, "17 10 5")).empty());
    CHECK(askedOfLast(Walk(walk).stoppedAt(4).changeoverAt(5, 2, 2).filteringAt(6).readingAt(10, "17 10 5")).empty());
    CHECK(askedOfLast(Walk(walk).readingAt(60, "17 10 5")).empty()); // nobody saw what happened
    ReadingLogged warm = gauges("17 10 5");
    warm.oil = typed<units::Temperature>("85 C"); // VG 46 from 40 to 85 °C: a fifth of the viscosity
    CHECK(askedOfLast(Walk(walk).sayAt(10, warm)).empty());
}

TEST_CASE("a jump that the next set bears out is not asked again, and holds nothing back")
{
    Walk walk = Walk().filteringAt(0).readingAt(2, "45 39 5").readingAt(10, "17 10 5");
    const Standing standing = walk.standingAt(10);
    CHECK_FALSE(isHeldBack(*walk.run().factOf(walk.last()), standing.questions));
    CHECK(askedOfLast(Walk(walk).readingAt(15, "17 10 5")).empty());
    CHECK(askedOfLast(Walk(walk).readingAt(15, "45 39 5")).empty()); // the jump was a slip
}

TEST_CASE("in bypass mode and while stopped nobody asks about order, units and jumps")
{
    CHECK(askedOfLast(Walk().filteringAt(0).readingAt(2, "31 24 9").bypassingAt(5).readingAt(10, "5 9 4")).empty());
    CHECK(askedOfLast(Walk().filteringAt(0).readingAt(2, "31 24 9").stoppedAt(5).readingAt(10, "1 9 1")).empty());
}
