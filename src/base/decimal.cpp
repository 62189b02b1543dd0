// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "base/decimal.h"

#include "base/require.h"
#include "base/text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace loopside {

namespace {

constexpr int placesMax = 6;
constexpr int digitsMax = 12;
constexpr std::array<std::int64_t, placesMax + 1> powers = {1, 10, 100, 1000, 10000, 100000, 1000000};

/// Two values of this size, both written with six places, still have a sum that fits 64 bits.
constexpr std::int64_t valueMax = 4'000'000'000'000;

std::int64_t power(int places)
{
    require(places >= 0 && places <= placesMax, "a decimal has 0 to 6 places");
    return powers[static_cast<std::size_t>(places)];
}

std::string quoted(std::string_view text)
{
    std::string sentence = "\"";
    sentence += quotable(text);
    sentence += '"';
    return sentence;
}

bool isDigit(char sign)
{
    return sign >= '0' && sign <= '9';
}

} // namespace

bool readsInTwoWays(std::string_view text)
{
    std::string_view digits = trimmed(text);
    digits.remove_prefix(digits.starts_with('-') || digits.starts_with('+') ? 1 : 0);
    const auto comma = digits.find(',');
    return comma != std::string_view::npos && comma > 0 && digits.size() - comma == 4
        && digits.substr(0, comma).find_first_not_of('0') != std::string_view::npos
        && std::all_of(digits.begin(), digits.end(), [](char sign) { return sign == ',' || isDigit(sign); });
}

Decimal::Decimal(std::int64_t mantissa, int places) : mantissa_{mantissa}, places_{places}
{
    const std::int64_t limit = valueMax * power(places);
    require(mantissa >= -limit && mantissa <= limit, "a decimal is at most 4e12 either way");
}

Result<Decimal> Decimal::parse(std::string_view text)
{
    const std::string_view all = trimmed(text);
    const bool negative = all.starts_with('-');
    const std::string_view digits = negative || all.starts_with('+') ? all.substr(1) : all;
    if (readsInTwoWays(text)) {
        return fail(Errc::Malformed,
                    quoted(text)
                        + " can be read in two ways, as thousands or with a decimal comma; write a point, or no comma");
    }
    std::int64_t mantissa = 0;
    int before = 0;
    int behind = 0;
    bool pointSeen = false;
    for (const char sign : digits) {
        if ((sign == '.' || sign == ',') && !pointSeen) {
            pointSeen = true;
            continue;
        }
        if (!isDigit(sign)) {
            return fail(Errc::Malformed, quoted(text) + " is not a number");
        }
        (pointSeen ? behind : before) += (pointSeen || mantissa != 0 || sign != '0') ? 1 : 0;
        if (before > digitsMax || behind > placesMax) {
            return fail(Errc::OutOfRange, quoted(text) + " has more digits than a reading can have");
        }
        mantissa = mantissa * 10 + (sign - '0');
    }
    if (std::ranges::none_of(digits, isDigit)) {
        return fail(Errc::Malformed, quoted(text) + " is not a number");
    }
    return Decimal(negative ? -mantissa : mantissa, behind);
}

Decimal Decimal::nearest(double number, int places)
{
    require(std::abs(number) < 1e12, "a decimal has at most 12 digits before the point");
    return {std::llround(number * static_cast<double>(power(places))), places};
}

double Decimal::toDouble() const
{
    return static_cast<double>(mantissa_) / static_cast<double>(power(places_));
}

Decimal Decimal::percent(int percent) const
{
    require(percent >= 0 && percent <= 100, "a share is from 0 to 100 percent");
    if (places_ + 2 <= placesMax) {
        return {mantissa_ * percent, places_ + 2};
    }
    return nearest(toDouble() * percent / 100.0, placesMax);
}

std::string Decimal::toText() const
{
    std::string digits = std::to_string(mantissa_ < 0 ? -mantissa_ : mantissa_);
    const auto places = static_cast<std::size_t>(places_);
    if (digits.size() <= places) {
        digits.insert(0, places + 1 - digits.size(), '0');
    }
    if (places > 0) {
        digits.insert(digits.size() - places, 1, '.');
    }
    return mantissa_ < 0 ? "-" + digits : digits;
}

std::int64_t Decimal::scaledTo(int places) const
{
    return mantissa_ * power(places - places_);
}

Decimal operator+(const Decimal& a, const Decimal& b)
{
    const int places = std::max(a.places_, b.places_);
    return {a.scaledTo(places) + b.scaledTo(places), places};
}

Decimal operator-(const Decimal& a, const Decimal& b)
{
    const int places = std::max(a.places_, b.places_);
    return {a.scaledTo(places) - b.scaledTo(places), places};
}

std::strong_ordering operator<=>(const Decimal& a, const Decimal& b)
{
    const int places = std::max(a.places_, b.places_);
    return a.scaledTo(places) <=> b.scaledTo(places);
}

} // namespace loopside
