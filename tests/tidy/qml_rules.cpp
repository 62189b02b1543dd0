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

/// What a line gives to a property that is read or heard; empty if it gives nothing to one.
std::string toldIn(const std::string& line)
{
    static const std::regex told(R"(^\s*(?:(?:required|readonly|default)\s+)*(?:property\s+\w+\s+)?)"
                                 R"((?:text|title|hint|detail|spoken|[a-zA-Z]+(?:Text|Title|Spoken|Hint)|)"
                                 R"(Accessible\.(?:name|description))\s*:(.*)$)");
    std::smatch found;
    return std::regex_match(line, found, told) ? found[1].str() : std::string();
}

/// Whether `told` has a string with a word in it that is no id and is compared with nothing.
bool hasWord(const std::string& told)
{
    static const std::regex noWords(R"re(\blabel\s*\((?:[^()]|\([^()]*\))*\)|[=!]==?\s*"[^"]*"|"Loopside")re");
    static const std::regex string(R"re("((?:[^"\\]|\\.)*)")re");
    // Letters as UTF-8, those of Latin-1 too, without the two signs among them.
    static const std::regex word("(?:[A-Za-z]|\xc3[\x80-\x96\x98-\xb6\xb8-\xbf]){2}");
    const std::string rest = std::regex_replace(told, noWords, "");
    for (auto found = std::sregex_iterator(rest.begin(), rest.end(), string); found != std::sregex_iterator();
         ++found) {
        if (std::regex_search((*found)[1].str(), word)) {
            return true;
        }
    }
    return false;
}

} // namespace

Findings checkWrittenWords(const SourceFile& file)
{
    if (!endsIn(file, {".qml"}) || isIn(file, "tests")) {
        return {};
    }
    Findings findings;
    std::size_t number = 0;
    for (const std::string& line : linesOf(withoutComments(file.text))) {
        ++number;
        if (hasWord(toldIn(line))) {
            findings.push_back({file.path, number, "words stand in assets/words only",
                                "give them an id there, in every language, and say app.label(id)"});
        }
    }
    return findings;
}

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
