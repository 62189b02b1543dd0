// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What figures are made of: times, medians, memory.

#pragma once

#include <algorithm>
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
