// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The verb forecast, as people and programs run it. The series are computed here: ΔP rises as e^(3·t ÷ life) times 5 %
// of the limit, so it is at the limit at t = life.

#include "cli/program.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <fstream>

using namespace loopside;
using namespace loopside::test;
using Catch::Contains;
using Json = nlohmann::json;
using Arguments = std::vector<std::string>;

namespace {

constexpr double limitPa = 600.0;
constexpr double steps = 25.0; // readings in a life

std::string rounded(double number)
{
    return std::to_string(std::lround(number));
}

/// Readings up to `part` of the life, rounded to whole Pa; `tail` stands behind each line.
std::string series(const std::string& run, double life_s, double part, const std::string& tail = "")
{
    std::string text;
    for (double t = life_s / steps; t <= part * life_s * (1.0 + 1e-9); t += life_s / steps) {
        text += run + "," + rounded(t) + "," + rounded(limitPa * std::exp(3.0 * (t / life_s - 1.0))) + tail + "\n";
    }
    return text;
}

/// Five past loadings of 8 000 to 12 000 s.
std::string history()
{
    std::string text = "run,t_s,dp,limit,t_limit_s\n";
    for (const int life : {8000, 9000, 10000, 11000, 12000}) {
        text += series("past" + std::to_string(life), life, 1.0, ",600," + std::to_string(life));
    }
    return text;
}

class Files
{
public:
    std::string write(const std::string& name, const std::string& text) const
    {
        std::ofstream(folder_.file(name), std::ios::binary) << text;
        return folder_.file(name);
    }

    /// Runs the verb on `readings`; `more` may override nothing, only add.
    Ran forecast(const std::string& readings, const Arguments& more = {}) const
    {
        Arguments arguments = {"forecast", "--readings", write("r.csv", readings), "--limit", "600", "--unit", "Pa"};
        arguments.insert(arguments.end(), more.begin(), more.end());
        return runProgram(arguments);
    }

    std::vector<Json> objects(const std::string& readings, Arguments more = {}) const
    {
        more.emplace_back("--json");
        const Ran ran = forecast(readings, more);
        CAPTURE(ran.err);
        REQUIRE(ran.exitCode == 0);
        std::vector<Json> all;
        for (const std::string& line : linesOf(ran.out)) {
            all.push_back(Json::parse(line));
        }
        return all;
    }

private:
    TempFolder folder_;
};

} // namespace

TEST_CASE("forecast tells an object after each reading, with the end in its range where loadings alike are known")
{
    const Files files;
    const auto told = files.objects("run,t_s,dp\n" + series("7", 9500, 0.72),
                                    {"--history", files.write("h.csv", history())});
    REQUIRE(told.size() == 18);
    for (const Json& object : told) {
        CHECK(object["run"] == 7);
        CHECK(object["past_loadings"] == 5);
    }
    const Json& last = told.back();
    CHECK(last["state"] == "forecast");
    CHECK(last["why_id"] == "from-past-loadings");
    CHECK(last["t10_s"] < 9500.0);
    CHECK(last["t90_s"] > 9500.0);
    // One shape throughout and hardly an error: 5 % of the life is what a clean curve has to give at 72 % of it.
    CHECK(std::abs(last["t50_s"].get<double>() - 9500.0) < 0.05 * 9500.0);
    CHECK(std::abs(last["phase"].get<double>() - 0.72) < 0.05);
}

TEST_CASE("forecast says why where nothing can be told yet, and early where no loading is known")
{
    const Files files;
    const auto told = files.objects("run,t_s,dp\n" + series("a", 10000, 0.8));
    CHECK(told[0]["state"] == "none");
    CHECK(told[0]["why_id"] == "too-few-readings");
    CHECK(told[0]["t50_s"].is_null());
    CHECK(told[0]["phase"].is_null());
    CHECK(told.back()["state"] == "early");
    CHECK(told.back()["past_loadings"] == 0);
    CHECK(told.back()["t10_s"] > 8000.0); // the end lies ahead
    CHECK(told.back()["t10_s"] < told.back()["t50_s"]);
    CHECK(told.back()["t50_s"] < told.back()["t90_s"]);
}

TEST_CASE("a limit below the first reading is answered: it is reached")
{
    const Files files;
    const auto told = files.objects("run,t_s,dp\nx,10,600\nx,20,599\n");
    CHECK(told[0]["state"] == "reached");
    CHECK(told[0]["phase"] == 1.0);
    CHECK(told[0]["t50_s"].is_null());
    CHECK(told[1]["state"] != "reached");
}

