// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "mutants/mutation.h"

#include "tidy/source_text.h"

#include <algorithm>
#include <numeric>
#include <random>
#include <regex>

namespace loopside::mutants {

namespace {

/// What stands for what. A sign between two operands has blanks on both sides: clang-format sees to that.
struct Exchange
{
    std::string_view kind, from, instead;
};

constexpr Exchange exchanges[] = {
    {"comparison", " < ", " <= "},  {"comparison", " <= ", " < "},  {"comparison", " > ", " >= "},
    {"comparison", " >= ", " > "},  {"comparison", " == ", " != "}, {"comparison", " != ", " == "},
    {"arithmetic", " + ", " - "},   {"arithmetic", " - ", " + "},   {"arithmetic", " * ", " / "},
    {"arithmetic", " / ", " * "},   {"arithmetic", " += ", " -= "}, {"arithmetic", " -= ", " += "},
    {"arithmetic", " *= ", " /= "}, {"arithmetic", " /= ", " *= "}, {"boolean", " && ", " || "},
    {"boolean", "&& ", "|| "},      {"boolean", " || ", " && "},    {"boolean", "|| ", "&& "},
    {"comparison", "== ", "!= "},   {"arithmetic", "+ ", "- "},     {"arithmetic", "* ", "/ "},
    {"arithmetic", "/ ", "* "},     {"arithmetic", "- ", "+ "},
};

/// Blanks what may not be mutated: comments, strings, lines for the preprocessor, require and static_assert.
std::string codeOf(std::string_view text)
{
    std::string code = tidy::withoutCommentsAndStrings(text);
    static const std::regex left(R"((^|\n)[ \t]*(#[^\n]*|(require|static_assert)\([^;]*;))");
    for (std::sregex_iterator it(code.begin(), code.end(), left), end; it != end; ++it) {
        const auto from = code.begin() + it->position(0);
        std::replace_if(from, from + it->length(0), [](char sign) { return sign != '\n'; }, ' ');
    }
    return code;
}

/// Signs at the beginning of a line (behind `if (a` say) have a blank only behind them, and nothing but blanks before.
bool beginsLine(std::string_view code, std::size_t offset)
{
    const std::size_t lineStart = code.rfind('\n', offset) + 1; // npos + 1 is 0
    return lineStart < offset && code.substr(lineStart, offset - lineStart).find_first_not_of(' ') == std::string::npos;
}

void findExchanges(std::string_view code, std::vector<Mutation>& found)
{
    for (const Exchange& exchange : exchanges) {
        const bool isFirst = exchange.from.front() != ' ';
        for (std::size_t at = code.find(exchange.from); at != std::string::npos;
             at = code.find(exchange.from, at + 1)) {
            if (isFirst ? beginsLine(code, at) : !beginsLine(code, at + 1)) {
                found.push_back({exchange.kind, at, exchange.from.size(), std::string(exchange.instead)});
            }
        }
    }
}

/// What matches the group 1 of `pattern`, by what `instead` makes of it.
template<class Instead>
void findMatches(const std::string& code, const std::regex& pattern, std::string_view kind, Instead instead,
                 std::vector<Mutation>& found)
{
    for (std::sregex_iterator it(code.begin(), code.end(), pattern), end; it != end; ++it) {
        found.push_back({kind, static_cast<std::size_t>(it->position(1)), static_cast<std::size_t>(it->length(1)),
                         instead((*it)[1].str())});
    }
}

std::string anotherNumber(const std::string& number)
{
    if (number.find_first_of(".e") == std::string::npos) {
        return "(" + number + " + 1)";
    }
    const bool isZero = number.find_first_of("123456789") == std::string::npos;
    return isZero ? "1.0" : "(" + number + " * 1.5)";
}

bool isDeclaration(const std::string& statement)
{
    static const std::regex words(
        R"((const|constexpr|auto|static|using|return|struct|class|enum|friend|case|typedef)\b.*)");
    static const std::regex named(R"([\w:<>,*&]+ [&*]?\w+(\(.*\)| = .*|\{.*\})?;)");
    return std::regex_match(statement, words) || std::regex_match(statement, named);
}

/// A line that is one whole statement: the code before it ends in ; { or }.
void findStatements(std::string_view code, std::vector<Mutation>& found)
{
    std::size_t start = 0;
    char before = '{';
    for (const std::string& line : tidy::linesOf(code)) {
        const std::size_t first = line.find_first_not_of(' ');
        const std::size_t last = line.find_last_not_of(' ');
        if (first != std::string::npos) {
            const std::string statement = line.substr(first, last - first + 1);
            const bool isWhole = statement.size() > 1 && statement.back() == ';' && statement.front() != '}'
                && (before == ';' || before == '{' || before == '}');
            if (isWhole && first > 0 && !isDeclaration(statement)) {
                found.push_back({"statement", start + first, statement.size(), ";"});
            }
            before = statement.back();
        }
        start += line.size() + 1;
    }
}

} // namespace

std::vector<Mutation> mutationsOf(std::string_view text)
{
    static const std::regex number(R"((?:^|[^\w.'])((?:\d[\d']*)(?:\.\d*)?(?:e[-+]?\d+)?)(?![\w.']))");
    static const std::regex truth(R"(\b(true|false)\b)");
    static const std::regex negation(R"((!)[\w(*])");
    static const std::regex returned(R"(\breturn ([^;{}]+);)");
    const std::string code = codeOf(text);
    std::vector<Mutation> found;
    findExchanges(code, found);
    findMatches(code, number, "constant", anotherNumber, found);
    findMatches(code, truth, "boolean", [](const std::string& was) { return was == "true" ? "false" : "true"; }, found);
    findMatches(code, negation, "boolean", [](const std::string&) { return ""; }, found);
    findMatches(code, returned, "return", [](const std::string&) { return "{}"; }, found);
    findStatements(code, found);
    std::ranges::stable_sort(found, {}, &Mutation::offset);
    return found;
}

std::string mutated(std::string_view text, const Mutation& mutation)
{
    std::string made(text);
    return made.replace(mutation.offset, mutation.length, mutation.instead);
}

std::vector<std::size_t> chosen(std::size_t all, std::size_t count, std::uint64_t seed)
{
    std::vector<std::size_t> numbers(all);
    std::iota(numbers.begin(), numbers.end(), std::size_t{0});
    std::mt19937_64 random(seed);
    for (std::size_t i = 0; i + 1 < all; ++i) { // by hand: std::shuffle differs from one library to the next
        std::swap(numbers[i], numbers[i + random() % (all - i)]);
    }
    numbers.resize(std::min(count, all));
    return numbers;
}

} // namespace loopside::mutants
