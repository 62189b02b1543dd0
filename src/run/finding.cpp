// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/finding.h"

#include <algorithm>
#include <tuple>

namespace loopside::run {

std::string_view nameOf(FindingLevel level)
{
    constexpr std::array<std::string_view, 3> names = {"note", "caution", "stop"};
    return names.at(static_cast<std::size_t>(level));
}

std::string_view nameOf(Confidence confidence)
{
    constexpr std::array<std::string_view, 3> names = {"low", "medium", "high"};
    return names.at(static_cast<std::size_t>(confidence));
}

bool isFinding(std::string_view id)
{
    return std::find(findingIds.begin(), findingIds.end(), id) != findingIds.end();
}

void rank(std::vector<Finding>& findings)
{
    std::stable_sort(findings.begin(), findings.end(), [](const Finding& a, const Finding& b) {
        return std::tie(a.level, a.confidence) > std::tie(b.level, b.confidence);
    });
}

} // namespace loopside::run
