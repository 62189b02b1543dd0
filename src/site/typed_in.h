// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Reading what was typed into the members of a record, and what they hold as a person reads it.

#pragma once

#include "base/decimal.h"
#include "base/text.h"
#include "units/typed.h"

#include <charconv>
#include <optional>
#include <string>
#include <string_view>

namespace loopside::site {

/// The number in front of a unit: digits, signs, points and commas.
[[nodiscard]] inline std::string numberIn(const std::string& text)
{
    const auto end = text.find_first_not_of("0123456789.,+- ");
    return std::string(trimmed(std::string_view(text).substr(0, end)));
}

/// Reads `text` ("760 L", "0.7", "BM-HY-012") into a member; false, with the member as it was, if it is none.
template<class Q>
[[nodiscard]] bool readInto(units::Typed<Q>& member, const std::string& text)
{
    const auto read = units::Typed<Q>::parse(text);
    if (read) {
        member = *read;
    }
    return read.has_value();
}

[[nodiscard]] inline bool readInto(std::string& member, const std::string& text)
{
    member = text;
    return true;
}

template<class Q>
[[nodiscard]] bool readInto(std::optional<units::Typed<Q>>& member, const std::string& text)
{
    const auto read = units::Typed<Q>::parse(text);
    if (read) {
        member = *read;
    }
    return read.has_value();
}

[[nodiscard]] inline bool readInto(std::optional<Decimal>& member, const std::string& text)
{
    const auto read = Decimal::parse(text);
    if (read) {
        member = *read;
    }
    return read.has_value();
}

/// A number of pieces.
[[nodiscard]] inline bool readInto(int& member, const std::string& text)
{
    constexpr int most = 99'999;
    int number = 0;
    const char* const end = text.data() + text.size();
    const auto [rest, problem] = std::from_chars(text.data(), end, number);
    const bool isNumber = problem == std::errc{} && rest == end && number >= 0 && number <= most;
    member = isNumber ? number : member;
    return isNumber;
}

/// Takes back what is known; false where something has to be known.
template<class Member>
[[nodiscard]] bool takeBack(std::optional<Member>& member)
{
    member.reset();
    return true;
}

[[nodiscard]] inline bool takeBack(std::string& member)
{
    member.clear();
    return true;
}

template<class Q>
[[nodiscard]] bool takeBack(units::Typed<Q>&)
{
    return false;
}

[[nodiscard]] inline bool takeBack(int&)
{
    return false;
}

/// What a member holds, as a person reads it; empty if nothing.
template<class Typed>
[[nodiscard]] std::string textIn(const std::optional<Typed>& member)
{
    return member ? member->toText() : std::string();
}

template<class Typed>
[[nodiscard]] std::string textIn(const Typed& member)
{
    return member.toText();
}

[[nodiscard]] inline std::string textIn(const std::string& member)
{
    return member;
}

[[nodiscard]] inline std::string textIn(int member)
{
    return std::to_string(member);
}

} // namespace loopside::site