TEST_CASE("columns stand in any order, with others between, quoted or not, with any line end and mark")
{
    const Files files;
    const auto plain = files.objects("run,t_s,dp\nx,10,30\nx,20,40\nx,30,60\n");
    CHECK(files.objects("\xEF\xBB\xBF"
                        "dp,group,run,\"t_s\"\r\n30,\"a, b\",x,10\r\n\"40\",,x,20\r\n\r\n 60 ,c,x,30")
          == plain);
}

TEST_CASE("the unit changes nothing but the numbers")
{
    const Files files;
    const std::string readings = files.write("kpa.csv", "run,t_s,dp\nx,10,0.030\nx,20,0.040\nx,30,0.060\n");
    const Ran ran = runProgram(
        {"forecast", "--readings", readings, "--limit", "0.6", "--unit", "kPa", "--graduation", "0.001", "--json"});
    const auto pascals = files.objects("run,t_s,dp\nx,10,30\nx,20,40\nx,30,60\n", {"--graduation", "1"});
    const auto lines = linesOf(ran.out);
    REQUIRE(lines.size() == pascals.size());
    CHECK(Json::parse(lines.back())["state"] == pascals.back()["state"]);
    CHECK(std::abs(Json::parse(lines.back())["t50_s"].get<double>() - pascals.back()["t50_s"].get<double>()) < 0.01);
}

TEST_CASE("a coarser graduation makes a wider range")
{
    const Files files;
    const std::string readings = "run,t_s,dp\n" + series("x", 9500, 0.4);
    const Arguments past = {"--history", files.write("h.csv", history()), "--last"};
    const auto width = [&](const std::string& graduation) {
        Arguments more = past;
        more.insert(more.end(), {"--graduation", graduation});
        const Json told = files.objects(readings, more).back();
        return told["t90_s"].get<double>() - told["t10_s"].get<double>();
    };
    CHECK(width("60") > width("1"));
}

TEST_CASE("the load is flow times time: half the flow takes twice as long")
{
    const Files files;
    std::string past = "run,t_s,dp,flow,limit,t_limit_s\n";
    for (const int life : {9000, 10000, 11000}) {
        past += series("p" + std::to_string(life), life, 1.0, ",19,600," + std::to_string(life));
    }
    const auto told = files.objects("run,t_s,dp,flow\n" + series("slow", 20000, 0.72, ",9.5"),
                                    {"--history", files.write("h.csv", past), "--last"});
    // Computed: 10 000 s at 19 are 20 000 s at 9.5.
    CHECK(std::abs(told.back()["t50_s"].get<double>() - 20000.0) < 0.05 * 20000.0);
    const auto still = files.objects("run,t_s,dp,flow\nx,10,30,19\nx,20,40,19\nx,30,0,0\n");
    CHECK(still.back()["why_id"] == "no-flow");
}

TEST_CASE("a run does not learn from itself, and a loading that was cut short counts by its life")
{
    const Files files;
    const std::string past = files.write("h.csv", history() + series("cut", 10000, 0.5, ",600,"));
    const auto own = files.objects("run,t_s,dp\n" + series("past9000", 9000, 0.6), {"--history", past, "--last"});
    CHECK(own.back()["past_loadings"] == 5);
    const auto other = files.objects("run,t_s,dp\n" + series("x", 9000, 0.6), {"--history", past, "--last"});
    CHECK(other.back()["past_loadings"] == 6);
    CHECK_THAT(files.forecast("run,t_s,dp\n" + series("past9000", 9000, 0.6), {"--history", past}).out,
               Contains("does not learn from itself"));
}

TEST_CASE("forecasts after each so many readings, or the last, are those that are told after each")
{
    const Files files;
    const std::string readings = "run,t_s,dp\n" + series("x", 10000, 0.8) + series("y", 9000, 0.7);
    const auto all = files.objects(readings);
    const auto fifth = files.objects(readings, {"--every", "5"});
    REQUIRE(fifth.size() == 4 + 4); // 20 readings, and 17 of which the last is told too
    CHECK(fifth[0] == all[4]);
    CHECK(fifth.back() == all.back());
    const auto last = files.objects(readings, {"--last"});
    REQUIRE(last.size() == 2);
    CHECK(last[0] == all[19]);
}

