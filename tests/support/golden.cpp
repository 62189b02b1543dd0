// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "support/golden.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>

namespace loopside::test {

namespace {

using Lines = std::vector<std::string>;

Lines linesOf(const std::string& path)
{
    std::ifstream file(path);
    Lines lines;
    for (std::string line; std::getline(file, line);) {
        lines.push_back(line);
    }
    return lines;
}

void write(const std::string& path, const Lines& lines)
{
    std::ofstream file(path);
    for (const std::string& line : lines) {
        file << line << "\n";
    }
    if (!file.flush()) {
        throw std::runtime_error(path + " cannot be written");
    }
}

/// Length of the longest common subsequence of the tails of `a` and `b`, for every pair of tails.
std::vector<std::vector<std::size_t>> commonTails(const Lines& a, const Lines& b)
{
    std::vector<std::vector<std::size_t>> length(a.size() + 1, std::vector<std::size_t>(b.size() + 1, 0));
    for (std::size_t i = a.size(); i-- > 0;) {
        for (std::size_t j = b.size(); j-- > 0;) {
            length[i][j] = a[i] == b[j] ? length[i + 1][j + 1] + 1 : std::max(length[i + 1][j], length[i][j + 1]);
        }
    }
    return length;
}

std::string differences(const Lines& recorded, const Lines& actual)
{
    const auto common = commonTails(recorded, actual);
    std::string out;
    std::size_t i = 0;
    std::size_t j = 0;
    while (i < recorded.size() || j < actual.size()) {
        if (i < recorded.size() && j < actual.size() && recorded[i] == actual[j]) {
            ++i;
            ++j;
        } else if (j == actual.size() || (i < recorded.size() && common[i + 1][j] >= common[i][j + 1])) {
            out += "-" + std::to_string(i + 1) + ": " + recorded[i] + "\n";
            ++i;
        } else {
            out += "+" + std::to_string(j + 1) + ": " + actual[j] + "\n";
            ++j;
        }
    }
    return out;
}

} // namespace

std::string goldenDifference(const std::string& path, const std::vector<std::string>& actual)
{
    const char* wish = std::getenv("GOLDEN");
    if (wish != nullptr && std::string(wish) == "update") {
        write(path, actual);
        return {};
    }
    std::string difference = differences(linesOf(path), actual);
    if (!difference.empty()) {
        write(std::filesystem::path(path).stem().string() + ".actual.txt",
              actual); // the build folder is where tests run
    }
    return difference;
}

} // namespace loopside::test
