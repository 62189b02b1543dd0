// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/place_typed.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <limits>
#include <numbers>

namespace loopside::run {

namespace {

constexpr double meridianDegree_m = 111'195.0; ///< Of the sphere of `distance_m`.
constexpr std::size_t partsMost = 3;           ///< Degrees, minutes, seconds.

/// Signs that people write for one another, and what they are read as.
struct Written
{
    std::string_view sign;
    char means;
};
constexpr std::array<Written, 14> writings = {{{"''", '"'},
                                               {"°", 'd'},
                                               {"º", 'd'},
                                               {"′", '\''},
                                               {"’", '\''},
                                               {"´", '\''},
                                               {"″", '"'},
                                               {"”", '"'},
                                               {"−", '-'},
                                               {"\u00A0", ' '},
                                               {"\u202F", ' '},
                                               {":", ' '},
                                               {"\t", ' '},
                                               {",", '.'}}};
constexpr std::string_view marks = "d'\""; ///< Behind degrees, minutes, seconds.

/// With one sign for each thing; anything that stands for nothing becomes '?'.
std::string plain(std::string_view text)
{
    std::string all;
    while (!text.empty()) {
        const auto written = std::ranges::find_if(writings,
                                                  [&](const Written& one) { return text.starts_with(one.sign); });
        if (written != writings.end()) {
            all += written->means;
            text.remove_prefix(written->sign.size());
            continue;
        }
        const auto sign = static_cast<unsigned char>(text.front());
        const bool isLetter = std::isalpha(sign) != 0;
        const bool isKnown = isLetter || std::isdigit(sign) != 0
            || std::string_view(".'\" +-").find(text.front()) != std::string_view::npos;
        all += isLetter ? static_cast<char>(std::toupper(sign)) : isKnown ? text.front() : '?';
        text.remove_prefix(1);
    }
    return all;
}

Error unreadable(const char* id, std::string sentence, Errc code = Errc::Malformed)
{
    return {code, std::move(sentence), {std::string("place.") + id, {}}};
}

/// A coordinate while it is read.
struct Reading
{
    std::string rest;
    Axis axis;
    std::string direction = {}; ///< Letters and signs, all that stand there.
    std::vector<std::string> numbers = {};
};

bool isOneOf(char sign, std::string_view signs)
{
    return signs.find(sign) != std::string_view::npos;
}

/// Moves the letters at one end of `text`, which is trimmed, behind `letters`.
void takeLetters(std::string& text, std::string& letters, bool atFront)
{
    const auto isLetter = [](char sign) { return sign >= 'A' && sign <= 'Z'; };
    while (!text.empty() && isLetter(atFront ? text.front() : text.back())) {
        letters += atFront ? text.front() : text.back();
        text.erase(atFront ? 0 : text.size() - 1, 1);
        text = std::string(trimmed(text));
    }
}

/// Takes letters and sign off the ends; what is left is numbers and marks.
std::optional<Error> takeDirection(Reading& reading)
{
    std::string& direction = reading.direction;
    takeLetters(reading.rest, direction, true);
    takeLetters(reading.rest, direction, false);
    if (!reading.rest.empty() && isOneOf(reading.rest.front(), "+-")) {
        direction += reading.rest.front();
        reading.rest.erase(0, 1);
    }
    if (!std::ranges::all_of(direction, [](char sign) { return isOneOf(sign, "NSEWO+-"); })) {
        return unreadable("unreadable", "it is no latitude or longitude");
    }
    if (direction.size() > 1) {
        return unreadable("two-directions", "it names more than one direction");
    }
    if (direction == "O") {
        return unreadable("east-or-west", "O is east in German and west in Spanish");
    }
    const bool fits = direction.empty() || isOneOf(direction[0], reading.axis == Axis::Latitude ? "NS+-" : "EW+-");
    return fits ? std::nullopt
                : std::optional(unreadable("other-axis", "a latitude is north or south, a longitude east or west"));
}

/// Up to three numbers, each with its own mark behind it or with none.
bool takeNumbers(Reading& reading)
{
    std::string_view rest = reading.rest;
    while (!rest.empty()) {
        const auto end = std::min(rest.find_first_not_of("0123456789."), rest.size());
        if (end == 0 || reading.numbers.size() == partsMost) {
            return false;
        }
        reading.numbers.emplace_back(rest.substr(0, end));
        rest = trimmed(rest.substr(end));
        const bool hasOwnMark = !rest.empty() && rest.front() == marks[reading.numbers.size() - 1];
        const bool isBetween = !rest.empty() && rest.front() == '-' && rest.size() > 1;
        rest = hasOwnMark || isBetween ? trimmed(rest.substr(1)) : rest;
    }
    return !reading.numbers.empty();
}

/// Maps write more digits than a `Decimal` holds.
struct Digits
{
    double value = 0.0;
    int places = 0;
};

std::optional<Digits> digitsIn(const std::string& text)
{
    const auto point = text.find('.');
    Digits digits;
    digits.places = point == std::string::npos ? 0 : static_cast<int>(text.size() - point - 1);
    const char* const end = text.data() + text.size();
    const auto [rest, problem] = std::from_chars(text.data(), end, digits.value, std::chars_format::fixed);
    return problem == std::errc{} && rest == end ? std::optional(digits) : std::nullopt;
}

Result<Coordinate> valueOf(const Reading& reading)
{
    Coordinate all;
    double unit_deg = 1.0;
    for (std::size_t i = 0; i < reading.numbers.size(); ++i, unit_deg /= 60.0) {
        const auto number = digitsIn(reading.numbers[i]);
        const bool isLast = i + 1 == reading.numbers.size();
        if (!number || (!isLast && number->places > 0)) {
            return fail(unreadable("unreadable", "it is no latitude or longitude"));
        }
        if (i > 0 && number->value >= 60.0) {
            return fail(unreadable("sixty", "minutes and seconds stay below 60", Errc::OutOfRange));
        }
        all.degrees += number->value * unit_deg;
        all.half_deg = unit_deg * std::pow(10.0, -number->places) / 2.0;
    }
    if (all.degrees > (reading.axis == Axis::Latitude ? 90.0 : 180.0)) {
        return fail(unreadable("beyond", "a latitude goes to 90 degrees, a longitude to 180", Errc::OutOfRange));
    }
    const bool isBack = reading.direction == "S" || reading.direction == "W" || reading.direction == "-";
    all.degrees = isBack ? -all.degrees : all.degrees;
    return all;
}

std::string metres(double length_m)
{
    return length_m < 1000.0 ? fixed(length_m, length_m < 10.0 ? 1 : 0) + " m" : fixed(length_m / 1000.0, 0) + " km";
}

/// The one of `others` that is nearest to `place`, if any has a place.
struct Neighbour
{
    std::string name;
    double away_m = std::numeric_limits<double>::infinity();
};

Neighbour nearestTo(const Place& place, const TankRecord& tank, const std::vector<TankRecord>& others)
{
    Neighbour nearest;
    for (const TankRecord& other : others) {
        const auto stands = other.name == tank.name ? std::nullopt : placeOf(other);
        const double away_m = stands ? distance_m(place, stands->place) : nearest.away_m;
        if (away_m < nearest.away_m) {
            nearest = {other.name, away_m};
        }
    }
    return nearest;
}

} // namespace

Result<Coordinate> coordinateIn(std::string_view text, Axis axis)
{
    Reading reading{std::string(trimmed(plain(text))), axis};
    if (const auto error = takeDirection(reading)) {
        return fail(*error);
    }
    if (!takeNumbers(reading)) {
        return fail(unreadable("unreadable", "it is no latitude or longitude"));
    }
    return valueOf(reading);
}

std::optional<Fix> placeOf(const TankRecord& tank)
{
    const auto latitude = coordinateIn(tank.latitude, Axis::Latitude);
    const auto longitude = coordinateIn(tank.longitude, Axis::Longitude);
    if (!latitude || !longitude) {
        return std::nullopt;
    }
    const double shrink = std::cos(latitude->degrees * std::numbers::pi / 180.0);
    const double finest_m = meridianDegree_m * std::hypot(latitude->half_deg, longitude->half_deg * shrink);
    return Fix{{latitude->degrees, longitude->degrees}, finest_m};
}

std::vector<Message> oddInPlace(const TankRecord& tank, const std::vector<TankRecord>& others,
                                const std::optional<Fix>& learned)
{
    if (tank.latitude.empty() != tank.longitude.empty()) {
        return {{"place.half", {}}};
    }
    const auto fix = placeOf(tank);
    if (!fix) {
        return {};
    }
    std::vector<Message> odd;
    if (distance_m(fix->place, {0.0, 0.0}) < farPlace_m) {
        odd.push_back({"place.zero", {}});
    }
    if (*fix->accuracy_m > coarsePlace_m) {
        odd.push_back({"place.coarse", {{"accuracy", metres(*fix->accuracy_m)}}});
    }
    const Neighbour nearest = nearestTo(fix->place, tank, others);
    if (nearest.away_m < samePlace_m) {
        odd.push_back({"place.same", {{"tank", nearest.name}}});
    } else if (nearest.away_m > farPlace_m && !nearest.name.empty()) {
        odd.push_back({"place.far", {{"tank", nearest.name}, {"distance", metres(nearest.away_m)}}});
    }
    const double away_m = learned ? distance_m(fix->place, learned->place) : 0.0;
    if (learned && away_m > *fix->accuracy_m + learned->accuracy_m.value_or(0.0) + reach_m) {
        odd.push_back({"place.runs", {{"distance", metres(away_m)}}});
    }
    return odd;
}

} // namespace loopside::run
