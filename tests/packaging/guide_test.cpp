// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The user's guide names keys as the screens do, repeats what they say, and computes what the program computes.

#include "packaging/help.h"
#include "packaging/shell.h"
#include "packaging/words_on_screen.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <regex>

using namespace loopside::test;

namespace {

std::string guide(const std::string& language = "en")
{
    return sourceText("docs/guide/" + language + ".md");
}

/// Its parts in their order: the titles.
std::vector<std::string> titlesOf(const std::string& text)
{
    std::vector<std::string> titles;
    for (const std::string& line : linesOf(text)) {
        if (line.starts_with("## ")) {
            titles.push_back(line.substr(3));
        }
    }
    return titles;
}

/// The documents of a language, without what says which kind they are.
std::string documentIn(const std::string& language)
{
    return std::string(LOOPSIDE_DOCUMENTS "/guide") + (language == "en" ? "" : "-" + language);
}

/// The ids of the words that a guide in `language` calls `key`; a key that tells what it is about by its beginning.
std::set<std::string> idsOf(const std::string& key, const std::map<std::string, std::string>& words)
{
    std::set<std::string> ids;
    const std::size_t more = key.find("…");
    for (const auto& [id, word] : words) {
        if (more == std::string::npos ? word == key : word.starts_with(key.substr(0, more) + "{")) {
            ids.insert(id);
        }
    }
    return ids;
}

/// What a line of a guide is, whatever its language: a heading, a step, a point, a row, code, a line of text or none.
std::string shapeOf(const std::string& line)
{
    static const std::regex shape(R"(^(#+ |\d+\. |- |\|---\|[-|]*|\||    )?)");
    std::smatch match;
    std::regex_search(line, match, shape);
    const std::string begin = match[1];
    return !begin.empty() || line.empty() ? begin : "text";
}

/// The shapes of the lines that begin something; a paragraph may break its lines elsewhere.
std::vector<std::string> shapesOf(const std::string& text)
{
    std::vector<std::string> shapes;
    for (const std::string& line : linesOf(text)) {
        const std::string shape = shapeOf(line);
        if (shape != "text" || shapes.empty() || shapes.back() != "text") {
            shapes.push_back(shape);
        }
    }
    return shapes;
}

/// Whether `told` is the sentence `pattern`, with anything at all where that has a value in braces.
bool isSaid(const std::string& told, const std::string& pattern)
{
    const std::string plain = std::regex_replace(pattern, std::regex(R"([.^$|()\[\]*+?\\])"), R"(\$&)");
    return std::regex_match(told, std::regex(std::regex_replace(plain, std::regex(R"(\{[a-z-]+\})"), ".+")));
}

/// The cells of the table rows in `text`, heads left out.
std::vector<std::vector<std::string>> rowsOf(const std::string& text)
{
    std::vector<std::vector<std::string>> rows;
    const std::regex cell(R"(\| ([^|]+) (?=\|))");
    const auto lines = linesOf(text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const bool isHead = i + 1 < lines.size() && lines[i + 1].starts_with("|---");
        if (lines[i].starts_with("| ") && !isHead) {
            std::vector<std::string> cells;
            for (std::sregex_iterator at(lines[i].begin(), lines[i].end(), cell), end; at != end; ++at) {
                cells.push_back((*at)[1]);
            }
            rows.push_back(cells);
        }
    }
    return rows;
}

} // namespace

TEST_CASE("the guide has its parts")
{
    const std::string text = guide();
    for (const char* title :
         {"The first run", "A reading", "An alert", "A change of elements", "Close-out", "Handover",
          "When something looks wrong", "What the forecast means", "Formulas, and where they are from", "Words"}) {
        CAPTURE(title);
        CHECK(text.find(std::string("\n## ") + title + "\n") != std::string::npos);
    }
}

