// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "packaging/words_on_screen.h"

#include "packaging/shell.h"

#include <nlohmann/json.hpp>

#include <regex>

namespace loopside::test {

namespace {

/// The first part in brackets of each place in `text` that fits `pattern`.
std::vector<std::string> allOf(const std::string& text, const std::string& pattern)
{
    const std::regex expression(pattern);
    std::vector<std::string> all;
    for (std::sregex_iterator at(text.begin(), text.end(), expression), end; at != end; ++at) {
        all.push_back((*at)[1]);
    }
    return all;
}

} // namespace

std::string withPlainSpaces(const std::string& text)
{
    return std::regex_replace(text, std::regex("\u00a0|\u202f"), " ");
}

std::set<std::string> englishWords()
{
    std::set<std::string> words;
    for (const auto& [id, word] : wordsIn("en")) {
        words.insert(word);
    }
    return words;
}

std::map<std::string, std::string> wordsIn(const std::string& language)
{
    const auto catalogue = nlohmann::json::parse(sourceText("assets/words/" + language + ".json"));
    std::map<std::string, std::string> words;
    for (const auto& [id, word] : catalogue.items()) {
        words.emplace(id, withPlainSpaces(word.get<std::string>()));
    }
    return words;
}

std::vector<std::string> keysNamedIn(const std::string& text)
{
    const std::string plain = std::regex_replace(text, std::regex("\\*\\*"), "");
    return allOf(plain, R"(\*([^*\s](?:[^*]*[^*\s])?)\*)");
}

std::vector<std::string> filesLinkedIn(const std::string& text)
{
    std::vector<std::string> files;
    for (const std::string& target : allOf(text, R"(\]\(([^)#\s]+)[^)]*\))")) {
        if (target.find("://") == std::string::npos) {
            files.push_back(target);
        }
    }
    return files;
}

} // namespace loopside::test
