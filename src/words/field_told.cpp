// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "words/field_told.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>

namespace loopside::words {

namespace {

/// "stages.0.change_limit", whichever way the place was written.
std::string withDots(std::string_view place)
{
    std::string dotted;
    for (const char sign : place) {
        if (sign != ']') {
            dotted += sign == '/' || sign == '[' ? '.' : sign;
        }
    }
    return dotted.starts_with('.') ? dotted.substr(1) : dotted;
}

bool takeStart(std::string& member, std::string_view start)
{
    const bool isThere = member.starts_with(start) && member.size() > start.size();
    member.erase(0, isThere ? start.size() : 0);
    return isThere;
}

/// Takes "stages.0." away and gives which one of the list it is, from 1.
std::optional<std::string> takeNumberIn(std::string& member, std::string_view list)
{
    const std::string start = std::string(list) + ".";
    const auto dot = member.find('.', start.size());
    if (!member.starts_with(start) || dot == std::string::npos) {
        return std::nullopt;
    }
    const std::string number = member.substr(start.size(), dot - start.size());
    constexpr std::size_t mostDigits = 4;
    const bool isNumber = !number.empty() && number.size() <= mostDigits
        && std::ranges::all_of(number, [](unsigned char sign) { return std::isdigit(sign) != 0; });
    if (!isNumber) {
        return std::nullopt;
    }
    member.erase(0, dot + 1);
    return std::to_string(std::stoi(number) + 1);
}

std::string memberName(const Words& words, std::string member)
{
    if (!words.has("record." + member)) {
        takeStart(member, "fluid.");
    }
    return words.has("record." + member) ? words.say("record." + member) : member;
}

} // namespace

std::string fieldName(const Words& words, std::string_view place)
{
    std::string member = withDots(place);
    constexpr std::array<std::string_view, 4> records = {"tank.", "cart.", "stage.", "target."};
    std::ranges::any_of(records, [&](std::string_view record) { return takeStart(member, record); });
    if (const auto stage = takeNumberIn(member, "stages")) {
        return words.say({"app.stage", {{"stage", *stage}}}) + " " + memberName(words, member);
    }
    if (const auto gauge = takeNumberIn(member, "gauges")) {
        return words.say({"record.gauge", {{"gauge", *gauge}}}) + " " + memberName(words, "gauge." + member);
    }
    return memberName(words, member);
}

} // namespace loopside::words
