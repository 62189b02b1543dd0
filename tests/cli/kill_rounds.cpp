// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/kill_rounds.h"

#include "base/id.h"
#include "cli/program.h"
#include "store/temp_folder.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdio>
#include <fstream>
#include <iostream>

namespace loopside::test {

namespace {

/// A number that no other reading of the story has stands on G1. After the first 10 the valve is in bypass: what is
/// judged of a set while filtering takes longer the more there are, and what is asked here is only whether it is kept.
std::string storyText(int readings)
{
    constexpr int whileFiltering = 10;
    std::string text = R"({"tank": {"name": "T", "volume": "400 L", "fluid": {"viscosity": "46 cSt"}},
        "cart": {"name": "C", "flow": "19 L/min", "gauges": {"unit": "kPa"}},
        "stages": [{"elements": 1, "change_limit": "5000 kPa"}], "entries": [{"at": "00:00:00", "mode": "filtering"})";
    for (int i = 1; i <= readings; ++i) {
        char time[16];
        std::snprintf(time, sizeof(time), "%02d:%02d:00", i / 60, i % 60);
        const std::string mode = i == whileFiltering ? "\"mode\": \"bypassing\", " : "";
        text += ",\n{\"at\": \"" + std::string(time) + "\", " + mode + "\"gauges\": [" + std::to_string(i) + ", 0]}";
    }
    return text + "]}";
}

/// Reads what the program prints until it has printed `lines`, kills it, and reads on to the end. Returns all of it.
std::string outputUntilKilled(const std::string& story, const std::string& journal, std::uint64_t lines,
                              std::uint64_t turns)
{
    int ends[2] = {};
    REQUIRE(::pipe(ends) == 0);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        ::dup2(ends[1], STDOUT_FILENO);
        ::close(ends[0]);
        ::close(ends[1]);
        ::execl(LOOPSIDE_CLI, LOOPSIDE_CLI, "replay", "--json", "--journal", journal.c_str(), story.c_str(), nullptr);
        ::_exit(127);
    }
    ::close(ends[1]);
    std::string output;
    std::uint64_t seen = 0;
    bool isKilled = false;
    char buffer[4096];
    for (ssize_t got = 0; (got = ::read(ends[0], buffer, sizeof(buffer))) > 0;) {
        output.append(buffer, static_cast<std::size_t>(got));
        seen += static_cast<std::uint64_t>(std::count(buffer, buffer + got, '\n'));
        if (seen >= lines && !isKilled) {
            for (volatile std::uint64_t turn = 0; turn < turns;) {
                turn = turn + 1;
            }
            ::kill(child, SIGKILL);
            isKilled = true;
        }
    }
    ::close(ends[0]);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK((WIFSIGNALED(status) || (WIFEXITED(status) && WEXITSTATUS(status) == 0)));
    return output;
}

/// G1 of each reading in whole lines of `replay --json`: the ΔP, as G2 shows nothing.
std::vector<int> acknowledged(const std::string& output)
{
    std::vector<int> readings;
    for (const std::string& line : linesOf(output.substr(0, output.rfind('\n') + 1))) {
        const auto object = nlohmann::json::parse(line);
        if (!object["dp_pa"][0].is_null()) {
            readings.push_back(static_cast<int>(object["dp_pa"][0].get<double>() / 1000.0 + 0.5));
        }
    }
    return readings;
}

std::vector<int> kept(const std::string& journal)
{
    std::vector<int> readings;
    for (const std::string& line : linesOf(runProgram({"record", "--json", journal}).out)) {
        const auto object = nlohmann::json::parse(line);
        if (object["kind"] == "reading-logged") {
            const auto body = nlohmann::json::parse(object["body"].get<std::string>());
            readings.push_back(std::stoi(body["gauges"][0].get<std::string>()));
        }
    }
    return readings;
}

} // namespace

void checkProgramKills(int rounds, int readings)
{
    const TempFolder folder;
    const std::string story = folder.file("story.json");
    std::ofstream(story) << storyText(readings);
    std::size_t told = 0;
    std::size_t unfinished = 0;
    for (int round = 1; round <= rounds; ++round) {
        SeededRandom random(static_cast<std::uint64_t>(round));
        const std::uint64_t lines = 1 + random.next() % static_cast<std::uint64_t>(readings);
        const std::string journal = folder.file("journal" + std::to_string(round) + ".db");
        const auto printed = acknowledged(outputUntilKilled(story, journal, lines, random.next() % 2'000'000));
        const auto stored = kept(journal);
        CAPTURE(round, lines, printed.size(), stored.size());
        REQUIRE(stored.size() >= printed.size());
        CHECK(std::equal(printed.begin(), printed.end(), stored.begin()));
        CHECK(stored.size() <= printed.size() + 1); // one may be committed and not printed yet
        CHECK(runProgram({"verify", journal}).exitCode == 0);
        told += printed.size();
        unfinished += stored.size() < static_cast<std::size_t>(readings) ? 1 : 0;
    }
    CHECK(unfinished > static_cast<std::size_t>(rounds) / 2); // else nothing was killed in the middle
    std::cout << rounds << " kills, " << unfinished << " in the middle; " << told
              << " readings acknowledged, none lost\n";
}

} // namespace loopside::test
