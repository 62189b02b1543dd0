// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/text_rules.h"

#include "tidy/source_text.h"

#include <algorithm>
#include <regex>

namespace loopside::tidy {

namespace {

constexpr auto caseless = std::regex::ECMAScript | std::regex::icase;

/// What leaves the house. Tests are not among it: they must be able to name what is forbidden.
bool isShipped(const SourceFile& file)
{
    return isIn(file, "src") || isIn(file, "qml") || isIn(file, "schema") || isIn(file, "packaging")
        || isIn(file, "assets") || file.path.find('/') == std::string::npos;
}

Findings checkLines(const SourceFile& file, const std::regex& pattern, const std::string& rule,
                    const std::string& wayOut)
{
    Findings findings;
    std::size_t number = 0;
    for (const std::string& line : linesOf(file.text)) {
        ++number;
        std::smatch match;
        if (std::regex_search(line, match, pattern)) {
            findings.push_back({file.path, number, rule + " (\"" + match[1].str() + "\")", wayOut});
        }
    }
    return findings;
}

bool needsLicence(const SourceFile& file)
{
    return endsIn(file, {".h", ".cpp", ".cmake", ".qml", ".sql", ".sh"}) || fileName(file.path) == "CMakeLists.txt"
        || file.text.starts_with("#!");
}

} // namespace

Findings checkLicence(const SourceFile& file)
{
    if (!needsLicence(file)) {
        return {};
    }
    const std::vector<std::string> lines = linesOf(file.text);
    const std::size_t first = file.text.starts_with("#!") ? 1 : 0;
    const auto says = [&](std::size_t line, std::string_view tag) {
        return line < lines.size() && lines[line].find(tag) != std::string::npos;
    };
    if (says(first, "SPDX-FileCopyrightText: ") && says(first + 1, "SPDX-License-Identifier: ")) {
        return {};
    }
    return {{file.path, 1, "a file begins with its two SPDX lines", "copy them from the top of any other file"}};
}

Findings checkDataSource(const SourceFile& file)
{
    static const std::regex source(R"(\b(sources?:\s*\S|(computed|collected|measured|read|from memory)\b))", caseless);
    if (!endsIn(file, {".csv"}) || !(isIn(file, "assets") || isIn(file, "tests"))) {
        return {};
    }
    for (const std::string& line : linesOf(file.text)) {
        if (!line.starts_with('#')) {
            break;
        }
        if (std::regex_search(line, source)) {
            return {};
        }
    }
    return {
        {file.path, 1, "a table says where its numbers come from",
         "begin it with a line \"# Source: standard, edition, table\", or \"# … computed, collected, measured, read "
         "in, from memory …\""}};
}

Findings checkWords(const SourceFile& file)
{
    static const std::regex promise(R"(\b((is|are|it's|now) safe|safe to|is clean|ist sicher|ist sauber|es seguro|)"
                                    R"(est(a|á) limpio)\b)",
                                    caseless);
    if (!isShipped(file)) {
        return {};
    }
    return checkLines(file, promise, "the product promises neither safety nor cleanness",
                      "say what was measured, when, and what to check; leave the judgement to people");
}

Findings checkMachinePaths(const SourceFile& file)
{
    static const std::regex path(R"((?:^|[^\w.$}/])(/(work|home|root|farm|Users|tmp)/\w+))");
    if (!isShipped(file)) {
        return {};
    }
    return checkLines(file, path, "no path of one machine stands in the project",
                      "take it from an argument or the environment, or make a folder with mktemp");
}

Findings checkTestNames(const SourceFile& file)
{
    static const std::regex name(R"regex(TEST_CASE\("([^"]*;[^"]*)")regex");
    if (!isIn(file, "tests")) {
        return {};
    }
    return checkLines(file, name, "no name of a test holds a semicolon", "put a comma or \"and\" in its place");
}

} // namespace loopside::tidy
