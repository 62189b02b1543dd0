// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/next_value.h"

#include "base/require.h"
#include "run/uncertain.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace loopside::run {

namespace {

constexpr int meanSteps = 80;
constexpr int spreadSteps = 10;
constexpr double spreadTimes = 4.0; // of the usual, either way
constexpr double lnSpreadUnsure = 0.5;
constexpr double roomBelow = 1.0; // of ln(value), beyond the smallest
constexpr double roomAbove = 3.0; // beyond the largest, which may be a bound
constexpr double roomTold = 4.0;  // standard deviations

struct LnRange
{
    double from;
    double to;
};

/// Where the mean may lie.
LnRange rangeOf(std::span<const ValueSeen> seen, const Beforehand& beforehand)
{
    LnRange range{1e9, -1e9};
    for (const ValueSeen& one : seen) {
        range.from = std::min(range.from, std::log(one.value) - roomBelow);
        range.to = std::max(range.to, std::log(one.value) + roomAbove);
    }
    if (beforehand.told) {
        const double room = roomTold * beforehand.toldUnsure;
        return {std::log(*beforehand.told) - room, std::log(*beforehand.told) + room};
    }
    return range;
}

} // namespace

/// The logarithm of how likely a case is, but for a constant.
double NextValue::lnWeight(const Case& one, std::span<const ValueSeen> seen, const Beforehand& beforehand)
{
    const double spreadOff = std::log(one.spread / beforehand.spread) / lnSpreadUnsure;
    double weight = -0.5 * spreadOff * spreadOff;
    if (beforehand.told) {
        const double off = (one.lnMean - std::log(*beforehand.told)) / beforehand.toldUnsure;
        weight -= 0.5 * off * off;
    }
    for (const ValueSeen& value : seen) {
        const double sd = std::hypot(one.spread, value.lnUnsure);
        const double off = (std::log(value.value) - one.lnMean) / sd;
        weight += value.isAtLeast ? std::log(std::max(asChance(-off), 1e-300)) : -0.5 * off * off - std::log(sd);
    }
    return weight;
}

NextValue NextValue::from(std::span<const ValueSeen> seen, const Beforehand& beforehand)
{
    const bool isAnyWhole = std::any_of(seen.begin(), seen.end(), [](const ValueSeen& one) { return !one.isAtLeast; });
    if (!isAnyWhole && !beforehand.told) {
        return NextValue({});
    }
    const LnRange range = rangeOf(seen, beforehand);
    std::vector<Case> cases;
    double most = -1e300;
    for (int i = 0; i <= meanSteps; ++i) {
        for (int j = 0; j <= spreadSteps; ++j) {
            const double times = std::pow(spreadTimes, 2.0 * j / spreadSteps - 1.0);
            Case one{range.from + (range.to - range.from) * i / meanSteps, beforehand.spread * times, 0.0};
            one.weight = lnWeight(one, seen, beforehand);
            most = std::max(most, one.weight);
            cases.push_back(one);
        }
    }
    double sum = 0.0;
    for (Case& one : cases) {
        one.weight = std::exp(one.weight - most);
        sum += one.weight;
    }
    for (Case& one : cases) {
        one.weight /= sum;
    }
    std::erase_if(cases, [](const Case& one) { return one.weight < 1e-12; });
    return NextValue(std::move(cases));
}

double NextValue::chanceBelow(double value) const
{
    if (!isKnown()) {
        return 0.5;
    }
    double chance = 0.0;
    for (const Case& one : cases_) {
        chance += one.weight * asChance((std::log(value) - one.lnMean) / one.spread);
    }
    return chance;
}

filtration::Band NextValue::band() const
{
    require(isKnown(), "a band is asked for where something is known");
    return {quantile(0.05), quantile(0.5), quantile(0.95)};
}

double NextValue::quantile(double part) const
{
    constexpr int halvings = 45;
    double low = -50.0;
    double high = 50.0;
    for (int i = 0; i < halvings; ++i) {
        const double middle = 0.5 * (low + high);
        (chanceBelow(std::exp(middle)) < part ? low : high) = middle;
    }
    return std::exp(0.5 * (low + high));
}

} // namespace loopside::run
