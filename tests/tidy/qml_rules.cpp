// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/qml_rules.h"

#include "tidy/source_text.h"

#include <regex>

namespace loopside::tidy {

namespace {

Findings checkLines(const std::string& path, const std::string& code, const std::regex& pattern,
                    const std::string& rule, const std::string& wayOut)
{
    Findings findings;
    std::size_t number = 0;
    for (const std::string& line : linesOf(code)) {
        ++number;
        if (std::regex_search(line, pattern)) {
            findings.push_back({path, number, rule, wayOut});
        }
    }
    return findings;
}

} // namespace

Findings checkColours(const SourceFile& file)
{
    static const std::regex colour(R"(["']#([0-9a-fA-F]{3,4}|[0-9a-fA-F]{6}|[0-9a-fA-F]{8})["'])"
                                   R"(|([cC]olor|\bcolor\s+\w+)\s*:(.*[?:])?\s*["'](?!transparent["'])[a-zA-Z]+["'])"
                                   R"(|\bQt\.(rgba|hsla|hsva|color)\s*\()");
    if (!endsIn(file, {".qml"}) || fileName(file.path) == "Theme.qml") {
        return {};
    }
    return checkLines(file.path, withoutComments(file.text), colour, "colours stand in Theme.qml only",
                      "use a role of Theme, such as Theme.surface, or add one there for all palettes");
}

Findings checkConsole(const SourceFile& file)
{
    static const std::regex console(R"(\bconsole\s*\.\s*\w+\s*\()");
    if (!endsIn(file, {".qml"})) {
        return {};
    }
    return checkLines(file.path, withoutCommentsAndStrings(file.text), console, "QML does not write to the console",
                      "remove it; what is worth saying is said in C++ by a logging category");
}

} // namespace loopside::tidy
