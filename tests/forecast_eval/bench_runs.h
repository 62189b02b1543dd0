// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Runs of filter benches that went to a limit, and how they are parted into past and test.

#pragma once

#include "base/result.h"

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace loopside::evaluation {

/// One run, its drop in the unit of its limit.
struct BenchRun
{
    int id = 0;
    std::string group;
    std::vector<double> seconds;
    std::vector<double> drop;
    double limit = 0.0;
    double lifeSeconds = 0.0;
};

/// The runs of a file with the columns run,group,t_s,dp,flow,limit,t_limit_s, records behind the limit left out.
/// Io if it cannot be read, Malformed, naming the line, if a field is no number.
[[nodiscard]] Result<std::vector<BenchRun>> readRuns(const std::filesystem::path& file);

/// One way to part the runs, by their places in the list.
struct Split
{
    std::vector<std::size_t> train;
    std::vector<std::size_t> validate;
    std::vector<std::size_t> test;
};

/// Ten splits 64/16/20 by group, drawn with a fixed seed (mt19937_64, Fisher-Yates, seed 2022 + split). They stand in
/// for the published ones, which were not at hand.
[[nodiscard]] std::vector<Split> seededSplits(const std::vector<BenchRun>& runs);

/// Splits from a file with the columns split,run,part (train, validate or test). Runs that are not at hand are left
/// out. Io or Malformed as of `readRuns`.
[[nodiscard]] Result<std::vector<Split>> readSplits(const std::filesystem::path& file,
                                                    const std::vector<BenchRun>& runs);

} // namespace loopside::evaluation
