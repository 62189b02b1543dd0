// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Real filters that clog: the data of the PHM Society Europe's challenge of 2020, pressures of a filter bench over
// time. The data is not part of the project; where it is not there nothing is checked, and the test says so.

#include "story/told_stories.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <sstream>

using namespace loopside;
using namespace loopside::test;

namespace {

constexpr const char* limitPsi = "20";

struct Reading
{
    int second = 0;
    std::string dp; ///< The digits of the file.
};

using Runs = std::map<std::string, std::vector<Reading>>;

std::string dataFile()
{
    const char* folder = std::getenv("LOOPSIDE_DATA");
    const std::string data = folder != nullptr ? folder : std::string(LOOPSIDE_SOURCE_DIR) + "/../shared/data";
    return data + "/phme20/runs.csv";
}

/// One reading every 10 s of each run. Columns: run, group, t_s (in steps of 0.1 s), dp, …
Runs runsFrom(std::istream& file)
{
    Runs runs;
    std::string line;
    std::getline(file, line);
    while (std::getline(file, line)) {
        std::istringstream fields(line);
        std::string run;
        std::string group;
        std::string time;
        std::string dp;
        std::getline(std::getline(std::getline(std::getline(fields, run, ','), group, ','), time, ','), dp, ',');
        const std::string whole = time.substr(0, time.find('.'));
        const bool isTenth = time == whole || time == whole + ".0";
        if (isTenth && std::stoi(whole) % 10 == 0) {
            runs[run].push_back({std::stoi(whole), dp});
        }
    }
    return runs;
}

std::string clock(int second)
{
    char text[16];
    std::snprintf(text, sizeof(text), "%02d:%02d:%02d", second / 3600, second / 60 % 60, second % 60);
    return text;
}

/// The run as a story: one stage, G1 shows the file's ΔP and G2 nothing.
std::string storyOf(const std::vector<Reading>& readings)
{
    std::string text = R"({"tank": {"name": "bench", "volume": "400 L", "fluid": {"viscosity": "46 cSt"}},
        "cart": {"name": "bench", "flow": "19 L/min", "gauges": {"unit": "psi"}},
        "stages": [{"elements": 1, "change_limit": ")"
        + std::string(limitPsi) + R"( psi"}], "entries": [{"at": "00:00:00", "mode": "filtering"})";
    for (const Reading& reading : readings) {
        text += ",\n{\"at\": \"" + clock(reading.second) + "\", \"gauges\": [" + reading.dp + ", 0]}";
    }
    return text + "]}";
}

bool isAtLimit(const nlohmann::ordered_json& told)
{
    for (const auto& alert : told["alerts"]) {
        if (alert["id"] == "stage-at-limit") {
            return true;
        }
    }
    return false;
}

} // namespace

TEST_CASE("on real filters the change alert comes at the first reading at the limit and never before")
{
    std::ifstream file(dataFile());
    if (!file) {
        const std::string message =
            "skipped: the filter bench data is missing; NOTHING WAS CHECKED. Set LOOPSIDE_DATA to its folder.";
        std::cout << message << std::endl;
        WARN(message);
        return;
    }
    const Decimal limit = Decimal::parse(limitPsi).value();
    int reached = 0;
    int readings = 0;
    for (const auto& [run, series] : runsFrom(file)) {
        const ToldStory told = tell(storyOf(series));
        bool isReached = false;
        std::size_t at = 0; // of the objects: those of time alone lie between
        for (const Reading& reading : series) {
            isReached = isReached || Decimal::parse(reading.dp).value() >= limit;
            do {
                ++at;
                REQUIRE(at < told.objects.size());
            } while (told.objects[at].contains("cause"));
            CAPTURE(run, reading.second, reading.dp);
            REQUIRE(told.objects[at]["t_s"] == reading.second);
            if (isReached && isAtLimit(told.objects[at]) && Decimal::parse(reading.dp).value() >= limit) {
                ++readings;
            }
            // Once raised it stays, returned or not, as nobody acknowledges it.
            CHECK(isAtLimit(told.objects[at]) == isReached);
        }
        reached += isReached ? 1 : 0;
    }
    CHECK(reached == 24); // counted in the file by itself: 24 runs have a reading of 20 psi or more on a tenth second
    std::cout << "alert at the first reading at the limit: " << reached << " runs; " << readings << " readings at it\n";
}
