// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "story/story.h"

#include <catch2/catch.hpp>

using namespace loopside;
using namespace loopside::story;

TEST_CASE("a time is hours, minutes and seconds since the first entry, and hours may pass 24")
{
    CHECK(timeFrom("00:00:00").value() == run::RunTime{0});
    CHECK(timeFrom("01:02:03").value() == run::RunTime{3'723'000});
    CHECK(timeFrom("26:00:00").value() == std::chrono::hours(26));
    const auto odd = GENERATE(as<std::string>{}, "", "1:2:3", "00:60:00", "00:00:60", "-1:00:00", "00:00",
                              "00:00:00:00", "0a:00:00", "00:0 :00", "99999999:00:00", "::");
    CAPTURE(odd);
    CHECK_FALSE(timeFrom(odd).has_value());
}

TEST_CASE("a wall time is a moment with its offset")
{
    // 2026-11-05 is 20 762 days after 1970-01-01 (Gregorian calendar, computed elsewhere)
    const WallTime utc = wallTimeFrom("2026-11-05T07:25:00Z").value();
    CHECK(utc.utcMs == (20'762LL * 86'400 + 7 * 3'600 + 25 * 60) * 1000);
    CHECK(utc.offsetMin == 0);
    const WallTime india = wallTimeFrom("2026-11-05T12:55:00+05:30").value();
    CHECK(india.utcMs == utc.utcMs);
    CHECK(india.offsetMin == 330);
    CHECK(wallTimeFrom("2026-11-05T02:25:00-05:00").value().utcMs == utc.utcMs);
    const auto odd = GENERATE(as<std::string>{}, "", "2026-11-05", "2026-11-05T07:25:00", "2026-02-30T07:25:00Z",
                              "2026-11-05T24:25:00Z", "2026-11-05T07:25:00+5:30", "2026-11-05T07:25:00+15:00",
                              "2026-11-05 07:25:00Z", "2026-11-05T07:25:00Zulu", "99999-11-05T07:25:00Z");
    CAPTURE(odd);
    CHECK_FALSE(wallTimeFrom(odd).has_value());
}

namespace {

/// A story of one entry with `members` behind its time.
std::string storyWith(const std::string& members)
{
    return R"({"tank": {"name": "T", "volume": "400 L", "fluid": {"viscosity": "46 cSt"}},
        "cart": {"name": "C", "flow": "20 L/min", "gauges": {"unit": "psi"}}, "stages": [{"elements": 1}],
        "entries": [{"at": "00:00:00", )"
        + members + "}]}";
}

} // namespace

TEST_CASE("a start against its verdict is taken before the mode, with the verdict if it is stated")
{
    const auto story = parseStory(storyWith(
        R"("mode": "filtering", "override": {"by": "P. Ortiz", "why": "the line waits", "limiting": "suction"})"));
    REQUIRE(story.has_value());
    const auto& steps = story->entries.front().steps;
    REQUIRE(steps.size() == 2);
    CHECK(std::get<run::Said>(steps[0])
          == run::Said(run::StartTold{.limiting = "suction", .by = "P. Ortiz", .why = "the line waits"}));
    CHECK(std::holds_alternative<run::ModeChanged>(std::get<run::Said>(steps[1])));
}

TEST_CASE("a transfer within a run is read to the digits")
{
    const auto story = parseStory(storyWith(
        R"("transfer": {"volume": "160.0 L", "container": "drum 7", "capacity": "205 L", "holds": "60 L", "stream": "used oil"})"));
    REQUIRE(story.has_value());
    const auto& waste = std::get<run::WasteTransferred>(std::get<run::Said>(story->entries.front().steps.at(0)));
    CHECK(waste.volume.toText() == "160.0 L");
    CHECK(waste.container == "drum 7");
    CHECK(waste.holds->toText() == "60 L");
    CHECK(waste.stream == "used oil");
}

TEST_CASE("an override or a transfer that cannot be is refused with its place")
{
    const auto [members, sentence] = GENERATE(table<std::string, std::string>({
        {R"("override": {"why": "w"})", "entries[0].override: \"by\" is missing"},
        {R"("override": {"by": "P", "why": ""})", "entries[0].override.why: a start against the verdict needs"},
        {R"("override": {"by": "P", "why": "w", "verdict": "perhaps"})", "entries[0].override.verdict: "},
        {R"("override": {"by": "P", "why": "w", "verdict": "go"})", "entries[0].override: the verdict is go"},
        {R"("override": {"by": "P", "why": "w", "oil": "5 C"})", "entries[0].override: \"oil\" is not a field here"},
        {R"("transfer": "drum 7")", "entries[0].transfer: an object in { } is expected here"},
        {R"("transfer": {"container": "drum 7"})", "entries[0].transfer: \"volume\" is missing"},
        {R"("transfer": {"volume": "160 L", "drum": "7"})", "entries[0].transfer: \"drum\" is not a field here"},
        {R"("transfer": {"volume": "0 L"})", "entries[0].transfer: a volume that was moved cannot be 0 L"},
        {R"("transfer": {"volume": "9 L", "capacity": "5 L", "holds": "6 L"})",
         "entries[0].transfer: a container of 5 L cannot hold 6 L"},
    }));
    CAPTURE(members);
    const auto story = parseStory(storyWith(members));
    REQUIRE_FALSE(story.has_value());
    CHECK_THAT(story.error().sentence, Catch::Contains(sentence));
}

TEST_CASE("a bottle tells how it was drawn, its result how it was counted")
{
    const auto story = parseStory(storyWith(
        R"("sample": {"port": 1, "id": "B", "point": "cock", "machine": "idle", "oil": "41 C", "purged": "160 mL",
                      "purged_s": 45},
           "result": {"sample": "B", "code": "14/12/9", "acid": "0.1 mg KOH/g", "method": "counter", "counted": "10 mL",
                      "report": "L-7"})"));
    REQUIRE(story.has_value());
    const auto& steps = story->entries.front().steps;
    const auto sample = std::get<run::SampleDrawn>(std::get<run::Said>(steps.at(0)));
    CHECK(sample.point == "cock");
    CHECK(sample.machine == "idle");
    CHECK(sample.oil->toText() == "41 °C");
    CHECK(sample.purged->toText() == "160 mL");
    CHECK(sample.purgedS == 45);
    const auto result = std::get<run::ResultEntered>(std::get<run::Said>(steps.at(1)));
    CHECK(result.acid == "0.1 mg KOH/g");
    CHECK(result.method == "counter");
    CHECK(result.counted->toText() == "10 mL");
    CHECK(result.report == "L-7");

    const auto refused = parseStory(storyWith(R"("sample": {"port": 1, "id": "B", "machine": "on"})"));
    REQUIRE_FALSE(refused.has_value());
    CHECK_THAT(refused.error().sentence, Catch::Contains("entries[0].sample.machine: the machine is running or idle"));
}
