// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "bench_runs.h"

#include <charconv>
#include <fstream>
#include <map>
#include <random>
#include <span>
#include <utility>

namespace loopside::evaluation {

namespace {

constexpr std::uint64_t splitSeed = 2022;
constexpr int splitCount = 10;

std::vector<std::string> fieldsOf(const std::string& line)
{
    std::vector<std::string> fields(1);
    for (const char c : line) {
        if (c == ',') {
            fields.emplace_back();
        } else if (c != '\r') {
            fields.back() += c;
        }
    }
    return fields;
}

bool toNumber(const std::string& text, double& number)
{
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    return error == std::errc() && end == text.data() + text.size();
}

tl::unexpected<Error> malformed(const std::filesystem::path& file, std::size_t line)
{
    return fail(Errc::Malformed, file.string() + ", line " + std::to_string(line) + ": not as expected");
}

void shuffle(std::vector<std::size_t>& places, std::mt19937_64& random)
{
    for (std::size_t i = places.size(); i > 1; --i) {
        std::swap(places[i - 1], places[random() % i]);
    }
}

} // namespace

Result<std::vector<BenchRun>> readRuns(const std::filesystem::path& file)
{
    std::ifstream stream(file);
    std::string line;
    if (!std::getline(stream, line)) {
        return fail(Errc::Io, file.string() + " cannot be read");
    }
    std::vector<BenchRun> runs;
    for (std::size_t number = 2; std::getline(stream, line); ++number) {
        const std::vector<std::string> fields = fieldsOf(line);
        double id = 0.0, seconds = 0.0, drop = 0.0, limit = 0.0, life = 0.0;
        if (fields.size() != 7 || !toNumber(fields[0], id) || !toNumber(fields[2], seconds)
            || !toNumber(fields[3], drop) || !toNumber(fields[5], limit) || !toNumber(fields[6], life)) {
            return malformed(file, number);
        }
        if (runs.empty() || runs.back().id != static_cast<int>(id)) {
            runs.push_back({static_cast<int>(id), fields[1], {}, {}, limit, life});
        }
        if (seconds <= life) {
            runs.back().seconds.push_back(seconds);
            runs.back().drop.push_back(drop);
        }
    }
    return runs;
}

std::vector<Split> seededSplits(const std::vector<BenchRun>& runs)
{
    std::map<std::string, std::vector<std::size_t>> groups;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        groups[runs[i].group].push_back(i);
    }
    std::vector<Split> splits(splitCount);
    for (int number = 0; number < splitCount; ++number) {
        std::mt19937_64 random(splitSeed + static_cast<std::uint64_t>(number));
        Split& split = splits[static_cast<std::size_t>(number)];
        for (const auto& [group, members] : groups) {
            std::vector<std::size_t> places = members;
            shuffle(places, random);
            const std::size_t train = (places.size() * 64 + 50) / 100;
            const std::size_t validate = (places.size() * 16 + 50) / 100;
            for (std::size_t i = 0; i < places.size(); ++i) {
                (i < train ? split.train : i < train + validate ? split.validate : split.test).push_back(places[i]);
            }
        }
    }
    return splits;
}

Result<std::vector<Split>> readSplits(const std::filesystem::path& file, const std::vector<BenchRun>& runs)
{
    std::map<int, std::size_t> places;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        places[runs[i].id] = i;
    }
    std::ifstream stream(file);
    std::string line;
    if (!std::getline(stream, line)) {
        return fail(Errc::Io, file.string() + " cannot be read");
    }
    std::map<int, Split> splits;
    for (std::size_t number = 2; std::getline(stream, line); ++number) {
        const std::vector<std::string> fields = fieldsOf(line);
        double split = 0.0, run = 0.0;
        if (fields.size() != 3 || !toNumber(fields[0], split) || !toNumber(fields[1], run)
            || (fields[2] != "train" && fields[2] != "validate" && fields[2] != "test")) {
            return malformed(file, number);
        }
        if (const auto place = places.find(static_cast<int>(run)); place != places.end()) {
            Split& into = splits[static_cast<int>(split)];
            (fields[2] == "train"          ? into.train
                 : fields[2] == "validate" ? into.validate
                                           : into.test)
                .push_back(place->second);
        }
    }
    std::vector<Split> result;
    for (auto& [number, split] : splits) {
        result.push_back(std::move(split));
    }
    return result;
}

} // namespace loopside::evaluation
