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

std::string guide()
{
    return sourceText("docs/guide/en.md");
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

TEST_CASE("what the guide says to a finding is what the screens say to it")
{
    const auto words = nlohmann::json::parse(withPlainSpaces(sourceText("assets/words/en.json")));
    int rows = 0;
    for (const auto& cells : rowsOf(guide())) {
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
    const std::string text = guide();
    const std::size_t from = text.find("| it says |");
    const auto table = rowsOf(text.substr(from, text.find("\n\n", from) - from));
    CHECK(table.size() > 15);
    CHECK(rows == static_cast<int>(table.size())); // each row was found, and once
}

TEST_CASE("the steps of a change of elements are those of the screens")
{
    const auto words = nlohmann::json::parse(sourceText("assets/words/en.json"));
    const std::string text = guide();
    std::size_t at = text.find("## A change of elements");
    for (const char* step : {"pump-off", "valves", "vent", "gauges", "look", "restart"}) {
        const std::string told = words.at(std::string("app.step.") + step);
        CAPTURE(told);
        at = text.find(told, at); // in their order
        REQUIRE(at != std::string::npos);
    }
}

TEST_CASE("what the guide computes is what the program computes")
{
    const auto lines = linesOf(guide());
    int commands = 0;
    for (std::size_t i = 0; i + 2 < lines.size(); ++i) {
        if (lines[i].starts_with("    loopside-cli ")) {
            const ShellRan ran = runInShell(quotedForShell(LOOPSIDE_CLI)
                                            + lines[i].substr(std::string("    loopside-cli").size()));
            const std::string& told = lines[i + 2];
            const std::string expected = told.substr(told.find('`') + 1, told.rfind('`') - told.find('`') - 1);
            CAPTURE(lines[i], told, ran.said);
            CHECK(told.starts_with("tells `"));
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
    const std::string page = sourceText(LOOPSIDE_DOCUMENTS "/guide.html");
    const std::string text = guide();
    CHECK(page.starts_with("<!DOCTYPE html>\n<html lang=\"en\">"));
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
    const ShellRan ran = runInShell("pdftotext -raw " LOOPSIDE_DOCUMENTS "/guide.pdf -");
    REQUIRE(ran.exitCode == 0);
    for (const std::string& line : linesOf(guide())) {
        if (line.starts_with("## ")) {
            CAPTURE(line);
            CHECK(ran.said.find(line.substr(3)) != std::string::npos);
        }
    }
    CHECK(ran.said.find("SPDX") == std::string::npos);
}
