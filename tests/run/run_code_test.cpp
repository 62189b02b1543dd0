// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/run_code.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <set>

using namespace loopside;
using namespace loopside::run;
using loopside::test::Walk;

TEST_CASE("a run's code has six signs, the same each time, and is read back")
{
    // 0x2A54B1E7 without its two highest bits: 10101 00101 01001 01100 01111 00111. Computed with Python.
    const Id id = idFromText("0197e8db-ac00-7001-8000-00002a54b1e7").value();
    CHECK(codeOf(id) == "N59CF7");
}

TEST_CASE("codes of runs differ")
{
    SeededRandom random(1);
    IdMaker ids(random);
    std::set<std::string> codes;
    for (int i = 0; i < 1000; ++i) {
        codes.insert(codeOf(ids.next(1'751'958'400'000)));
    }
    CHECK(codes.size() == 1000);
}

TEST_CASE("a code may be typed small, parted, and with signs that look alike")
{
    const auto [typed, code] = GENERATE(table<const char*, const char*>({
        {"7K3M9Q", "7K3M9Q"},
        {"7k3-m9q", "7K3M9Q"},
        {" 7K3 M9Q ", "7K3M9Q"},
        {"oO0iL1", "000111"},
    }));
    CHECK(codeFrom(typed).value() == code);
}

TEST_CASE("what is no code is refused with what is wrong")
{
    const auto [typed, words] = GENERATE(table<const char*, const char*>({
        {"", "has six signs; \"\" has 0"},
        {"7K3M9", "has 5"},
        {"7K3M9QX", "has 7"},
        {"7K3M9U", "stands in no code"},
        {"7K3M9!", "stands in no code"},
        {"ÄK3M9Q", "stands in no code"},
    }));
    const auto code = codeFrom(typed);
    REQUIRE_FALSE(code);
    CHECK(code.error().code == Errc::Malformed);
    CHECK_THAT(code.error().sentence, Catch::Contains(words));
}

TEST_CASE("runs are found by their code, all that show it")
{
    State state;
    Id one = {.bytes = {1}};
    Id twin = {.bytes = {2}};
    Id other = {.bytes = {3}};
    one.bytes[15] = twin.bytes[15] = 7;
    other.bytes[15] = 8;
    for (const Id& id : {one, twin, other}) {
        RunState run = Walk().run();
        run.id = id;
        state.runs.insert_or_assign(id, std::move(run));
    }
    CHECK(runsWithCode(state, codeOf(one)) == std::vector{one, twin});
    CHECK(runsWithCode(state, codeOf(other)) == std::vector{other});
    CHECK(runsWithCode(state, "ZZZZZZ").empty());
}
