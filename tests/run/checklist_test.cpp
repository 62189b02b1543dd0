// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/checklist.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

/// "done", "skipped: why", "-" where there is no answer: the answers of a list in their order.
std::vector<std::string> toldIn(const Walk& walk, Checklist list)
{
    std::vector<std::string> told;
    for (const auto& point : answersIn(walk.run(), list)) {
        told.push_back(!point ? "-"
                              : std::string(nameOf(point->answer)) + (point->why.empty() ? "" : ": " + point->why));
    }
    return told;
}

std::string refusalOf(const CheckAnswered& answered)
{
    const Walk walk;
    const auto decided = walk.attempt(1, Say{walk.id(), answered});
    return decided ? "" : decided.error().say.id;
}

} // namespace

TEST_CASE("each list has points, each with an id of its own")
{
    std::set<std::string> ids;
    for (const Checklist list : checklists) {
        const auto points = pointsOf(list);
        CHECK(points.size() >= 3);
        for (const CheckPoint& point : points) {
            CHECK(ids.insert(std::string(point.id)).second);
            CHECK(pointNamed(point.id)->list == list);
        }
    }
    CHECK(pointNamed("setup-placement") == nullptr);
}

TEST_CASE("nothing is answered before somebody answers it, and each answer is one point's")
{
    Walk walk;
    CHECK(toldIn(walk, Checklist::HookUp) == std::vector<std::string>{"-", "-", "-"});
    walk.sayAt(1, CheckAnswered{"setup-traced", "done"});
    CHECK(toldIn(walk, Checklist::HookUp) == std::vector<std::string>{"-", "done", "-"});
    walk.sayAt(2, CheckAnswered{"setup-bonded", "skipped", "no clamp here"});
    walk.sayAt(3, CheckAnswered{"setup-vents", "does-not-apply"});
    CHECK(toldIn(walk, Checklist::HookUp)
          == std::vector<std::string>{"does-not-apply", "done", "skipped: no clamp here"});
}

TEST_CASE("the latest answer counts, the ones before stay in the journal, and a struck one counts no more")
{
    Walk walk;
    walk.sayAt(1, CheckAnswered{"setup-vents", "skipped", "cannot reach it"});
    walk.sayAt(5, CheckAnswered{"setup-vents", "done"});
    CHECK(toldIn(walk, Checklist::HookUp).front() == "done");
    CHECK(std::ranges::count_if(walk.run().facts,
                                [](const Fact& fact) { return std::holds_alternative<CheckAnswered>(fact.original); })
          == 2);
    walk.strikeAt(6, walk.last());
    CHECK(toldIn(walk, Checklist::HookUp).front() == "skipped: cannot reach it");
}

TEST_CASE("an answer says who gave it and when, and whether it was asked about")
{
    Walk walk;
    walk.sayAt(4, CheckAnswered{"close-out-caps", "done", {}, true});
    const auto caps = answersIn(walk.run(), Checklist::Restore)[2];
    REQUIRE(caps);
    CHECK(caps->wasAsked);
    CHECK(caps->entry == walk.last());
    CHECK(caps->person == walk.run().factOf(walk.last())->header.person);
    CHECK(caps->at == std::chrono::minutes(4));
}

TEST_CASE("the points of a housing are asked anew for each housing that is opened")
{
    Walk walk;
    walk.changeoverAt(1, 1, 2).sayAt(2, CheckAnswered{"housing-seals", "done"});
    CHECK(std::ranges::count(toldIn(walk, Checklist::Housing), "done") == 1);
    walk.changeoverAt(3, 2, 2);
    CHECK(std::ranges::count(toldIn(walk, Checklist::Housing), "done") == 0);
}

TEST_CASE("a changeover that was struck opened no housing: its points stay answered")
{
    Walk walk;
    walk.changeoverAt(1, 1, 2).sayAt(2, CheckAnswered{"housing-seals", "done"});
    walk.changeoverAt(3, 2, 2);
    walk.strikeAt(4, walk.last());
    CHECK(std::ranges::count(toldIn(walk, Checklist::Housing), "done") == 1);
}

TEST_CASE("a point is left out with a reason only, and takes no other word for an answer")
{
    CHECK(refusalOf({"setup-vents", "skipped", {}}) == "refused.check-why");
    CHECK(refusalOf({"setup-vents", "skipped", "  "}) == "refused.check-why");
    CHECK(refusalOf({"setup-vents", "all of them", {}}) == "refused.check-say");
    CHECK(refusalOf({"setup-vents", "skipped", "not reachable"}).empty());
    CHECK(refusalOf({"setup-placement", "opposite-ends", {}}).empty()); // no point of a list: free words
}

TEST_CASE("journals of old say yes where today done is said")
{
    CHECK(answerNamed("yes") == Answer::Done);
    CHECK_FALSE(answerNamed("maybe"));
    for (const Answer answer : answers) {
        CHECK(answerNamed(nameOf(answer)) == answer);
    }
}
