// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What figures are made of: times, medians, memory.

#pragma once

#include <algorithm>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <string>
#include <vector>

namespace loopside::bench {

/// Seconds of the processor, so that other programs do not count.
template<class Work>
double processorSecondsOf(Work work)
{
    const std::clock_t begin = std::clock();
    work();
    return static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
}

inline double medianOf(std::vector<double> figures)
{
    std::ranges::sort(figures);
    return figures[figures.size() / 2];
}

/// The sizes on the command line, each at least 1000; 1000 and 100 000 where there are none.
inline std::vector<std::size_t> sizesTold(int argc, char** argv)
{
    std::vector<std::size_t> sizes;
    for (int i = 1; i < argc; ++i) {
        sizes.push_back(static_cast<std::size_t>(std::max(std::atoi(argv[i]), 1000)));
    }
    return sizes.empty() ? std::vector<std::size_t>{1000, 100'000} : sizes;
}

/// Memory of this process that is its own, MB.
inline double ownMb()
{
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;) {
        if (word == "RssAnon:") {
            double kb = 0;
            status >> kb;
            return kb / 1024.0;
        }
    }
    return 0;
}

} // namespace loopside::bench
