// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/text.h"

#include "base/require.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <chrono>
#include <limits>

namespace loopside {

namespace {

int hexValue(char sign)
{
    if (sign >= '0' && sign <= '9') {
        return sign - '0';
    }
    if (sign >= 'a' && sign <= 'f') {
        return sign - 'a' + 10;
    }
    if (sign >= 'A' && sign <= 'F') {
        return sign - 'A' + 10;
    }
    return -1;
}

/// How many bytes the UTF-8 sign that begins with `lead` has; 0 where none begins so.
std::size_t lengthOfSign(unsigned char lead)
{
    if (lead < 0x80) {
        return 1;
    }
    if (lead >= 0xC2 && lead <= 0xDF) {
        return 2;
    }
    if ((lead & 0xF0U) == 0xE0) {
        return 3;
    }
    return lead >= 0xF0 && lead <= 0xF4 ? 4 : 0;
}

/// Whether a sign of three or four bytes is over-long, a surrogate or beyond U+10FFFF: told by its second byte.
bool isForbidden(unsigned char lead, unsigned char second)
{
    return (lead == 0xE0 && second < 0xA0) || (lead == 0xED && second > 0x9F) || (lead == 0xF0 && second < 0x90)
        || (lead == 0xF4 && second > 0x8F);
}

std::size_t signAt(std::string_view text, std::size_t at)
{
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const std::size_t length = lengthOfSign(byte(at));
    if (length == 0 || at + length > text.size()) {
        return 0;
    }
    for (std::size_t i = at + 1; i < at + length; ++i) {
        if ((byte(i) & 0xC0U) != 0x80) {
            return 0;
        }
    }
    return length > 1 && isForbidden(byte(at), byte(at + 1)) ? 0 : length;
}

/// Whether the sign of `length` bytes at `at` is one that a terminal would obey: U+0000 to U+001F and U+007F to U+009F.
bool isControl(std::string_view text, std::size_t at, std::size_t length)
{
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    return (length == 1 && (byte(at) < 0x20 || byte(at) == 0x7F))
        || (length == 2 && byte(at) == 0xC2 && byte(at + 1) < 0xA0);
}

} // namespace

std::string_view trimmed(std::string_view text)
{
    const auto first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) {
        return {};
    }
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::string quotable(std::string_view text)
{
    constexpr std::size_t signsMax = 40;
    std::string shown;
    std::size_t signs = 0;
    for (std::size_t at = 0; at < text.size(); ++signs) {
        if (signs == signsMax) {
            return shown + "…";
        }
        const std::size_t length = signAt(text, at);
        const bool plain = length > 0 && !isControl(text, at, length);
        shown += plain ? std::string(text.substr(at, length)) : std::string("?");
        at += length == 0 ? 1 : length;
    }
    return shown;
}

bool isUtf8(std::string_view text)
{
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = signAt(text, at);
        if (length == 0) {
            return false;
        }
        at += length;
    }
    return true;
}

std::string toHex(std::span<const std::uint8_t> bytes)
{
    constexpr std::string_view digits = "0123456789abcdef";
    std::string hex;
    hex.reserve(bytes.size() * 2);
    for (const std::uint8_t byte : bytes) {
        hex += digits[byte >> 4U];
        hex += digits[byte & 0xFU];
    }
    return hex;
}

bool fromHex(std::string_view hex, std::span<std::uint8_t> bytes)
{
    if (hex.size() != bytes.size() * 2) {
        return false;
    }
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        const int high = hexValue(hex[2 * i]);
        const int low = hexValue(hex[2 * i + 1]);
        if (high < 0 || low < 0) {
            return false;
        }
        bytes[i] = static_cast<std::uint8_t>(high * 16 + low);
    }
    return true;
}

std::string fixed(double number, int decimals)
{
    constexpr int decimalsMax = 20;
    require(decimals >= 0 && decimals <= decimalsMax, "a number is printed with 0 to 20 digits behind the point");
    std::array<char, 1 + std::numeric_limits<double>::max_exponent10 + 2 + decimalsMax> buffer{}; // sign, digits, point
    char* const begin = buffer.data();
    const auto end = std::to_chars(begin, begin + buffer.size(), number, std::chars_format::fixed, decimals).ptr;
    std::string text(begin, end);
    if (text.starts_with('-') && text.find_first_not_of("-0.") == std::string::npos) {
        text.erase(0, 1);
    }
    return text;
}

std::string utcText(std::int64_t wallMs)
{
    constexpr std::int64_t yearZero = -62'167'219'200'000;
    constexpr std::int64_t yearTenThousand = 253'402'300'800'000;
    if (wallMs < yearZero || wallMs >= yearTenThousand) {
        return std::to_string(wallMs) + " ms";
    }
    const std::chrono::sys_time<std::chrono::milliseconds> time{std::chrono::milliseconds(wallMs)};
    const auto day = std::chrono::floor<std::chrono::days>(time);
    const std::chrono::year_month_day date(day);
    const std::chrono::hh_mm_ss clock(std::chrono::floor<std::chrono::seconds>(time - day));
    const auto padded = [](std::int64_t number, std::size_t digits) {
        const std::string text = std::to_string(number);
        return std::string(digits - std::min(digits, text.size()), '0') + text;
    };
    return padded(static_cast<int>(date.year()), 4) + '-' + padded(static_cast<unsigned>(date.month()), 2) + '-'
        + padded(static_cast<unsigned>(date.day()), 2) + 'T' + padded(clock.hours().count(), 2) + ':'
        + padded(clock.minutes().count(), 2) + ':' + padded(clock.seconds().count(), 2) + 'Z';
}

} // namespace loopside