TEST_CASE("every key that the guide names is on the screens under that name")
{
    const auto words = englishWords();
    const auto keys = keysNamedIn(guide());
    CHECK(keys.size() > 50);
    for (const std::string& key : keys) {
        const std::size_t more = key.find("…"); // a key that tells what it is about
        const bool isKnown = more == std::string::npos ? words.contains(key)
                                                       : std::ranges::any_of(words, [&](const std::string& word) {
                                                             return word.starts_with(key.substr(0, more) + "{");
                                                         });
        CAPTURE(key);
        CHECK((isKnown || key == "slanted letters"));
    }
}

TEST_CASE("every guide has the parts, steps, points and rows of the English one, at the same places")
{
    const auto english = titlesOf(guide());
    for (const char* language : {"de", "es"}) {
        CAPTURE(language);
        const auto titles = titlesOf(guide(language));
        REQUIRE(titles.size() == english.size());
        for (std::size_t i = 0; i < titles.size(); ++i) {
            CAPTURE(titles[i]);
            CHECK(titles[i] != english[i]); // translated
        }
        CHECK(shapesOf(guide(language)) == shapesOf(guide()));
    }
}

TEST_CASE("a key that the guide names is the same one in every language, under the name that the screens give it there")
{
    const auto english = keysNamedIn(guide());
    const auto englishWords = wordsIn("en");
    for (const char* language : {"de", "es"}) {
        const auto words = wordsIn(language);
        const auto keys = keysNamedIn(guide(language));
        REQUIRE(keys.size() == english.size());
        for (std::size_t i = 0; i < keys.size(); ++i) {
            const auto meant = idsOf(english[i], englishWords);
            const auto named = idsOf(keys[i], words);
            CAPTURE(language, english[i], keys[i]);
            CHECK((english[i] == "slanted letters"
                   || std::ranges::any_of(named, [&](const std::string& id) { return meant.contains(id); })));
        }
    }
}

TEST_CASE("what the guide says to a finding is what the screens say to it")
{
    const std::string language = GENERATE("en", "de", "es");
    CAPTURE(language);
    const auto words = nlohmann::json::parse(withPlainSpaces(sourceText("assets/words/" + language + ".json")));
    int rows = 0;
    for (const auto& cells : rowsOf(guide(language))) {
        if (cells.size() != 3) {
            continue;
        }
        for (const auto& [id, word] : words.items()) {
            if (id.starts_with("finding.") && words.contains(id + ".do") && isSaid(cells[0], word.get<std::string>())) {
                CAPTURE(cells[0], id);
                CHECK(isSaid(cells[1], words.at(id + ".do").get<std::string>()));
                CHECK(isSaid(cells[2], words.at(id + ".confirm").get<std::string>()));
                ++rows;
            }
        }
    }
    const std::string text = guide(language);
    const std::size_t from = text.find(language == "de"       ? "| es sagt |"
                                           : language == "es" ? "| dice |"
                                                              : "| it says |");
    REQUIRE(from != std::string::npos);
    const auto table = rowsOf(text.substr(from, text.find("\n\n", from) - from));
    CHECK(table.size() > 15);
    CHECK(rows == static_cast<int>(table.size())); // each row was found, and once
}

TEST_CASE("the steps of a change of elements are those of the screens")
{
    const std::string language = GENERATE("en", "de", "es");
    CAPTURE(language);
    const auto words = nlohmann::json::parse(sourceText("assets/words/" + language + ".json"));
    const std::string text = guide(language);
    std::size_t at = text.find("## " + titlesOf(text)[3]);
    for (const char* step : {"pump-off", "valves", "vent", "gauges", "look", "restart"}) {
        const std::string told = words.at(std::string("app.step.") + step);
        CAPTURE(told);
        at = text.find(told, at); // in their order
        REQUIRE(at != std::string::npos);
    }
}

