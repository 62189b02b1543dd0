// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace loopside::tidy {

/// A text file of the project; `path` from the project's root, with '/' between its parts.
struct SourceFile
{
    std::string path;
    std::string text;
};

/// A place where a rule of the house is broken, which rule, and what to do about it.
struct Finding
{
    std::string path;
    std::size_t line; ///< From 1.
    std::string rule;
    std::string wayOut;
};

using Findings = std::vector<Finding>;

/// `path:line: rule. Way out: wayOut.`
[[nodiscard]] inline std::string toText(const Finding& finding)
{
    return finding.path + ":" + std::to_string(finding.line) + ": " + finding.rule + ". Way out: " + finding.wayOut
        + ".";
}

} // namespace loopside::tidy
