// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/kill_rounds.h"

#include "base/id.h"
#include "cli/program.h"
#include "store/recovery.h"
#include "store/temp_folder.h"
#include "store/whole_check.h"

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

/// Reads what the program prints until it has printed `lines`, kills it a little later, and reads on to the end.
/// Returns all of it.
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
    const auto killIfSeen = [&] {
        if (seen < lines || isKilled) {
            return;
        }
        for (volatile std::uint64_t turn = 0; turn < turns;) {
            turn = turn + 1;
        }
        ::kill(child, SIGKILL);
        isKilled = true;
    };
    killIfSeen(); // before the first line: while it starts and makes the journal
    char buffer[4096];
    for (ssize_t got = 0; (got = ::read(ends[0], buffer, sizeof(buffer))) > 0;) {
        output.append(buffer, static_cast<std::size_t>(got));
        seen += static_cast<std::uint64_t>(std::count(buffer, buffer + got, '\n'));
        killIfSeen();
    }
    ::close(ends[0]);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK((WIFSIGNALED(status) || (WIFEXITED(status) && WEXITSTATUS(status) == 0)));
    return output;
}

/// G1 of each reading in `journal`.
std::vector<int> readingsIn(const ledger::Journal& journal)
{
    std::vector<int> readings;
    const auto all = journal.read(0, 1'000'000);
    REQUIRE(all);
    for (const ledger::Stored& stored : *all) {
        if (stored.entry.kind == "reading-logged") {
            const auto body = nlohmann::json::parse(stored.entry.body);
            readings.push_back(std::stoi(body["gauges"][0].get<std::string>()));
        }
    }
    return readings;
}

/// What is wrong with the readings that are kept.
std::optional<std::string> wrongAmong(const std::vector<int>& kept, const std::vector<int>& acknowledged)
{
    if (kept.size() < acknowledged.size()) {
        return std::to_string(acknowledged.size()) + " readings were acknowledged, " + std::to_string(kept.size())
            + " are there";
    }
    if (kept.size() > acknowledged.size() + 1) { // one may be committed and not printed yet
        return std::to_string(kept.size()) + " readings are there, of which only " + std::to_string(acknowledged.size())
            + " were acknowledged";
    }
    const auto [wrong, right] = std::mismatch(kept.begin(), kept.begin() + std::ssize(acknowledged),
                                              acknowledged.begin());
    if (right != acknowledged.end()) {
        return std::to_string(*right) + " was acknowledged, " + std::to_string(*wrong) + " is there";
    }
    return std::nullopt;
}

} // namespace

// After the first 10 the valve is in bypass: what is judged of a set while filtering takes longer the more there are,
// and what is asked here is only whether it is kept.
std::string storyOf(int readings)
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

// The ΔP, as G2 shows nothing.
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

std::optional<std::string> wrongWith(const std::string& path, const std::vector<int>& acknowledged, std::size_t& kept)
{
    constexpr std::int64_t noon = 1'783'857'600'000;
    {
        const auto opened = store::openOrRecover(path, "", noon);
        if (!opened) {
            return opened.error().sentence;
        }
        if (opened->recovered) {
            return "there was something to recover: " + opened->recovered->why;
        }
        const std::vector<int> readings = readingsIn(*opened->journal);
        kept = readings.size();
        if (auto wrong = wrongAmong(readings, acknowledged)) {
            return wrong;
        }
    }
    const auto verified = store::verifyWhole(path);
    if (!verified) {
        return verified.error().sentence;
    }
    return verified->faults.empty() ? std::nullopt : std::optional(verified->faults.front().sentence);
}

void checkProgramKills(int rounds, int readings, int firstSeed)
{
    const TempFolder stories;
    const std::string story = stories.file("story.json");
    std::ofstream(story) << storyOf(readings);
    std::size_t told = 0;
    int unfinished = 0;
    for (int seed = firstSeed; seed < firstSeed + rounds; ++seed) {
        SeededRandom random(static_cast<std::uint64_t>(seed));
        const std::uint64_t lines = random.next() % static_cast<std::uint64_t>(readings);
        const std::uint64_t turns = random.next() % (lines == 0 ? 40'000'000 : 2'000'000);
        const TempFolder folder;
        const std::string journal = folder.file("journal.db");
        const auto printed = acknowledged(outputUntilKilled(story, journal, lines, turns));
        std::size_t stored = 0;
        CAPTURE(seed, lines, printed.size());
        CHECK(wrongWith(journal, printed, stored) == std::nullopt);
        told += printed.size();
        unfinished += stored < static_cast<std::size_t>(readings) ? 1 : 0;
    }
    CHECK(unfinished > rounds / 2); // else nothing was killed in the middle
    std::cout << rounds << " kills from seed " << firstSeed << " on, " << unfinished << " in the middle; " << told
              << " readings acknowledged\n";
}

} // namespace loopside::test