TEST_CASE("what the guide computes is what the program computes")
{
    const std::string language = GENERATE("en", "de", "es");
    const auto lines = linesOf(guide(language));
    const std::string begin = language == "de" ? "ergibt `" : language == "es" ? "da `" : "tells `";
    int commands = 0;
    for (std::size_t i = 0; i + 2 < lines.size(); ++i) {
        if (lines[i].starts_with("    loopside-cli ")) {
            const ShellRan ran = runInShell(quotedForShell(LOOPSIDE_CLI)
                                            + lines[i].substr(std::string("    loopside-cli").size()));
            const std::string& told = lines[i + 2];
            const std::string expected = told.substr(told.find('`') + 1, told.rfind('`') - told.find('`') - 1);
            CAPTURE(lines[i], told, ran.said);
            CHECK(told.starts_with(begin));
            CHECK(ran.exitCode == 0);
            CHECK(ran.said.find(expected) != std::string::npos);
            ++commands;
        }
    }
    CHECK(commands == 4);
}

TEST_CASE("every source that the guide names for a formula is named where that is computed")
{
    std::string code;
    for (const char* folder : {"oil", "filtration"}) {
        for (const auto& entry :
             std::filesystem::directory_iterator(std::filesystem::path(LOOPSIDE_SOURCE_DIR) / "src" / folder)) {
            if (entry.path().extension() == ".h") {
                code += sourceText(entry.path().string());
            }
        }
    }
    const std::string text = guide();
    const std::size_t from = text.find("| what | how | source |");
    REQUIRE(from != std::string::npos);
    const std::string table = text.substr(from, text.find("\n\n", from) - from);
    int named = 0;
    for (const char* source :
         {"JCGM 100", "ASTM D341", "ASTM D2270", "Darcy's law", "ISO 16889", "ISO 4406",
          "mass balance of complete mixing", "mass balance of a mixed tank", "Hagen and Poiseuille"}) {
        CAPTURE(source);
        CHECK(table.find(source) != std::string::npos);
        CHECK(code.find(source) != std::string::npos);
        ++named;
    }
    for (const auto& cells : rowsOf(table)) {
        CAPTURE(cells.front());
        CHECK(cells.size() == 3); // none without a source
    }
    CHECK(named == 9);
}

TEST_CASE("the guide is a page that needs nothing else, with all of its parts and tables")
{
    const std::string language = GENERATE("en", "de", "es");
    CAPTURE(language);
    const std::string page = sourceText(documentIn(language) + ".html");
    const std::string text = guide(language);
    CHECK(page.starts_with("<!DOCTYPE html>\n<html lang=\"" + language + "\">"));
    for (const char* outside : {"src=", "http:", "https:", "<link", "<script", "raw HTML", "SPDX"}) {
        CAPTURE(outside);
        CHECK(page.find(outside) == std::string::npos);
    }
    int part = 0;
    for (const std::string& line : linesOf(text)) {
        if (line.starts_with("## ")) {
            const std::string place = "part" + std::to_string(++part);
            CAPTURE(line);
            CHECK(page.find("<h2 id=\"" + place + "\">" + line.substr(3) + "</h2>") != std::string::npos);
            CHECK(page.find("<a href=\"#" + place + "\">" + line.substr(3) + "</a>") != std::string::npos);
        }
    }
    const std::regex row("<tr>");
    CHECK(std::distance(std::sregex_iterator(page.begin(), page.end(), row), {})
          == static_cast<std::ptrdiff_t>(rowsOf(text).size() + 4)); // and a head for each of four tables
}

TEST_CASE("the guide for paper has every part of it")
{
    const std::string language = GENERATE("en", "de", "es");
    const std::string document = quotedForShell(documentIn(language) + ".pdf");
    const ShellRan ran = runInShell("pdftotext -raw " + document + " -");
    REQUIRE(ran.exitCode == 0);
    for (const std::string& title : titlesOf(guide(language))) {
        CAPTURE(language, title);
        CHECK(ran.said.find(title) != std::string::npos);
    }
    CHECK(ran.said.find("SPDX") == std::string::npos);
    const std::string head = guide(language).substr(guide(language).find("# ") + 2);
    CHECK(runInShell("pdfinfo " + document).said.find(head.substr(0, head.find('\n'))) != std::string::npos);
}
