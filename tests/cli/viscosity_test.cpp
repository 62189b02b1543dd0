// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace loopside::test;
using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using Json = nlohmann::json;

TEST_CASE("viscosity tells the viscosity of a grade at a temperature")
{
    // ISO 3448: the grade's viscosity holds at 40 °C.
    const Json object = answerOf("viscosity", {"--grade", "ISO VG 68", "--vi", "95", "--at", "104 F"});
    CHECK_THAT(object["viscosity_cst"].get<double>(), WithinRel(68.0, 1e-6));
    CHECK_THAT(object["viscosity_m2_s"].get<double>(), WithinRel(68e-6, 1e-6));
    CHECK_THAT(object["at_c"].get<double>(), WithinAbs(40.0, 1e-9));
    CHECK(object["grade"] == "ISO VG 68");
    CHECK(object["vi"] == 95.0);
    CHECK(object["density_kg_m3"].is_null());
    CHECK(object["viscosity_pa_s"].is_null());
    CHECK(object["cautions"].empty());
    // SUS of 68 cSt at 100 °F 315.5, computed from ASTM D2161; 0.024 % more at 104 °F.
    CHECK_THAT(object["sus"].get<double>(), WithinAbs(315.6, 0.1));
    CHECK(runProgram({"viscosity", "--grade", "ISO VG 68", "--vi", "95", "--at", "40 C"}).out
          == "ISO VG 68, VI 95, at 40 °C: 68.0 cSt, 316 SUS\n");
}

TEST_CASE("viscosity answers each temperature that is asked, in its order")
{
    const Ran ran = runProgram({"viscosity", "--grade", "46", "--vi", "95", "--at", "-20 C", "--at", "40 C", "--json"});
    REQUIRE(ran.exitCode == 0);
    const auto lines = linesOf(ran.out);
    REQUIRE(lines.size() == 2);
    CHECK_THAT(Json::parse(lines[0])["at_c"].get<double>(), WithinAbs(-20.0, 1e-9));
    CHECK(Json::parse(lines[0])["viscosity_cst"] > Json::parse(lines[1])["viscosity_cst"]);
}

TEST_CASE("viscosity takes one measured point beside the index, two points, or a fixed viscosity")
{
    const Json one = answerOf("viscosity",
                              {"--grade", "46", "--vi", "95", "--point", "43 cSt at 40 C", "--at", "40 C"});
    CHECK_THAT(one["viscosity_cst"].get<double>(), WithinRel(43.0, 1e-6));
    // A calculator sheet after ASTM D341: 32 cSt at 40 °C and 5.4 at 100 make 8.5 at 80.
    const Json two = answerOf("viscosity",
                              {"--point", "32 cSt at 40 C", "--point", "5.4 cSt at 100 C", "--at", "80 C"});
    CHECK_THAT(two["viscosity_cst"].get<double>(), WithinAbs(8.5, 0.05));
    CHECK(two["grade"].is_null());
    CHECK(two["vi"].is_null());
    const Json fixedOne = answerOf("viscosity", {"--viscosity", "51 cSt"});
    CHECK_THAT(fixedOne["viscosity_cst"].get<double>(), WithinRel(51.0, 1e-12));
    CHECK(fixedOne["at_c"].is_null());
    CHECK(fixedOne["sus"].is_null());
}

TEST_CASE("viscosity tells density and dynamic viscosity where the density is known")
{
    // 870 kg/m³ at 15 °C are 854.22 at 40 °C (computed from ASTM D1250); 46 mm²/s × 854.22 = 39.29 mPa·s.
    const Json object = answerOf("viscosity",
                                 {"--grade", "46", "--vi", "95", "--density", "870 kg/m3", "--at", "40 C"});
    CHECK_THAT(object["density_kg_m3"].get<double>(), WithinAbs(854.22, 0.005));
    CHECK_THAT(object["viscosity_pa_s"].get<double>(), WithinAbs(0.03929, 0.00001));
}

