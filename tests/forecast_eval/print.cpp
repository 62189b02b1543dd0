// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "print.h"

#include "scores.h"

#include <algorithm>
#include <cstdio>
#include <set>

namespace loopside::evaluation {

namespace {

void printRow(const std::string& label, const std::vector<double>& values)
{
    std::printf("%-24s", label.c_str());
    for (const double value : values) {
        std::printf(" %9.3g", value);
    }
    std::printf("\n");
}

/// Different runs behind `answers` of `found`.
int runsBehind(const Found& found, std::size_t answers)
{
    const double perRun = static_cast<double>(found.asked) / static_cast<double>(found.runs);
    return std::max(1, static_cast<int>(static_cast<double>(answers) / perRun + 0.5));
}

void printCovered(const Found& found, double interval, const std::set<std::string>& groups)
{
    std::vector<bool> inside;
    for (const auto& [group, here] : found.covered.at(interval)) {
        if (groups.contains(group)) {
            inside.insert(inside.end(), here.begin(), here.end());
        }
    }
    if (inside.empty()) {
        std::printf("         -");
        return;
    }
    const double share = static_cast<double>(std::ranges::count(inside, true)) / static_cast<double>(inside.size());
    const Band band = binomialBand(runsBehind(found, inside.size()), interval);
    std::printf(" %6.0f %%%c", 100.0 * share, share < band.low || share > band.high ? '!' : ' ');
}

/// Groups to be told, by name: all, each large one, and the small ones together.
std::map<std::string, std::set<std::string>> groupsOf(const Table& table)
{
    std::map<std::string, std::set<std::string>> groups;
    for (const auto& [share, found] : table) {
        const auto& covered = found.covered.begin()->second;
        for (const auto& [group, inside] : covered) {
            const bool isLarge = runsBehind(found, inside.size()) >= static_cast<int>(groupRunsMin);
            groups[" all"].insert(group);
            groups[isLarge ? "group " + group : "small groups"].insert(group);
        }
    }
    if (groups.size() == 2) {
        groups.erase("small groups");
    }
    return groups;
}

} // namespace

void printErrors(const std::string& title, const Table& table)
{
    std::printf("\n%s\n", title.c_str());
    std::vector<double> values;
    for (const auto& [share, found] : table) {
        values.push_back(share);
    }
    printRow("share of life", values);
    for (const auto& [method, unused] : table.begin()->second.errors) {
        values.clear();
        for (const auto& [share, found] : table) {
            values.push_back(median(found.errors.at(method)));
        }
        printRow(method, values);
    }
    values.clear();
    for (const auto& [share, found] : table) {
        values.push_back(mean(found.crps));
    }
    printRow("ours, mean CRPS", values);
    std::printf("%-24s", "early, of answers");
    for (const auto& [share, found] : table) {
        std::printf(" %4d/%-4d", found.early, found.answers);
    }
    std::printf("\n");
}

void printCoverage(const Table& table)
{
    const auto groups = groupsOf(table);
    for (const double interval : {0.5, 0.8, 0.9}) {
        for (const auto& [name, members] : groups) {
            std::printf("%2.0f %% covers, %-10s", 100.0 * interval, name.c_str());
            for (const auto& [share, found] : table) {
                printCovered(found, interval, members);
            }
            std::printf("\n");
        }
    }
}

} // namespace loopside::evaluation
