// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The verbs flush, transfer and cleanup, as people and programs run them.

#include "cli/program.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>

using namespace loopside::test;
using Catch::Contains;
using Catch::WithinAbs;
using Catch::WithinRel;
using Json = nlohmann::json;
using Arguments = std::vector<std::string>;

namespace {

Json answer(Arguments arguments)
{
    arguments.emplace_back("--json");
    const Ran ran = runProgram(arguments);
    REQUIRE(ran.exitCode == 0);
    CHECK(ran.err.empty());
    CHECK(linesOf(ran.out).size() == 1);
    return Json::parse(ran.out);
}

Arguments with(Arguments arguments, const Arguments& more)
{
    arguments.insert(arguments.end(), more.begin(), more.end());
    return arguments;
}

/// Exit 1 and one sentence that begins with the option.
void checkRefused(const Arguments& arguments, const std::string& option)
{
    const Ran ran = runProgram(arguments);
    CAPTURE(arguments, ran.err);
    CHECK(ran.exitCode == 1);
    CHECK(ran.out.empty());
    CHECK(linesOf(ran.err).size() == 1);
    CHECK_THAT(ran.err, Catch::StartsWith("loopside-cli: " + option + ": "));
}

const Arguments flush = {"flush", "--left", "1.5 L", "--batch", "10 L"};
const Arguments transfer = {"transfer", "--oil", "160 L", "--container", "205 L", "--flow", "19 L/min"};
const Arguments cleanUp = {"cleanup",  "--from", "20/18/15", "--to",    "17/15/12",
                           "--volume", "400 L",  "--flow",   "19 L/min"};

} // namespace

TEST_CASE("flush tells what stays after so many batches, or how many it takes")
{
    // Common practice, computed: 1.5 L left and 10 L a flush leave 13 %, 1.7 %, 0.22 %; 8 L into 60 L are 13 %.
    const Json three = answer(with(flush, {"--batches", "3", "--tank", "60 L", "--hold-up", "8 L"}));
    CHECK_THAT(three["residual"].get<double>(), WithinAbs(0.0022, 5e-5));
    CHECK_THAT(three["total_l"].get<double>(), WithinRel(30.0, 1e-12));
    CHECK_THAT(three["carry_over"].get<double>(), WithinRel(8.0 / 60.0, 1e-12));
    CHECK(three["carry_over_after"].get<double>() < three["carry_over"].get<double>());
    CHECK(answer(flush)["batches"] == 3); // 1 % where nothing else is asked for
    CHECK(answer(with(flush, {"--wanted", "2 %"}))["batches"] == 2);
    CHECK_THAT(runProgram(with(flush, {"--batches", "2"})).out, Contains("1.70 %"));
}

TEST_CASE("flush tells what goes together and where no flush is enough")
{
    const Json food = answer(with(flush, {"--from", "ISO VG 46 hydraulic", "--to", "food-grade VG 46"}));
    CHECK(food["batches"].is_null());
    CHECK_THAT(food["why"].get<std::string>(), Contains("own cart"));
    CHECK(food["suits"][0]["level"] == "conflict");
    const Json gear = answer(with(flush, {"--from", "ISO VG 46 hydraulic", "--to", "ISO VG 220 gear"}));
    CHECK(gear["batches"] == 3);
    CHECK(gear["suits"][0]["level"] == "caution");
    CHECK_THAT(runProgram(with(flush, {"--from", "the blue stuff", "--to", "gear"})).out, Contains("cannot tell"));
}

TEST_CASE("transfer tells when to stop, how many drums, label and cautions")
{
    // A case from the trade: 205 L drum with 60 L in it, 6.9 min, a second container for 30 L.
    const Json plan = answer(with(transfer, {"--holds", "60 L", "--tank", "SP-4"}));
    CHECK_THAT(plan["free_l"].get<double>(), WithinRel(145.0, 1e-9));
    CHECK_THAT(plan["usable_l"].get<double>(), WithinRel(130.5, 1e-9));
    CHECK_THAT(plan["stop_at_s"].get<double>() / 60.0, WithinAbs(6.9, 0.05));
    CHECK(plan["containers"] == 2);
    CHECK_THAT(plan["left_l"].get<double>(), WithinAbs(30.0, 1.0));
    CHECK(plan["turnovers"] == 0.0);
    CHECK(plan["cart_mark"] == "flush before clean use");
    CHECK(plan["label"][1] == "From: SP-4");
    CHECK(plan["cautions"].size() == 7);
    CHECK_THAT(runProgram(with(transfer, {"--holds", "60 L"})).out,
               Contains("6.9 min") && Contains("usable 130 L") && Contains("30 L are left: a second container")
                   && Contains("Used Oil") && Contains("bypass"));
}

TEST_CASE("cleanup tells turnovers and time from one code to another")
{
    // Computed from the limits of ISO 4406: 20 to 16 at β 1000, 200 gal at 5 gpm: 2.7516 turnovers, 110.06 min.
    const Json way = answer({"cleanup", "--from", "20/20/20", "--to", "16/16/16", "--volume", "200 gal", "--flow",
                             "5 gpm", "--beta", "1000", "--mixing", "1"});
    CHECK_THAT(way["turnovers"].get<double>(), WithinAbs(2.7516, 5e-5));
    CHECK_THAT(way["run_s"].get<double>() / 60.0, WithinAbs(110.06, 0.005));
    CHECK_THAT(way["never_passed"].get<double>(), WithinRel(std::exp(-2.7516), 1e-4));
    const Json stages = answer(with(cleanUp, {"--beta", "10", "--beta", "20"}));
    CHECK_THAT(stages["capture_times_mixing"].get<double>(), WithinRel(0.995 * 0.7, 1e-12));
    CHECK(stages["sizes"].size() == 3);
    CHECK_THAT(runProgram(cleanUp).out, Contains("mixing 0.7 assumed") && Contains("only a count tells"));
}

