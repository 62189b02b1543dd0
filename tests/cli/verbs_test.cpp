// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/program.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fstream>
#include <sstream>

using namespace loopside::test;
using Json = nlohmann::json;

namespace {

std::string storyNamed(const std::string& name)
{
    return std::string(LOOPSIDE_SOURCE_DIR) + "/tests/stories/" + name + ".json";
}

} // namespace

TEST_CASE("a command line that is not understood ends with 2, help with 0")
{
    const auto arguments = GENERATE(as<std::vector<std::string>>{}, std::vector<std::string>{},
                                    std::vector<std::string>{"dance"}, std::vector<std::string>{"replay"},
                                    std::vector<std::string>{"replay", "a", "b"},
                                    std::vector<std::string>{"verify", "--loud", "a"},
                                    std::vector<std::string>{"viscosity", "--grade", "ISO VG 46"});
    const Ran ran = runProgram(arguments);
    CHECK(ran.exitCode == 2);
    CHECK_FALSE(ran.err.empty());
    CHECK(ran.out.empty());
    CHECK(runProgram({"--help"}).exitCode == 0);
    CHECK_THAT(runProgram({"--help"}).out, Catch::Contains("replay") && Catch::Contains("verify"));
}

TEST_CASE("plan tells turnover and run time before the start")
{
    // 400 L at 19 L/min: 21.0526 min a turnover, seven in 147.368 min (trade practice: the steady Saturday ends at 147
    // min).
    const Ran ran = runProgram({"plan", "--json", storyNamed("f01_steady_saturday")});
    REQUIRE(ran.exitCode == 0);
    const Json plan = Json::parse(ran.out);
    CHECK_THAT(plan["turnover_s"].get<double>(), Catch::WithinRel(400.0 / 19.0 * 60.0, 1e-12));
    CHECK_THAT(plan["run_s"].get<double>(), Catch::WithinRel(7 * 400.0 / 19.0 * 60.0, 1e-12));
    CHECK(plan["oil_c"] == 22.0);
    REQUIRE(plan["clean_dp_pa"].size() == 2);
    // Housing part unknown: the drop goes with viscosity alone, 4 psi on stage 2 is twice 2 psi on stage 1.
    CHECK_THAT(plan["clean_dp_pa"][1].get<double>(),
               Catch::WithinRel(2.0 * plan["clean_dp_pa"][0].get<double>(), 1e-9));
    const Ran text = runProgram({"plan", storyNamed("f01_steady_saturday")});
    CHECK_THAT(text.out,
               Catch::Contains("21.1 min") && Catch::Contains("147.4 min") && Catch::Contains("change limit 35 psi"));
}

TEST_CASE("replay tells people and programs the same run")
{
    const Ran json = runProgram({"replay", "--json", storyNamed("f04_hungry_stage")});
    REQUIRE(json.exitCode == 0);
    CHECK(json.err.empty());
    const auto lines = linesOf(json.out);
    for (const std::string& line : lines) {
        const Json object = Json::parse(line);
        for (const char* key :
             {"at", "t_s", "mode", "dp_pa", "dp_standing_pa", "dp_reading_pa", "dp_corrected_pa", "loading",
              "turnovers", "filtered_l", "forecast", "findings", "questions", "alerts", "next_reading_s"}) {
            CAPTURE(line, key);
            CHECK(object.contains(key));
        }
        CHECK(object["dp_pa"].size() == 2);
        CHECK(object["forecast"].size() == 2);
    }
    CHECK(runProgram({"replay", "--json", storyNamed("f04_hungry_stage")}).out == json.out);
    const auto [language, sentence] = GENERATE(table<std::string, std::string>(
        {{"en", "Change both elements of stage 2."}, {"de", "Stufe 2"}, {"es", "etapa 2"}}));
    const Ran told = runProgram({"replay", "--language", language, storyNamed("f04_hungry_stage")});
    CHECK(told.exitCode == 0);
    CHECK_THAT(told.out, Catch::Contains("BO-2") && Catch::Contains(sentence));
    CHECK(told.out.find("[") == std::string::npos);
}

TEST_CASE("a language that is not known is refused")
{
    const Ran ran = runProgram({"replay", "--language", "fr", storyNamed("f04_hungry_stage")});
    CHECK(ran.exitCode == 1);
    CHECK_THAT(ran.err, Catch::Contains("known are en, es, de"));
}

TEST_CASE("an expectation that is not met fails the check with its place")
{
    std::ifstream file(storyNamed("f04_hungry_stage"));
    Json story = Json::parse(file);
    story["expect"] = Json::array({{{"at", "end"}, {"turnovers", {0.0, 0.1}}}, {{"at", "end"}, {"alert", "stop-now"}}});
    const TempFolder folder;
    std::ofstream(folder.file("story.json")) << story;
    const Ran ran = runProgram({"replay", "--check", "--json", folder.file("story.json")});
    CHECK(ran.exitCode == 1);
    CHECK(linesOf(ran.err).size() == 2);
    CHECK_THAT(ran.err,
               Catch::Contains("expect[0]: turnovers is 2.18") && Catch::Contains("expect[1]: alert stop-now"));
    CHECK(runProgram({"replay", "--check", storyNamed("f04_hungry_stage")}).exitCode == 0);
}

TEST_CASE("a replayed journal is listed, verifies, and holds two runs after two replays")
{
    const TempFolder folder;
    const std::string journal = folder.file("journal.db");
    REQUIRE(runProgram({"replay", storyNamed("f04_hungry_stage"), "--journal", journal}).exitCode == 0);
    const auto once = linesOf(runProgram({"record", "--json", journal}).out);
    REQUIRE(once.size() > 10);
    CHECK(Json::parse(once.front())["kind"] == "chain-opened");
    CHECK(Json::parse(once[1])["kind"] == "run-opened");
    CHECK(Json::parse(once.back())["position"] == once.size());
    REQUIRE(runProgram({"replay", storyNamed("f04_hungry_stage"), "--journal", journal}).exitCode == 0);
    CHECK(linesOf(runProgram({"record", journal}).out).size() == 2 * once.size() - 1); // the chain is opened once
    const Ran verified = runProgram({"verify", journal});
    CHECK(verified.exitCode == 0);
    CHECK(verified.out
          == std::to_string(2 * once.size() - 1)
              + " entries; every hash, link and signature holds, and a tablet shows what they say\n");
    CHECK(Json::parse(runProgram({"verify", "--json", journal}).out)["faults"].empty());
}

TEST_CASE("a journal written by one program is gone on with by the next")
{
    const TempFolder folder;
    const std::string journal = folder.file("journal.db");
    REQUIRE(runProgram({"replay", storyNamed("f01_steady_saturday"), "--journal", journal}).exitCode == 0);
    REQUIRE(runProgram({"replay", storyNamed("f17_falling_back"), "--journal", journal}).exitCode == 0);
    std::uint64_t last = 0;
    for (const std::string& line : linesOf(runProgram({"record", "--json", journal}).out)) {
        const auto clock = Json::parse(line)["hybrid_clock"].get<std::uint64_t>();
        CHECK(clock > last); // what is written later folds later, though the second story's wall clock falls back
        last = clock;
    }
    CHECK(runProgram({"verify", journal}).exitCode == 0);
}
