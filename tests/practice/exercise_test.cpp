// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The twelve exercises: what is hidden can be noticed, doing it well reaches every goal, doing nothing misses some, and
// no seed is like another. The bounds are our choice; what is true is what the simulator says.

#include "practice/trainee.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>

using namespace loopside;
using practice::Goal;

namespace {

constexpr std::uint64_t seeds = 4;

std::string missed(const practice::Debrief& debrief)
{
    std::string names;
    for (const auto& judged : debrief.goals) {
        names += judged.isReached ? std::string() : std::string(practice::nameOf(judged.goal)) + " ";
    }
    return names;
}

bool has(const practice::Debrief& debrief, Goal goal, bool isReached)
{
    return std::ranges::any_of(
        debrief.goals, [&](const auto& judged) { return judged.goal == goal && judged.isReached == isReached; });
}

} // namespace

TEST_CASE("who does an exercise well reaches every goal of it")
{
    const int number = GENERATE(range(1, practice::exerciseCount + 1));
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        CAPTURE(number, seed);
        test::Trainee trainee(number, seed);
        trainee.doItWell();
        const practice::Debrief debrief = trainee.debrief();
        CHECK(missed(debrief).empty());
        CHECK(debrief.reached() == static_cast<int>(debrief.goals.size()));
    }
}

TEST_CASE("who starts, reads once and walks away is told what was missed")
{
    const int number = GENERATE(range(1, practice::exerciseCount + 1));
    CAPTURE(number);
    test::Trainee trainee(number, 1);
    trainee.doNothing();
    const practice::Debrief debrief = trainee.debrief();
    CHECK(debrief.reached() < static_cast<int>(debrief.goals.size()));
    CHECK(has(debrief, Goal::ReachedTarget, false));
}

TEST_CASE("who never began has reached nothing")
{
    const int number = GENERATE(range(1, practice::exerciseCount + 1));
    CAPTURE(number);
    const test::Trainee trainee(number, 1);
    CHECK(trainee.debrief().reached() == 0);
}

TEST_CASE("what is hidden can be noticed before the target, and not before it is there")
{
    const int number = GENERATE(range(2, practice::exerciseCount + 1));
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        CAPTURE(number, seed);
        test::Trainee trainee(number, seed);
        number == 12 ? trainee.doItWell() : trainee.onlyRead(); // boxes are opened only where elements are changed
        const practice::Debrief debrief = trainee.debrief();
        REQUIRE(debrief.visibleAt.has_value());
        if (debrief.faultAt) {
            CHECK(*debrief.visibleAt >= *debrief.faultAt);
        }
    }
}

TEST_CASE("on a quiet run nothing is hidden and nothing grave is found")
{
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        test::Trainee trainee(1, seed);
        trainee.doItWell();
        CHECK_FALSE(trainee.debrief().visibleAt.has_value());
        CHECK_FALSE(trainee.hasHeard("stage-torn-or-bypassed"));
        CHECK_FALSE(trainee.hasHeard("stage-at-limit"));
    }
}

TEST_CASE("Loopside's findings name what is hidden in most draws")
{
    // by the findings that the patterns of practice go by (run/pattern.cpp)
    static const std::map<int, std::vector<std::string_view>> expected = {
        {2, {"cold-oil", "stage-at-limit"}},
        {3, {"stage-at-limit"}},
        {4, {"stage-at-limit"}},
        {5, {"valve-in-bypass"}},
        {6, {"gauge-stuck"}},
        {7, {"gauge-offset"}},
        {8, {"return-restricted"}},
        {9, {"flow-falling", "suction-starved", "aerated"}},
        {10, {"stage-torn-or-bypassed"}},
        {11, {"water-element-swelling", "stage-at-limit"}},
    };
    std::string table;
    for (const auto& [number, ids] : expected) {
        int found = 0;
        for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
            test::Trainee trainee(number, seed);
            trainee.onlyRead();
            const auto& one = trainee;
            found += std::ranges::any_of(ids, [&](std::string_view id) { return one.hasHeard(id); }) ? 1 : 0;
        }
        table += "\n  " + std::to_string(number) + ": " + std::to_string(found) + " of " + std::to_string(seeds);
        CHECK(found * 2 >= static_cast<int>(seeds));
    }
    WARN("found by name:" << table);
}