TEST_CASE("cleanup says where a floor keeps a code from being reached, and expects a code after so many turnovers")
{
    const Json held = answer(with(cleanUp, {"--floor", "18/12/9", "--after", "3"}));
    CHECK(held["turnovers"].is_null());
    CHECK(held["run_s"].is_null());
    CHECK_THAT(held["why"].get<std::string>(), Contains("At 4 µm") && Contains("never reached"));
    CHECK(held["code_after"]["turnovers"] == 3.0);
    CHECK(held["code_after"]["to"].get<std::string>().starts_with("19/"));
    CHECK_THAT(runProgram(with(cleanUp, {"--floor", "18/12/9"})).out, Contains("cannot be reached"));
}

TEST_CASE("cleanup learns from counts that were taken during the run")
{
    const Json way = answer(with(cleanUp, {"--count", "1.5:19/17/14", "--count", "3:18/16/13"}));
    REQUIRE(way["learned"].size() == 3);
    const Json& four = way["learned"][0];
    CHECK(four["size_um"] == 4);
    // One number in 1.5 turnovers: ln 2 / 1.5 = 0.46 if there is no floor.
    CHECK(four["capture_times_mixing"]["low"] < 0.46);
    CHECK(four["capture_times_mixing"]["high"] > 0.46);
    CHECK(four["turnovers"]["low"] > 1.5);
    CHECK(four["floor_told"] == false);
    const Json microscope = answer(with(cleanUp, {"--count", "3:-/16/13"}));
    CHECK_THAT(microscope["learned"][0]["why"].get<std::string>(), Contains("Two counts"));
    CHECK(microscope["learned"][1]["why"].is_null());
}

TEST_CASE("every wrong value of these verbs is refused in one sentence that names its option")
{
    checkRefused({"flush", "--left", "0 L", "--batch", "10 L"}, "--left");
    checkRefused({"flush", "--left", "1.5", "--batch", "10 L"}, "--left");
    checkRefused({"flush", "--left", "1.5 L", "--batch", "-1 L"}, "--batch");
    checkRefused({"flush", "--left", "1.5 L", "--batch", "0.0001 L"}, "--batch");
    checkRefused(with(flush, {"--wanted", "0 %"}), "--wanted");
    checkRefused(with(flush, {"--wanted", "100 %"}), "--wanted");
    checkRefused(with(flush, {"--wanted", "1 %", "--batches", "2"}), "--wanted");
    checkRefused(with(flush, {"--batches", "1.5"}), "--batches");
    checkRefused(with(flush, {"--batches", "-1"}), "--batches");
    checkRefused(with(flush, {"--tank", "60 L"}), "--hold-up");
    checkRefused(with(flush, {"--hold-up", "8 L"}), "--tank");
    checkRefused(with(flush, {"--tank", "0 L", "--hold-up", "8 L"}), "--tank");
    checkRefused(with(flush, {"--tank", "60 L", "--hold-up", "0 L"}), "--hold-up");
    checkRefused(with(flush, {"--from", "gear"}), "--to");
    checkRefused(with(flush, {"--to", "gear"}), "--from");

    checkRefused(with(transfer, {"--holds", "206 L"}), "--holds");
    checkRefused(with(transfer, {"--holds", "200 L"}), "--holds");
    checkRefused(with(transfer, {"--holds", "-1 L"}), "--holds");
    checkRefused({"transfer", "--oil", "0 L", "--container", "205 L", "--flow", "19 L/min"}, "--oil");
    checkRefused({"transfer", "--oil", "1 L", "--container", "0 L", "--flow", "19 L/min"}, "--container");
    checkRefused({"transfer", "--oil", "1 L", "--container", "205 L", "--flow", "0 L/min"}, "--flow");
    checkRefused({"transfer", "--oil", "1000000 L", "--container", "205 L", "--flow", "19 L/min"}, "--container");

    const auto cleanUpOf = [](const std::string& from, const std::string& to, const std::string& volume,
                              const std::string& flow) {
        return Arguments{"cleanup", "--from", from, "--to", to, "--volume", volume, "--flow", flow};
    };
    checkRefused(cleanUpOf("20/18", "17/15/12", "400 L", "19 L/min"), "--from");
    checkRefused(cleanUpOf("20/18/15", "soon", "400 L", "19 L/min"), "--to");
    checkRefused(cleanUpOf("20/18/15", "17/15/12", "0 L", "19 L/min"), "--volume");
    checkRefused(cleanUpOf("20/18/15", "17/15/12", "400 L", "19"), "--flow");
    checkRefused(with(cleanUp, {"--beta", "0.5"}), "--beta");
    checkRefused(with(cleanUp, {"--mixing", "0"}), "--mixing");
    checkRefused(with(cleanUp, {"--mixing", "1.1"}), "--mixing");
    checkRefused(with(cleanUp, {"--floor", "9/12/14"}), "--floor");
    checkRefused(with(cleanUp, {"--after=-1"}), "--after");
    checkRefused(with(cleanUp, {"--count", "17/15/12"}), "--count");
    checkRefused(with(cleanUp, {"--count", "0:17/15/12"}), "--count");
    checkRefused(with(cleanUp, {"--count", "x:17/15/12"}), "--count");
    checkRefused(with(cleanUp, {"--count", "3:x"}), "--count");
}