TEST_CASE("a series of ten thousand readings is told like one that is thinned by hand")
{
    const Files files;
    std::string dense = "run,t_s,dp\n";
    std::string sparse = dense;
    for (int t = 1; t <= 8000; ++t) {
        const std::string line = "x," + std::to_string(t) + "," + rounded(limitPa * std::exp(3.0 * (t / 10000.0 - 1.0)))
            + "\n";
        dense += line;
        sparse += t % 100 == 0 ? line : "";
    }
    const Arguments more = {"--history", files.write("h.csv", history()), "--last"};
    const double fromDense = files.objects(dense, more).back()["t50_s"].get<double>();
    const double fromSparse = files.objects(sparse, more).back()["t50_s"].get<double>();
    CHECK(std::abs(fromDense - fromSparse) < 0.02 * 10000.0); // means of neighbours say what they say
}

TEST_CASE("people read a table with its unit and one sentence, in their language")
{
    const Files files;
    const std::string readings = "run,t_s,dp\n" + series("PH-3", 9500, 0.72);
    const std::string past = files.write("h.csv", history());
    const auto lines = linesOf(files.forecast(readings, {"--history", past}).out);
    REQUIRE(lines.size() == 1 + 1 + 18 + 1 + 1);
    CHECK_THAT(lines[0], Contains("Run PH-3, limit 600 Pa"));
    CHECK_THAT(lines[1], Contains("ΔP [Pa]"));
    CHECK_THAT(lines[19], Contains("1:54:00")); // 0.72 × 9 500 s
    CHECK_THAT(lines[20], Contains("in 8 cases of 10") && Contains("Check the gauge."));
    const auto [language, says] = GENERATE(
        table<std::string, std::string>({{"es", "Compruebe el manómetro."}, {"de", "Manometer prüfen."}}));
    const Ran ran = files.forecast(readings, {"--history", past, "--language", language});
    CHECK_THAT(ran.out, Contains(says));
    CHECK(ran.out.find('[') == ran.out.find("[Pa]")); // no sentence is missing
    CHECK(ran.out.find('[', ran.out.find("[Pa]") + 1) == std::string::npos);
}

TEST_CASE("every bad series is refused in a sentence that names file, line and column")
{
    const auto [text, sentence] = GENERATE(table<std::string, std::string>({
        {"", ": the file is empty"},
        {"1,2,3\n", ", line 1 (header): there is no column \"run\""},
        {"run;t_s;dp\n1;2;3\n", ", line 1 (header): there is no column \"run\""},
        {"run,t_s\n1,2\n", ", line 1 (header): there is no column \"dp\""},
        {"run,t_s,dp,dp\n1,2,3,3\n", ", line 1 (header): the column \"dp\" stands there twice"},
        {"run,t_s,\"dp\n1,2,3\n", ", line 1 (header): a quotation mark is not closed"},
        {"run,t_s,dp\n", ": there is no reading behind the header"},
        {"run,t_s,dp\n1,2,abc\n", ", line 2, column dp: \"abc\" is no number"},
        {"run,t_s,dp\n1,2,\n", ", line 2, column dp: there is no number"},
        {"run,t_s,dp\n1,2,1,500\n", ", line 2: there are more fields than the header names"},
        {"run,t_s,dp\n1,2,\"1,500\"\n", ", line 2, column dp: \"1,500\" has a comma"},
        {"run,t_s,dp\n1,2,NaN\n", ", line 2, column dp: \"NaN\" is no number"},
        {"run,t_s,dp\n1,inf,3\n", ", line 2, column t_s: \"inf\" is beyond any reading"},
        {"run,t_s,dp\n1,2,1e400\n", ", line 2, column dp: \"1e400\" is beyond any reading"},
        {"run,t_s,dp\n1,-2,3\n", ", line 2, column t_s: the time is below 0: -2"},
        {"run,t_s,dp\n1,2\n", ", line 2: there are fewer fields than the header names"},
        {"run,t_s,dp\n1,2,\"3\n", ", line 2: a quotation mark is not closed"},
        {"run,t_s,dp\n,2,3\n", ", line 2, column run: the run has no name"},
        {"run,t_s,dp,flow\n1,2,3,much\n", ", line 2, column flow: \"much\" is no number"},
        {"run,t_s,dp,flow\n1,2,3,0\n", ", column flow: no flow is above 0"},
        {"run,t_s,dp\n1,2,\xFF\n", ": this is not text in UTF-8"},
        {std::string("run,t_s,dp\n1,2,3\0junk\n", 21), ": this is not text in UTF-8"},
    }));
    const Files files;
    const Ran ran = files.forecast(text, {"--json"});
    CAPTURE(text, ran.err);
    CHECK(ran.exitCode == 1);
    CHECK(ran.out.empty());
    CHECK(linesOf(ran.err).size() == 1);
    CHECK_THAT(ran.err, Catch::StartsWith("loopside-cli: /") && Contains("r.csv" + sentence));
}

