// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "mutants/mutation.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace loopside::mutants;

namespace {

/// Every text that one fault makes of `text`, with the kind of the fault before it.
std::vector<std::string> faultsOf(const std::string& text)
{
    std::vector<std::string> made;
    for (const Mutation& mutation : mutationsOf(text)) {
        made.push_back(std::string(mutation.kind) + ": " + mutated(text, mutation));
    }
    return made;
}

} // namespace

TEST_CASE("each kind of fault is found where it can be, and nowhere else")
{
    using Texts = std::vector<std::string>;
    const auto [text, faults] = GENERATE(table<std::string, Texts>({
        {"x = a < b;", {"comparison: x = a <= b;"}},
        {"x = a != b;", {"comparison: x = a == b;"}},
        {"std::vector<int> a;", {}},
        {"x = a - b;", {"arithmetic: x = a + b;"}},
        {"x = -b;", {}},
        {"x += b;", {"arithmetic: x -= b;"}},
        {"x = a && !b;", {"boolean: x = a || !b;", "boolean: x = a && b;"}},
        {"x = a\n    || b;", {"boolean: x = a\n    && b;"}},
        {"x = true;", {"boolean: x = false;"}},
        {"x = 7;", {"constant: x = (7 + 1);"}},
        {"x = 2.5e3;", {"constant: x = (2.5e3 * 1.5);"}},
        {"x = 0.0;", {"constant: x = 1.0;"}},
        {"x = 10'000;", {"constant: x = (10'000 + 1);"}},
        {"x2 = y_1;", {}},
        {"return a(b);", {"return: return {};"}},
        {"return {};", {}},
        {"{\n    count(a);\n}", {"statement: {\n    ;\n}"}},
        {"{\n    const int a(b);\n}", {}},
        {"{\n    Thing a(b);\n}", {}},
        {"f(a,\n    b);", {}},
        {"// a < b, 7\n\"c < d\"", {}},
        {"#include \"a < 7\"\n#if A < 7\n", {}},
        {"    require(a < 7);", {}},
    }));
    CAPTURE(text);
    CHECK(faultsOf(text) == faults);
}

TEST_CASE("a choice is the same for a seed, another for another, and takes nothing twice")
{
    const auto some = chosen(1000, 50, 1);
    CHECK(some.size() == 50);
    CHECK(std::set(some.begin(), some.end()).size() == 50);
    CHECK(std::ranges::all_of(some, [](std::size_t one) { return one < 1000; }));
    CHECK(chosen(1000, 50, 1) == some);
    CHECK(chosen(1000, 50, 2) != some);
    auto all = chosen(20, 100, 3);
    std::ranges::sort(all);
    CHECK(all.size() == 20);
    CHECK(all.back() == 19);
}
