// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace loopside::test;
using Catch::Contains;
using Json = nlohmann::json;

TEST_CASE("code tells the code of counts with what it stands for")
{
    // ISO 4406: 161 a mL is 15, more than 160 up to and including 320.
    const Json object = answerOf("code", {"--counts", "161,81,21"});
    CHECK(object["code"] == "15/14/12");
    CHECK(object["scale_numbers"] == Json({15, 14, 12}));
    CHECK(object["ranges_per_ml"][0] == Json({{"more_than", 160.0}, {"up_to", 320.0}}));
    CHECK(object["low_confidence"] == Json({false, false, false}));
    // A worked example of a counter's distributor.
    CHECK(answerOf("code", {"--counts", "300000,50000,700", "--per", "100mL"})["code"] == "19/16/10");
    const Ran text = runProgram({"code", "--counts", "161,81,21"});
    CHECK(linesOf(text.out).front() == "15/14/12");
    CHECK_THAT(text.out, Contains("≥ 4 µm   more than 160 up to and including 320 per mL"));
}

TEST_CASE("code marks what was counted from few particles")
{
    const std::string counted = GENERATE("10 mL", "1000,20,10");
    const Json object = answerOf("code", {"--counts", "100,2,1", "--counted", counted});
    CHECK(object["code"] == "14/8/≥7");
    CHECK(object["low_confidence"] == Json({false, false, true}));
    CHECK_THAT(runProgram({"code", "--counts", "100,2,1", "--counted", counted}).out, Contains("low confidence"));
}

TEST_CASE("code reads a code of any kind")
{
    const Json microscope = answerOf("code", {"--is", "-/18/13"});
    CHECK(microscope["code"] == "−/18/13");
    CHECK(microscope["scale_numbers"] == Json({"−", 18, 13}));
    CHECK(microscope["ranges_per_ml"][0].is_null());
    const Json thick = answerOf("code", {"--is", "*/>28/≥7"});
    CHECK(thick["scale_numbers"] == Json({"*", ">28", 7}));
    CHECK(thick["ranges_per_ml"][1] == Json({{"more_than", 2500000.0}, {"up_to", nullptr}}));
    CHECK_THAT(runProgram({"code", "--is", "*/>28/≥7"}).out, Contains("too many to count"));
}

TEST_CASE("code holds a code against its target and an earlier one")
{
    const Json object = answerOf("code", {"--is", "17/15/12", "--target", "16/14/11", "--before", "20/18/13"});
    CHECK(object["target"] == "16/14/11");
    CHECK(object["verdict"] == "not-proven");
    CHECK(object["verdicts"] == Json({"not-proven", "not-proven", "not-proven"}));
    CHECK(object["before"] == "20/18/13");
    CHECK(object["change"] == "not-proven");
    CHECK(object["changes"] == Json({"cleaner", "cleaner", "not-proven"}));
    CHECK(answerOf("code", {"--is", "16/14/11", "--target", "17/15/12"})["verdict"] == "met");
    CHECK(answerOf("code", {"--is", "15/13/10", "--target", "-/15/12"})["verdicts"]
          == Json({nullptr, "better", "better"}));
    CHECK_THAT(runProgram({"code", "--is", "19/17/14", "--target", "16/14/11"}).out,
               Contains("target 16/14/11: not met"));
}

TEST_CASE("code tells older classes")
{
    // The limits of class 6 in a NAS 1638 data sheet and in AS4059 table 2.
    const Json nas = answerOf("code", {"--nas", "16000,2850,506,90,16"});
    CHECK(nas["nas_1638"] == "6");
    CHECK(nas["bands"] == Json({"6", "6", "6", "6", "6"}));
    const Json as4059 = answerOf("code", {"--as4059", "-,19462,3462,613,106,16"});
    CHECK(as4059["as4059"] == "7");
    CHECK(as4059["text"] == "6B/6C/7D/6E/6F");
    CHECK(as4059["sizes"] == Json({nullptr, "6", "6", "7", "6", "6"}));
    CHECK(runProgram({"code", "--nas", "16001,2850,506,90,16"}).out == "NAS 1638 class 7, by the worst of 7 6 6 6 6\n");
}

TEST_CASE("code refuses in one sentence what no oil has")
{
    const auto [options, sentence] = GENERATE(table<std::vector<std::string>, std::string>({
        {{"--counts", "81,161,21"}, "cannot be more than at 4 µm"},
        {{"--counts", "161,81,many"}, "--counts: "},
        {{"--counts", "161,-81,-90"}, "count at 6 µm"},
        {{"--counts", "161"}, "1 are given"},
        {{"--counts", "161,81,21", "--per", "litre"}, "--per: "},
        {{"--counts", "161,81,21", "--counted", "10 mil"}, "--counted: "},
        {{"--counts", "161,81,21", "--counted", "0 mL"}, "volume counted"},
        {{"--is", "17/15"}, "\"17/15\""},
        {{"--is", "12/15/17"}, "above that of a smaller size"},
        {{"--is", "17/15/12", "--target", "clean"}, "--target: "},
        {{"--is", "17/15/12", "--before", "30/15/12"}, "--before: "},
        {{"--nas", "1,2,3"}, "needs 5 counts"},
        {{"--as4059", "-,-,-,-,-,-"}, "No size is counted"},
    }));
    std::vector<std::string> arguments = {"code"};
    arguments.insert(arguments.end(), options.begin(), options.end());
    CAPTURE(arguments);
    const Ran ran = runProgram(arguments);
    CHECK(ran.exitCode == 1);
    CHECK(ran.out.empty());
    CHECK(linesOf(ran.err).size() == 1);
    CHECK_THAT(ran.err, Contains(sentence));
}

TEST_CASE("code needs one thing to tell of")
{
    CHECK(runProgram({"code"}).exitCode == 2);
    CHECK(runProgram({"code", "--is", "17/15/12", "--counts", "161,81,21"}).exitCode == 2);
}
