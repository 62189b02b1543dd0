// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What several results tell of one bottle.

#include "run/samples.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::run;

namespace {

ResultEntered nothing()
{
    return {.sample = "S1", .code = {}, .water = {}, .viscosity = {}};
}

ResultEntered coded(const char* code)
{
    ResultEntered result = nothing();
    result.code = code;
    return result;
}

ResultEntered counted(std::initializer_list<int> perMl)
{
    ResultEntered result = nothing();
    for (const int count : perMl) {
        result.countsPerMl.emplace_back(count, 0);
    }
    return result;
}

std::vector<std::string> countsOf(const ResultEntered& result)
{
    std::vector<std::string> counts;
    for (const Decimal& count : result.countsPerMl) {
        counts.push_back(count.toText());
    }
    return counts;
}

using Counts = std::vector<std::string>;

} // namespace

TEST_CASE("what a later result leaves out holds as it was told before")
{
    ResultEntered first = coded("19/17/14");
    first.method = "counter";
    first.water = "90 ppm";
    ResultEntered later = nothing();
    later.water = "240 ppm";
    later.acid = "0.12 mg KOH/g";
    const ResultEntered all = withResult(first, later);
    CHECK(all.code == "19/17/14");
    CHECK(all.method == "counter");
    CHECK(all.water == "240 ppm");
    CHECK(all.acid == "0.12 mg KOH/g");
}

TEST_CASE("a count that is told later takes the place of the one before, as a code or as numbers")
{
    // 1610, 81 and 21 per mL are 18/14/12 (ISO 4406, table 1: 1300 to 2500, 80 to 160, 20 to 40).
    CHECK(withResult(counted({1610, 81, 21}), coded("17/14/12")).countsPerMl.empty());
    CHECK(withResult(coded("17/14/12"), counted({1610, 81, 21})).code.empty());
    CHECK(codeIn(withResult(coded("17/14/12"), counted({1610, 81, 21})))->toText() == "18/14/12");
    const ResultEntered both = withResult(counted({1610, 81, 21}), coded("18/14/12"));
    CHECK(both.code == "18/14/12");
    CHECK(countsOf(both) == Counts{"1610", "81", "21"});
}

TEST_CASE("a size that is counted anew leaves the others")
{
    CHECK(countsOf(withResult(counted({1610, 81, 21}), counted({1700}))) == Counts{"1700", "81", "21"});
    CHECK(countsOf(withResult(counted({1610, 81, 21}), counted({90, 22}))) == Counts{"1610", "90", "22"});
    CHECK(countsOf(withResult(counted({1610}), counted({90, 22}))) == Counts{"1610", "90", "22"});
    CHECK(countsOf(withResult(counted({90, 22}), counted({1610}))) == Counts{"1610", "90", "22"});
}

TEST_CASE("a code that cannot be read takes no counts away")
{
    const ResultEntered all = withResult(counted({1610, 81, 21}), coded("18/14"));
    CHECK(all.code == "18/14");
    CHECK(countsOf(all) == Counts{"1610", "81", "21"});
}
