// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Every story in tests/stories is held against what it expects. A new case is a new file.

#include "story/told_stories.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>

using namespace loopside;
using namespace loopside::test;

namespace {

std::vector<std::filesystem::path> storyFiles()
{
    std::vector<std::filesystem::path> files;
    for (const auto& file : std::filesystem::directory_iterator(std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories")) {
        if (file.path().extension() == ".json") {
            files.push_back(file.path());
        }
    }
    std::sort(files.begin(), files.end());
    return files;
}

} // namespace

TEST_CASE("every story meets what it expects, and tells the same when told again")
{
    const auto files = storyFiles();
    REQUIRE(files.size() >= 4);
    for (const auto& file : files) {
        DYNAMIC_SECTION(file.stem().string())
        {
            const std::string text = textOf(file.string());
            const ToldStory once = tell(text);
            CHECK_FALSE(once.story.expectations.empty());
            for (const std::string& fault : story::unmet(once.story, once.objects)) {
                FAIL_CHECK(fault);
            }
            CHECK(once.lines() == tell(text).lines());
        }
    }
}

TEST_CASE("an expectation that is not met is found")
{
    const std::string text = textOf(storyFiles().front().string());
    const ToldStory told = tell(text);
    const auto faultsOf = [&](const std::string& line) {
        auto object = nlohmann::ordered_json::parse(text);
        object["expect"] = nlohmann::ordered_json::array({nlohmann::ordered_json::parse(line)});
        const auto story = story::parseStory(object.dump());
        REQUIRE(story.has_value());
        return story::unmet(*story, told.objects).size();
    };
    CHECK(faultsOf(R"({"at":"end","turnovers":[0.0,0.1]})") == 1);
    CHECK(faultsOf(R"({"at":"end","turnovers":[0.0,100]})") == 0);
    CHECK(faultsOf(R"({"at":"end","turnovers":[0.0,0.1],"bound":"low"})") == 1);
    CHECK(faultsOf(R"({"at":"end","alert":"stop-now"})") == 1);
    CHECK(faultsOf(R"({"at":"end","no_alert":"stop-now"})") == 0);
    CHECK(faultsOf(R"({"at":"end","question":"out-of-range"})") == 1);
    CHECK(faultsOf(R"({"at":"00:02:00","loading":[5,6],"stage":2})") == 1);
    CHECK(faultsOf(R"({"at":"00:02:00","loading":[0.5,1.5],"stage":2})") == 0);
    CHECK(faultsOf(R"({"at":"end","plan":"go"})") == 1); // nothing computes it yet: not met, never passed over
}

TEST_CASE("ids differ between stories and never within one")
{
    const auto files = storyFiles();
    const ToldStory one = tell(textOf(files[0].string()));
    const ToldStory other = tell(textOf(files[1].string()));
    std::vector<Id> ids = one.ids;
    ids.insert(ids.end(), other.ids.begin(), other.ids.end());
    std::sort(ids.begin(), ids.end());
    CHECK(std::adjacent_find(ids.begin(), ids.end()) == ids.end());
}

TEST_CASE("time alone speaks in an object of its own, at its own time")
{
    const ToldStory told = tell(R"({
        "tank": {"name": "T", "volume": "400 L", "fluid": {"viscosity": "46 cSt"}},
        "cart": {"name": "C", "flow": "20 L/min", "gauges": {"unit": "psi"}},
        "stages": [{"elements": 1, "change_limit": "25 psi"}],
        "entries": [{"at": "00:00:00", "mode": "filtering"}, {"at": "00:02:00", "gauges": [10, 2]},
                    {"at": "00:20:00", "gauges": [30, 2]}, {"at": "00:20:30", "shelve": {"alert": "stage-at-limit", "why": "w", "for": "2 min"}},
                    {"at": "00:24:00", "note": "n"}]})");
    std::vector<std::string> spoken;
    for (const auto& object : told.objects) {
        if (object.contains("cause")) {
            spoken.push_back(object["at"].get<std::string>() + " " + object["cause"].get<std::string>());
        }
    }
    // The set of 00:02 is followed by one due at 00:05, overdue at 00:07; the alert shelved at 00:20:30 is back at
    // 00:22:30.
    CHECK(spoken == std::vector<std::string>{"00:07:00 time", "00:22:30 time"});
}

TEST_CASE("a set that was read earlier is told at its own time and credited from there")
{
    const ToldStory told = tell(R"({
        "tank": {"name": "T", "volume": "400 L", "fluid": {"viscosity": "46 cSt"}},
        "cart": {"name": "C", "flow": "20 L/min", "gauges": {"unit": "psi"}},
        "stages": [{"elements": 1}],
        "entries": [{"at": "00:00:00", "mode": "filtering"}, {"at": "00:02:00", "gauges": [10, 2], "entered_at": "00:09:00"},
                    {"at": "00:05:00", "gauges": [11, 2]}]})");
    REQUIRE(told.objects.size() == 4);
    CHECK(told.objects[1]["at"] == "00:04:00"); // the set was not there yet: overdue by the plan of the start
    CHECK(told.objects[2]["at"] == "00:05:00");
    CHECK(told.objects[3]["at"] == "00:02:00");
    CHECK(told.objects[3]["entered_t_s"] == 540.0);
    CHECK(told.objects[3]["turnovers"]["best"] == 0.25); // 5 of 20 min
}
