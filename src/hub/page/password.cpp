// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/page/password.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <set>
#include <string>
#include <vector>

namespace loopside::page {

namespace {

/// Of US, German and Spanish keyboards, and the alphabet.
constexpr std::array<std::string_view, 7> rows = {
    "abcdefghijklmnopqrstuvwxyz", "01234567890", "qwertyuiop", "asdfghjkl", "zxcvbnm", "qwertzuiop", "yxcvbnm"};
constexpr std::size_t shortestRow = 4;

/// What stands at the head of every list of leaked passwords (from memory), and what somebody at a hub would take.
constexpr std::array<std::string_view, 27> words = {
    "password", "passwort", "contrasena", "welcome",  "willkommen", "bienvenido", "administrator", "admin",  "letmein",
    "iloveyou", "dragon",   "monkey",     "football", "baseball",   "sunshine",   "princess",      "master", "superman",
    "trustno",  "secret",   "geheim",     "secreto",  "login",      "changeme",   "loopside",      "filter", "summer"};

constexpr std::size_t leftLeast = 6; ///< Signs that must be left beside rows, words and the name.
constexpr std::size_t differentLeast = 5;
constexpr std::size_t shortestName = 3;

char lowered(char sign)
{
    return sign >= 'A' && sign <= 'Z' ? static_cast<char>(sign - 'A' + 'a') : sign;
}

/// The letter that a sign is often written for.
char asLetter(char sign)
{
    constexpr std::string_view signs = "0134567@$!";
    constexpr std::string_view letters = "oleasbtasi";
    const auto at = signs.find(sign);
    return at == std::string_view::npos ? sign : letters[at];
}

template<class Change>
std::string changed(std::string_view text, Change change)
{
    std::string all(text);
    std::ranges::transform(all, all.begin(), change);
    return all;
}

/// Marks in `isCovered` every place of `text` where `part` stands.
void cover(std::string_view text, std::string_view part, std::vector<bool>& isCovered)
{
    for (auto at = text.find(part); at != std::string_view::npos; at = text.find(part, at + 1)) {
        std::fill_n(isCovered.begin() + static_cast<std::ptrdiff_t>(at), part.size(), true);
    }
}

void coverRows(std::string_view text, std::vector<bool>& isCovered)
{
    for (const std::string_view row : rows) {
        const std::string back(row.rbegin(), row.rend());
        for (std::size_t from = 0; from + shortestRow <= row.size(); ++from) {
            cover(text, row.substr(from, shortestRow), isCovered);
            cover(text, std::string_view(back).substr(from, shortestRow), isCovered);
        }
    }
}

/// Whether `text` is one piece, twice or more, of which the last may be cut.
bool isRepeated(std::string_view text)
{
    for (std::size_t piece = 1; piece <= text.size() / 2; ++piece) {
        if (text.substr(piece) == text.substr(0, text.size() - piece)) {
            return true;
        }
    }
    return false;
}

/// Signs of UTF-8.
std::size_t signsIn(std::string_view text)
{
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char byte) { return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U; }));
}

} // namespace

bool isEasilyGuessed(std::string_view password, std::string_view name)
{
    const std::string plain = changed(password, lowered);
    if (std::set<char>(plain.begin(), plain.end()).size() < differentLeast || isRepeated(plain)) {
        return true;
    }
    std::vector<bool> isCovered(plain.size(), false);
    coverRows(plain, isCovered);
    const std::string letters = changed(plain, asLetter);
    for (const std::string_view word : words) {
        cover(letters, word, isCovered);
    }
    if (name.size() >= shortestName) {
        cover(plain, changed(name, lowered), isCovered);
    }
    return static_cast<std::size_t>(std::ranges::count(isCovered, false)) < leftLeast;
}

Done mayBePassword(std::string_view password, std::string_view name)
{
    const std::size_t signs = signsIn(password);
    if (!isUtf8(password) || signs < passwordSignsLeast || signs > passwordSignsMost) {
        return fail(Errc::Malformed, "a password has at least 12 and at most 128 signs",
                    {"page.refused.password-length",
                     {{"least", std::to_string(passwordSignsLeast)}, {"most", std::to_string(passwordSignsMost)}}});
    }
    return isEasilyGuessed(password, name)
        ? fail(Errc::Malformed,
               "this password is one of the first that are tried: rows of keys, common words, the name, or the same "
               "again "
               "and again; four words that have nothing to do with each other are better",
               {"page.refused.password-easy", {}})
        : Done{};
}

} // namespace loopside::page
