// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/right_tank.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <numbers>
#include <set>

namespace loopside::run {

namespace {

constexpr double meanRadius_m = 6'371'008.8;

double radians(double degrees)
{
    return degrees * std::numbers::pi / 180.0;
}

double squared(double number)
{
    return number * number;
}

/// Letters and digits, small; signs beyond ASCII as they are.
std::string signsOf(std::string_view text)
{
    std::string signs;
    for (const unsigned char sign : text) {
        if (sign >= 0x80 || std::isalnum(sign) != 0) {
            signs += static_cast<char>(sign < 0x80 ? std::tolower(sign) : sign);
        }
    }
    return signs;
}

struct LookName
{
    LookBy by;
    std::string_view name;
};
constexpr std::array<LookName, 5> lookNames = {{{LookBy::Reader, "reader"},
                                                {LookBy::Camera, "camera"},
                                                {LookBy::Typed, "typed"},
                                                {LookBy::Oil, "oil"},
                                                {LookBy::Position, "position"}}};

/// Looks of one kind rest on the same sign, whoever takes them.
int kindOf(LookBy by)
{
    return by == LookBy::Camera ? static_cast<int>(LookBy::Reader) : static_cast<int>(by);
}

} // namespace

double distance_m(const Place& a, const Place& b)
{
    const double north = radians(b.latitude_deg - a.latitude_deg);
    const double east = radians(b.longitude_deg - a.longitude_deg);
    const double h = squared(std::sin(north / 2.0))
        + std::cos(radians(a.latitude_deg)) * std::cos(radians(b.latitude_deg)) * squared(std::sin(east / 2.0));
    return 2.0 * meanRadius_m * std::asin(std::sqrt(std::min(1.0, h)));
}

TanksAround tanksAround(const Fix& fix, const std::vector<std::optional<Fix>>& tanks)
{
    TanksAround around;
    bool areAllPlaced = true;
    std::size_t candidates = 0;
    for (std::size_t i = 0; i < tanks.size(); ++i) {
        areAllPlaced = areAllPlaced && tanks[i];
        if (tanks[i]) {
            const double away_m = distance_m(fix.place, tanks[i]->place);
            const bool mayBeIt = !fix.accuracy_m
                || away_m <= *fix.accuracy_m + tanks[i]->accuracy_m.value_or(0.0) + reach_m;
            around.nearest.push_back({i, away_m, mayBeIt});
            candidates += mayBeIt ? 1 : 0;
        }
    }
    std::ranges::stable_sort(around.nearest, {}, &TankAway::away_m);
    around.told = around.nearest.empty()  ? WhereTold::NoPlaces
        : !fix.accuracy_m                 ? WhereTold::AccuracyUnknown
        : candidates == 0                 ? WhereTold::NoneHere
        : candidates == 1 && areAllPlaced ? WhereTold::One
                                          : WhereTold::CannotTellApart;
    return around;
}

bool readsAs(std::string_view read, std::string_view shown)
{
    return signsOf(read) == signsOf(shown);
}

std::string_view nameOf(LookBy by)
{
    return std::ranges::find(lookNames, by, &LookName::by)->name;
}

std::optional<LookBy> lookByNamed(std::string_view name)
{
    const auto found = std::ranges::find(lookNames, name, &LookName::name);
    return found == lookNames.end() ? std::nullopt : std::optional(found->by);
}

std::string_view nameOf(TankKnown known)
{
    constexpr std::array<std::string_view, 4> names = {"not", "once", "twice", "against-it"};
    return names.at(static_cast<std::size_t>(known));
}

TankKnown knownFrom(const std::vector<TankLook>& looks, const std::string& tank)
{
    std::set<int> kinds;
    bool isAgainstIt = false;
    for (const TankLook& look : looks) {
        if (!look.why.empty() && (look.of.empty() ? look.expected : look.of) == tank) {
            isAgainstIt = true;
        }
        if (look.expected != tank) {
            continue;
        }
        if (look.fits) {
            kinds.insert(kindOf(look.by));
        } else {
            kinds.clear(); // what fitted before may have been read elsewhere
        }
    }
    const bool isOilAlone = kinds.size() == 1 && kinds.contains(static_cast<int>(LookBy::Oil));
    return isAgainstIt                ? TankKnown::AgainstIt
        : kinds.size() >= 2           ? TankKnown::Twice
        : kinds.empty() || isOilAlone ? TankKnown::Not
                                      : TankKnown::Once;
}

} // namespace loopside::run
