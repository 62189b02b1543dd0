// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "pseudo.h"

#include "base/require.h"

#include <cctype>
#include <cmath>
#include <map>

namespace loopside::scene {

namespace {

constexpr double growth = 0.4;

bool isLetter(char sign)
{
    return std::isalpha(static_cast<unsigned char>(sign)) != 0; // of ASCII; what is more is left as it is
}

std::string accented(char letter)
{
    static const std::map<char, std::string> accents = {{'a', "á"}, {'e', "é"}, {'i', "í"}, {'o', "ö"}, {'u', "ü"},
                                                        {'A', "Å"}, {'E', "É"}, {'O', "Ö"}, {'U', "Ü"}, {'n', "ñ"}};
    const auto found = accents.find(letter);
    return found == accents.end() ? std::string(1, letter) : found->second;
}

std::string grown(std::string_view word)
{
    std::string longer;
    for (const char letter : word) {
        longer += accented(letter);
    }
    const auto more = static_cast<int>(std::lround(growth * static_cast<double>(word.size())));
    for (int i = 0; i < more; ++i) {
        longer += i % 2 == 0 ? "ö" : "m";
    }
    return longer;
}

} // namespace

std::string pseudo(std::string_view sentence)
{
    std::string said = "[";
    while (!sentence.empty()) {
        std::size_t end = 1;
        if (sentence.front() == '{') {
            end = std::min(sentence.find('}'), sentence.size() - 1) + 1;
            said += sentence.substr(0, end);
        } else if (isLetter(sentence.front())) {
            while (end < sentence.size() && isLetter(sentence[end])) {
                ++end;
            }
            said += grown(sentence.substr(0, end));
        } else {
            said += sentence.front();
        }
        sentence.remove_prefix(end);
    }
    return said + "]";
}

words::Words pseudoWords()
{
    const auto english = words::Words::in("en");
    require(english.has_value(), "there are English words");
    std::map<std::string, std::string, std::less<>> sentences;
    for (const auto& [id, sentence] : english->all()) {
        sentences.emplace(id, sentence.empty() ? sentence : pseudo(sentence));
    }
    return words::Words::of(std::move(sentences));
}

} // namespace loopside::scene