TEST_CASE("a fault costs the rest of its run, the others are told")
{
    const auto [text, sentence, told] = GENERATE(table<std::string, std::string, std::size_t>({
        {"run,t_s,dp\n1,10,5\n1,5,6\n1,20,7\n2,10,5\n", "line 3, column t_s: the time goes back to 5", 2},
        {"run,t_s,dp\n1,10,5\n2,10,5\n1,20,7\n", "line 4, column run: run \"1\" goes on after another", 2},
        {"run,t_s,dp\n1,10,x\n1,20,5\n2,10,5\n3,10,5\n", "line 2, column dp", 2},
    }));
    const Files files;
    const Ran ran = files.forecast(text, {"--json"});
    CAPTURE(text);
    CHECK(ran.exitCode == 1);
    CHECK(linesOf(ran.out).size() == told);
    CHECK(linesOf(ran.err).size() == 1);
    CHECK_THAT(ran.err, Contains(sentence));
}

TEST_CASE("a bad history is told beside what can be forecast without the run at fault")
{
    const Files files;
    const auto [line, sentence] = GENERATE(table<std::string, std::string>({
        {"bad,1,5,0,9\n", "column limit: the limit has to be above 0, not 0"},
        {"bad,1,5,600,-9\n", "column t_limit_s: the time has to be above 0, not -9"},
        {"bad,1,5,600,9\nbad,2,6,500,9\n", "column limit: the limit of a run is the same"},
        {"bad,1,5,600,9\nbad,2,6,600,\n", "column t_limit_s: the time of a run's limit is the same"},
    }));
    const Ran ran = files.forecast("run,t_s,dp\n" + series("x", 9500, 0.72),
                                   {"--history", files.write("h.csv", history() + line), "--last", "--json"});
    CHECK(ran.exitCode == 1);
    CHECK(Json::parse(ran.out)["past_loadings"] == 5);
    CHECK_THAT(ran.err, Contains("h.csv, line ") && Contains(sentence));
}

TEST_CASE("wrong options of forecast are refused by their names")
{
    const Files files;
    const std::string readings = files.write("r.csv", "run,t_s,dp\n1,2,3\n");
    const auto [limit, unit, more, sentence] = GENERATE(table<std::string, std::string, Arguments, std::string>({
        {"0", "Pa", {}, "--limit: it must be above zero, not 0"},
        {"-5", "Pa", {}, "--limit: it must be above zero, not -5"},
        {"1,500", "Pa", {}, "--limit: \"1,500\" can be read in two ways"},
        {"600", "furlong", {}, "--unit: \"furlong\" is not a unit of a pressure"},
        {"600", "Pa", {"--graduation", "0"}, "--graduation: it must be above zero"},
        {"600", "Pa", {"--every", "0"}, "--every: it must be 1 or more"},
        {"600", "Pa", {"--kin", "cousin"}, "--kin: \"cousin\" is not known"},
        {"600", "Pa", {"--language", "fr"}, "--language: "},
        {"600", "Pa", {"--history", "none.csv"}, "none.csv cannot be opened"},
    }));
    Arguments arguments = {"forecast", "--readings", readings, "--limit", limit, "--unit", unit};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const Ran ran = runProgram(arguments);
    CHECK(ran.exitCode == 1);
    CHECK(ran.out.empty());
    CHECK_THAT(ran.err, Catch::StartsWith("loopside-cli: " + sentence));
    CHECK(runProgram({"forecast", "--readings", readings, "--limit", "600"}).exitCode == 2); // no unit
}

TEST_CASE("a file or a line that is too long is refused")
{
    const Files files;
    CHECK_THAT(files.forecast(std::string(64'000'001, '7')).err, Contains("larger than 64 MB"));
    CHECK_THAT(files.forecast("run,t_s,dp\n1,2," + std::string(20'000'000, '7') + "\n").err,
               Contains(", line 2: the line is longer than 16 MB"));
}