TEST_CASE("viscosity says what is to be kept in mind")
{
    const Json water = answerOf(
        "viscosity", {"--grade", "46", "--vi", "150", "--kind", "HFC", "--density", "1080 kg/m3", "--at", "40 C"});
    REQUIRE(water["cautions"].size() == 2);
    CHECK_THAT(water["cautions"][0].get<std::string>(), Contains("water-based"));
    const Json unknown = answerOf("viscosity", {"--grade", "46", "--vi", "95", "--kind", "green drum", "--at", "40 C"});
    REQUIRE(unknown["cautions"].size() == 1);
    CHECK_THAT(unknown["cautions"][0].get<std::string>(), Contains("\"green drum\""));
    CHECK_THAT(runProgram({"viscosity", "--grade", "15", "--vi", "380", "--at", "-40 C"}).out, Contains("polymers"));
}

TEST_CASE("viscosity tells the index of an oil measured at 40 and 100 degrees")
{
    // The example of ASTM D2270: 73.30 and 8.86 mm²/s have 92.43, reported 92.
    const Json index = answerOf("viscosity", {"--at40", "73.30 cSt", "--at100", "8.86 cSt"});
    CHECK(index["vi"] == 92.0);
    CHECK_THAT(index["vi_unrounded"].get<double>(), WithinAbs(92.43, 0.005));
    CHECK(runProgram({"viscosity", "--at40", "73.30 cSt", "--at100", "8.86 cSt"}).out
          == "viscosity index 92 (unrounded 92.43)\n");
    const auto lines = linesOf(
        runProgram({"viscosity", "--at40", "73.30 cSt", "--at100", "8.86 cSt", "--at", "40 C", "--json"}).out);
    REQUIRE(lines.size() == 2);
    CHECK_THAT(Json::parse(lines[1])["viscosity_cst"].get<double>(), WithinRel(73.30, 1e-9));
}

TEST_CASE("viscosity refuses in one sentence what no oil is")
{
    const auto [options, sentence] = GENERATE(table<std::vector<std::string>, std::string>({
        {{"--grade", "ISO VG 70", "--vi", "95", "--at", "0 C"}, "VG 2, 3, 5"},
        {{"--grade", "68", "--vi", "95", "--at", "40"}, "--at: "},
        {{"--grade", "68", "--vi", "high", "--at", "0 C"}, "--vi: "},
        {{"--grade", "68", "--vi", "950", "--at", "0 C"}, "-100 to 500"},
        {{"--grade", "68", "--at", "0 C"}, "viscosity index is missing"},
        {{"--grade", "68", "--vi", "95", "--at", "200 C"}, "200.0 °C"},
        {{"--point", "46 cSt at 40 C", "--at", "0 C"}, "viscosity index is missing"},
        {{"--point", "46 cSt", "--at", "0 C"}, "--point: "},
        {{"--point", "46 cSt at noon", "--at", "0 C"}, "--point: "},
        {{"--point", "5 cSt at 40 C", "--point", "46 cSt at 100 C", "--at", "0 C"}, "falls as it warms"},
        {{"--viscosity", "51 cSt", "--point", "46 cSt at 40 C"}, "fixed viscosity and viscosity points"},
        {{"--at40", "46 cSt", "--at100", "1.5 cSt"}, "2 cSt or more"},
        {{"--at40", "6 cSt", "--at100", "46 cSt"}, "must be above that at 100 °C"},
        {{"--grade", "68", "--vi", "95", "--density", "0.87 kg/m3", "--at", "0 C"}, "density at 15 °C"},
        {{"--density", "heavy", "--viscosity", "51 cSt"}, "--density: "},
    }));
    std::vector<std::string> arguments = {"viscosity"};
    arguments.insert(arguments.end(), options.begin(), options.end());
    CAPTURE(arguments);
    const Ran ran = runProgram(arguments);
    CHECK(ran.exitCode == 1);
    CHECK(ran.out.empty());
    CHECK(linesOf(ran.err).size() == 1);
    CHECK_THAT(ran.err, Contains(sentence));
}
