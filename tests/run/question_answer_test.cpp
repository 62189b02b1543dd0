// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What answers and amendments do to a question, and questions about times. By the contracts of the product; numbers of
// sets and minutes are our choice.

#include "run/question.h"
#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

std::size_t countOf(const Walk& walk, double minute, std::string_view id)
{
    const Standing standing = walk.standingAt(minute);
    return static_cast<std::size_t>(std::count_if(standing.questions.begin(), standing.questions.end(),
                                                  [&](const Question& question) { return question.id == id; }));
}

bool isHeld(const Walk& walk, const Id& set, double minute)
{
    return isHeldBack(*walk.run().factOf(set), walk.standingAt(minute).questions);
}

struct Swapped
{
    Walk walk;
    Id set;
};

Swapped swappedAtTen()
{
    Walk walk = Walk().filteringAt(0).readingAt(2, "31 24 9").readingAt(10, "24 31 9");
    const Id set = walk.last();
    return {std::move(walk), set};
}

} // namespace

TEST_CASE("a set typed the wrong way round is held back until it is amended or kept as typed")
{
    auto [walk, set] = swappedAtTen();
    CHECK(isHeld(walk, set, 10));
    SECTION("yes alone leaves it held back: it is still wrong")
    {
        walk.answerAt(11, gaugesSwapped, set, "yes");
        CHECK(isHeld(walk, set, 11));
    }
    SECTION("the amendment takes the question away")
    {
        walk.answerAt(11, gaugesSwapped, set, "yes").amendAt(11, set, "31 24 9");
        CHECK_FALSE(isHeld(walk, set, 11));
        CHECK(countOf(walk, 11, gaugesSwapped) == 0);
    }
    SECTION("no lets it through, with its question, and asks for a check of the gauges")
    {
        walk.answerAt(11, gaugesSwapped, set, "no");
        CHECK_FALSE(isHeld(walk, set, 11));
        CHECK(countOf(walk, 11, gaugesSwapped) == 1);
        const Standing standing = walk.standingAt(11);
        CHECK(gaugesToCheck(standing.questions, standing.moments) != nullptr);
        walk.stoppedAt(12).readingAt(13, "1 1 1");
        const Standing after = walk.standingAt(13);
        CHECK(gaugesToCheck(after.questions, after.moments) == nullptr);
    }
    SECTION("an answer to what was typed before is none to what an amendment made of it")
    {
        walk.answerAt(11, gaugesSwapped, set, "no").amendAt(12, set, "24 32 9");
        CHECK(isHeld(walk, set, 12));
    }
    SECTION("a struck set is asked nothing")
    {
        walk.strikeAt(11, set);
        CHECK(countOf(walk, 11, gaugesSwapped) == 0);
    }
}

TEST_CASE("a set that is held back is nothing to compare with")
{
    auto [walk, set] = swappedAtTen();
    walk.readingAt(15, "31 24 9");
    CHECK(countOf(walk, 15, jumped) == 0);
    CHECK(countOf(walk, 15, gaugesSwapped) == 1);
}

TEST_CASE("the question that is put first is one that holds a set back and knows what was meant")
{
    auto [walk, set] = swappedAtTen();
    walk.changeoverAt(12, 2, 2);
    const Standing standing = walk.standingAt(12);
    REQUIRE(firstToAsk(standing.questions) != nullptr);
    CHECK(firstToAsk(standing.questions)->id == gaugesSwapped);
    CHECK(firstToAsk({}) == nullptr);
}

TEST_CASE("three old sets within a minute were entered late, two were not")
{
    Walk walk = Walk().filteringAt(0).readingAt(2, "20 14 4");
    walk.readingSeenEarlierAt(60, 45, "20 14 4").readingSeenEarlierAt(60.5, 30.5, "20 14 4");
    CHECK(countOf(walk, 61, enteredLate) == 0);
    SECTION("the third within the minute")
    {
        walk.readingSeenEarlierAt(61, 16, "20 14 4");
        CHECK(countOf(walk, 61, enteredLate) == 3);
        CHECK_FALSE(isHeld(walk, walk.last(), 61));
        CHECK(isEnteredLate(*walk.run().factOf(walk.last()), walk.standingAt(61).questions));
        CHECK(walk.standingAt(61).due == walk.standingAt(61).moments[1].at + std::chrono::minutes(3)); // set at 2 min
    }
    SECTION("the third a second past it")
    {
        walk.readingSeenEarlierAt(61.0 + 1.0 / 60.0, 16, "20 14 4");
        CHECK(countOf(walk, 62, enteredLate) == 0);
    }
    SECTION("the third read just now")
    {
        walk.readingAt(61, "20 14 4");
        CHECK(countOf(walk, 61, enteredLate) == 0);
    }
}

TEST_CASE("a set read before the one entered ahead of it, or before the run, is asked about and held back")
{
    Walk walk = Walk().filteringAt(0).readingAt(20, "20 14 4");
    SECTION("earlier than the last")
    {
        walk.readingSeenEarlierAt(25, 6, "20 14 4");
        CHECK(countOf(walk, 25, timeOrder) == 1);
        CHECK(isHeld(walk, walk.last(), 25));
    }
    SECTION("as late as the last")
    {
        walk.readingSeenEarlierAt(25, 5, "20 14 4");
        CHECK(countOf(walk, 25, timeOrder) == 0);
    }
    SECTION("before the run was opened")
    {
        walk.readingSeenEarlierAt(25, 26, "20 14 4");
        CHECK(countOf(walk, 25, timeOrder) == 1);
    }
    SECTION("on another device, whose clock is its own")
    {
        walk.onDevice(2).readingSeenEarlierAt(25, 6, "20 14 4");
        CHECK(countOf(walk, 25, timeOrder) == 0);
    }
    SECTION("a wall clock that jumps back")
    {
        walk.wallJumps(-60).readingAt(30, "20 14 4");
        CHECK(countOf(walk, 30, timeOrder) == 0);
    }
}

TEST_CASE("a thousand sets raise nothing that ten do not")
{
    Walk walk;
    walk.filteringAt(0);
    RunState run = walk.run();
    const Walk one = Walk().filteringAt(0).readingAt(2, "20 14 4");
    const Fact set = one.run().facts.back();
    for (int i = 0; i < 1000; ++i) {
        Fact next = set;
        next.header.id.bytes[3] = static_cast<std::uint8_t>(i / 256);
        next.header.id.bytes[4] = static_cast<std::uint8_t>(i % 256);
        next.seen = next.entered = std::chrono::minutes(2 + 10 * i);
        run.facts.push_back(next);
    }
    CHECK(questionsIn(timelineOf(run), run).empty());
    for (std::size_t i = 10; i < run.facts.size(); i += 10) {
        std::get<ReadingLogged>(run.facts[i].effective).gauges = gauges("14 20 4").gauges;
    }
    CHECK(questionsIn(timelineOf(run), run).size() == 100);
}
