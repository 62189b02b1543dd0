// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "tidy/result_rule.h"

#include "tidy/source_text.h"

#include <algorithm>
#include <regex>
#include <string_view>

namespace loopside::tidy {

namespace {

/// Directives blanked, so that only declarations are left.
std::string withoutDirectives(std::string code)
{
    bool inDirective = false;
    bool lineBegins = true;
    for (std::size_t i = 0; i < code.size(); ++i) {
        if (code[i] == '\n') {
            inDirective = inDirective && i > 0 && code[i - 1] == '\\';
            lineBegins = true;
            continue;
        }
        inDirective = inDirective || (lineBegins && code[i] == '#');
        lineBegins = lineBegins && (code[i] == ' ' || code[i] == '\t');
        if (inDirective && code[i] != '\\') {
            code[i] = ' ';
        }
    }
    return code;
}

/// Behind the brace that closes the one at `open`.
std::size_t behindBlock(std::string_view code, std::size_t open)
{
    int depth = 0;
    for (std::size_t i = open; i < code.size(); ++i) {
        depth += code[i] == '{' ? 1 : 0;
        depth -= code[i] == '}' ? 1 : 0;
        if (depth == 0) {
            return i + 1;
        }
    }
    return code.size();
}

/// Whether `declaration`, the text before a ';' or a '{', declares a function that returns `Result` or `Done`.
bool returnsResult(const std::string& declaration)
{
    static const std::regex leading(R"(^\s*(public:|private:|protected:|template\s*<[^()]*?>(?=\s*[\w\[])|\[\[.*?\]\]|)"
                                    R"((inline|static|virtual|constexpr|friend|explicit|extern)\b)\s*)");
    static const std::regex plain(
        R"(^\s*(\w+::)*(Result\s*<[^()]*(\([^()]*\))?[^()]*>|Done)\s+(\w+::)*(\w+|operator[^\w\s]+)\s*\()");
    static const std::regex trailing(R"(^\s*auto\s.*\)[^()]*->\s*(\w+::)*(Result\s*<|Done\b))");
    std::string rest = declaration;
    for (std::smatch match; std::regex_search(rest, match, leading);) {
        rest = match.suffix();
    }
    return std::regex_search(rest, plain) || std::regex_search(rest, trailing);
}

std::string onOneLine(std::string_view text)
{
    std::string line(text);
    for (char& sign : line) {
        sign = sign == '\n' ? ' ' : sign;
    }
    return line;
}

} // namespace

Findings checkResultsAreKept(const SourceFile& file)
{
    Findings findings;
    if (!endsIn(file, {".h"})) {
        return findings;
    }
    const std::string code = withoutDirectives(withoutCommentsAndStrings(file.text));
    for (std::size_t begin = 0; begin < code.size();) {
        const std::size_t end = std::min(code.find_first_of(";{}", begin), code.size());
        const std::string declaration = onOneLine(std::string_view(code).substr(begin, end - begin));
        if (returnsResult(declaration) && declaration.find("[[nodiscard]]") == std::string::npos) {
            findings.push_back({file.path, lineAt(code, code.find_first_not_of(" \t\n", begin)),
                                "a function that returns Result or Done is [[nodiscard]]",
                                "write [[nodiscard]] before it, and handle the error where it is called"});
        }
        const bool isBody = end < code.size() && code[end] == '{' && declaration.find('(') != std::string::npos;
        begin = isBody ? behindBlock(code, end) : end + 1;
    }
    return findings;
}

} // namespace loopside::tidy
