// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/caution.h"

#include "run/walk.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>

using namespace loopside;
using namespace loopside::run;
using namespace loopside::test;

namespace {

std::vector<std::string> idsAt(Act act, const Circumstances& circumstances)
{
    std::vector<std::string> ids;
    for (const Caution& caution : cautionsAt(act, circumstances)) {
        ids.emplace_back(caution.id);
    }
    return ids;
}

bool tells(Act act, const Circumstances& circumstances, const std::string& id)
{
    return std::ranges::count(idsAt(act, circumstances), id) == 1;
}

Circumstances withOil(std::string_view oil)
{
    return {.oil = typed<units::Temperature>(oil)};
}

Circumstances knownOf(const Walk& walk, double minute)
{
    return circumstancesOf(walk.run(), walk.standingAt(minute));
}

} // namespace

TEST_CASE("every act at the cart has its caution, but reading gauges, where only what is known calls for one")
{
    for (const Act act : acts) {
        CAPTURE(static_cast<int>(act));
        CHECK(cautionsAt(act, {}).empty() == (act == Act::Read));
    }
}

TEST_CASE("every caution of the table can be told, once at its act, with the rule that it yields to")
{
    const Circumstances all{typed<units::Temperature>("70 °C"), typed<units::Pressure>("1 psi"), true, true};
    std::set<std::string> told;
    for (const Act act : acts) {
        for (const Circumstances& known : {all, Circumstances{}}) {
            const auto ids = idsAt(act, known);
            CHECK(std::set(ids.begin(), ids.end()).size() == ids.size());
            told.insert(ids.begin(), ids.end());
            for (const Caution& caution : cautionsAt(act, known)) {
                REQUIRE_FALSE(caution.rules.empty());
                for (const Message& rule : caution.rules) {
                    CHECK_THAT(rule.id, Catch::StartsWith("caution.rule."));
                }
            }
        }
    }
    std::set<std::string> table;
    for (const CautionRow& row : cautionTable()) {
        CAPTURE(std::string(row.id));
        CHECK_FALSE(row.source.empty());
        CHECK(table.insert(std::string(row.id)).second);
    }
    CHECK(told == table);
}

TEST_CASE("oil above 60 °C is hot, whatever the unit it was read in")
{
    const auto [oil, isHot] = GENERATE(table<const char*, bool>({{"60 °C", false},
                                                                 {"60.5 °C", true},
                                                                 {"24 °C", false},
                                                                 {"139 °F", false},
                                                                 {"141 °F", true},
                                                                 {"82 °F", false}}));
    CAPTURE(oil);
    for (const Act act : {Act::Read, Act::Sample, Act::OpenHousing, Act::Disconnect, Act::Transfer, Act::Isolate}) {
        CHECK(tells(act, withOil(oil), "hot-oil") == isHot);
    }
    CHECK_FALSE(tells(Act::Read, {}, "hot-oil")); // not measured: nothing is claimed
}

TEST_CASE("hazards of moving oil are told where the act is")
{
    const auto [id, where] = GENERATE(table<const char*, std::vector<Act>>({
        {"hot-work", {Act::AskPermit}},
        {"lone-work", {Act::AskPermit}},
        {"running-machine", {Act::AskOwner}},
        {"walking", {Act::Area}},
        {"tip-over", {Act::Area, Act::MoveCart}},
        {"shafts", {Act::LookAround}},
        {"mist", {Act::Start, Act::Flush, Act::Transfer}},
        {"rags", {Act::CleanUp}},
        {"if-clicking", {Act::Flush, Act::Transfer}},
        {"bulged", {Act::PlanTransfer}},
        {"closed-drum", {Act::Couple}},
        {"attended", {Act::Start, Act::Flush, Act::Transfer}},
    }));
    CAPTURE(id);
    std::vector<Act> told;
    std::ranges::copy_if(acts, std::back_inserter(told), [&](Act act) { return tells(act, {}, id); });
    CHECK(told == where);
}

TEST_CASE("a hot reading is told with the digits as typed")
{
    const auto told = cautionsAt(Act::Read, withOil("63.0 °C"));
    REQUIRE(told.size() == 1);
    CHECK(told.front().says == Message{"caution.hot-oil", {{"oil", "63.0 °C"}, {"hot", "60 °C"}}});
}

TEST_CASE("with the gauges at rest what they should show is told, or that nobody knows it")
{
    CHECK(tells(Act::RestCheck, {.staticHead = typed<units::Pressure>("1.2 psi")}, "rest"));
    CHECK(tells(Act::RestCheck, {}, "rest-unknown"));
}

TEST_CASE("clicking and a leak are cautioned of from when they are told until the pump stands")
{
    Walk walk;
    walk.filteringAt(0).readingAt(2, "20 14 4").sayAt(3, SignsSeen{{"clicking"}});
    CHECK(tells(Act::Read, knownOf(walk, 3), "clicking"));
    CHECK_FALSE(tells(Act::Read, knownOf(walk, 3), "leak-told"));
    walk.readingAt(9, "20 14 4").sayAt(10, SignsSeen{{"leak"}});
    CHECK(tells(Act::Read, knownOf(walk, 10), "clicking")); // nobody said that it was gone
    CHECK(tells(Act::Read, knownOf(walk, 10), "leak-told"));
    walk.stoppedAt(12);
    CHECK(idsAt(Act::Read, knownOf(walk, 12)).empty());
}

TEST_CASE("a sign that was struck calls for no caution")
{
    Walk walk;
    walk.filteringAt(0).sayAt(3, SignsSeen{{"clicking"}});
    walk.strikeAt(4, walk.last());
    CHECK(idsAt(Act::Read, knownOf(walk, 4)).empty());
}