TEST_CASE("another seed is another tank, dial, place or time, and the same seed is the same")
{
    const int number = GENERATE(range(1, practice::exerciseCount + 1));
    const auto text = [&](std::uint64_t seed) {
        auto exercise = practice::Exercise::begin(number, seed).value();
        REQUIRE(exercise.hear(run::ModeChanged{run::Mode::Filtering}).has_value());
        exercise.advance(17.0 * units::minute);
        std::string shown = exercise.setup().tank.volume.toText();
        for (const auto& needle : exercise.showing().needles) {
            shown += " " + std::to_string(needle.shown);
        }
        return shown;
    };
    CHECK(text(1) == text(1));
    CHECK(text(1) != text(2));
}

TEST_CASE("elements cannot be changed while the pump runs, and that is not kept")
{
    auto exercise = practice::Exercise::begin(3, 1).value();
    REQUIRE(exercise.hear(run::ModeChanged{run::Mode::Filtering}).has_value());
    const auto refused = exercise.hear(run::ElementsChanged{1, 2, {}});
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().code == Errc::Conflict);
    CHECK(exercise.lived().acts.size() == 1);
}

TEST_CASE("an exercise that is not there is refused with the numbers that are")
{
    const int number = GENERATE(0, 13);
    const auto refused = practice::Exercise::begin(number, 1);
    REQUIRE_FALSE(refused.has_value());
    CHECK_THAT(refused.error().sentence, Catch::Contains("1 to 12"));
}

TEST_CASE("every exercise is told apart by name, from easy to hard")
{
    const auto list = practice::exerciseList();
    REQUIRE(list.size() == 12);
    for (std::size_t i = 1; i < list.size(); ++i) {
        CHECK(list[i].number == list[i - 1].number + 1);
        CHECK(list[i].level >= list[i - 1].level);
    }
}

TEST_CASE("changing the wrong stage is told, and guessing on is not taken for knowing")
{
    test::Trainee trainee(8, 1);
    trainee.mode(run::Mode::Filtering);
    trainee.pass(2.0);
    trainee.change(1);
    for (int i = 0; i < 12 && !trainee.debrief().visibleAt; ++i) {
        trainee.pass(5.0);
    }
    for (const auto thought : {practice::Thought::ColdOil, practice::Thought::AirInOil, practice::Thought::WaterInOil,
                               practice::Thought::ReturnRestricted}) {
        trainee.think({thought});
    }
    const auto debrief = trainee.debrief();
    CHECK(has(debrief, Goal::NoNeedlessChange, false));
    CHECK(has(debrief, Goal::Said, false));
}

TEST_CASE("a sight tells what is there, and puts right what a hand can put right")
{
    auto exercise = practice::Exercise::begin(8, 3).value();
    REQUIRE(exercise.hear(run::ModeChanged{run::Mode::Filtering}).has_value());
    const auto look = [&] {
        return exercise.hear(run::CheckAnswered{std::string(practice::lookCheck), "return-hose"}).value()->id;
    };
    CHECK(look() == "practice.sight.return-hose.fine");
    for (int i = 0; i < 60 && !exercise.lived().faultAt; ++i) {
        exercise.advance(1.0 * units::minute);
    }
    CHECK(look() == "practice.sight.return-hose.kinked");
    CHECK(look() == "practice.sight.return-hose.fine");
}

TEST_CASE("elements that were changed and never read again leave that goal open")
{
    int asked = 0;
    for (int number = 1; number <= practice::exerciseCount; ++number) {
        CAPTURE(number);
        test::Trainee trainee(number, 1);
        trainee.mode(run::Mode::Filtering);
        trainee.pass(2.0);
        trainee.read();
        trainee.mode(run::Mode::Stopped);
        trainee.say(run::ElementsChanged{1, 2, {}});
        const auto debrief = trainee.debrief();
        CHECK_FALSE(has(debrief, Goal::ReadAfterChange, true));
        asked += has(debrief, Goal::ReadAfterChange, false) ? 1 : 0;
    }
    CHECK(asked > 0);
}

TEST_CASE("a target that was reached with the pump still on is not yet reached in time")
{
    test::Trainee trainee(1, 1);
    trainee.mode(run::Mode::Filtering);
    for (int sets = 0; sets < 200; ++sets) {
        trainee.waitToRead();
        trainee.read();
        if (trainee.exercise().lived().now.turnovers >= trainee.exercise().setup().target.turnovers->toDouble()) {
            break;
        }
    }
    CHECK(has(trainee.debrief(), Goal::ReachedTarget, false));
    trainee.mode(run::Mode::Stopped);
    CHECK(has(trainee.debrief(), Goal::ReachedTarget, true));
}
