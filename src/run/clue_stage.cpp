// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/clean_drop.h"
#include "run/clue_parts.h"

namespace loopside::run::clue {

using units::pascal;
using units::Pressure;

namespace {

constexpr double notYet = 1.0; ///< Below every need, above what keeps a finding.

/// At its setting, in the digits as typed; and then until it is likely a few hundredths below it.
double holdsAtSetting(const Evidence& e, std::size_t i)
{
    constexpr double stays = 0.93;
    const auto& setting = recordOf(e, i).bypass;
    if (!setting || !e.now.drops[i]) {
        return impossible;
    }
    if (reachesPart(e, i, setting, 100)) {
        return certain;
    }
    const Measured& drop = *e.now.drops[i];
    const Uncertain part{drop.value / setting->value(), drop.reading / setting->value()};
    return std::min(notYet, part.above(stays) + likely);
}

double holdsSwellsFast(const Evidence& e, std::size_t i)
{
    constexpr double grown = 1.3;
    constexpr double perHour = 1.0; // in ln loading: 1.3 times in a quarter of an hour
    const StageEvidence& stage = e.stages[i];
    if (!stage.sinceBase || stage.sinceBase->value <= 0.0) {
        return impossible;
    }
    const double hours = static_cast<double>((e.now.at - stage.base->at).count()) / 3.6e6;
    return hours > 0.0 && std::log(stage.sinceBase->value) / hours > perHour ? stage.sinceBase->above(grown)
                                                                             : impossible;
}

double loadedAbove(const Evidence& e, std::size_t i, double bound)
{
    const auto& loading = e.stages[i].loading;
    return loading ? asDeviates(loading->chanceAbove(bound)) : impossible;
}

/// The chance that `fresh` is a multiple `as`, told as how far it is within two standard uncertainties of it.
template<class Number>
double alike(const std::optional<Number>& number, double as)
{
    constexpr double near = 2.0;
    return number ? near - std::abs(number->above(as)) : impossible;
}

/// What stage `i` reads after a changeover ÷ what `share` of its old loading would make it; by this run's own gauges.
std::optional<Ratio> ofOldAgainst(const Evidence& e, std::size_t i, double share, double sdOfOld)
{
    const auto& ofOld = e.stages[i].ofOld;
    return ofOld ? std::optional(ofOld->over({share, share * sdOfOld})) : std::nullopt;
}

/// The loading of the old elements, where it was enough for half a pair to be told from a new one.
std::optional<Uncertain> wornLoading(const Evidence& e, std::size_t i)
{
    constexpr double wornOut = 1.5;
    const auto& renewal = e.stages[i].renewal;
    const bool isWorn = renewal && renewal->oldLoading && renewal->oldLoading->value >= wornOut;
    return isWorn ? renewal->oldLoading : std::nullopt;
}

/// New elements read 1/f of the old; the error of f is that of a catalogue.
double holdsMoreThanNew(const Evidence& e, std::size_t i)
{
    constexpr double more = 1.2;
    const auto old = wornLoading(e, i);
    return old ? std::min({above(ofOldAgainst(e, i, 1.0 / old->value, old->sd / old->value), more),
                           above(e.stages[i].fresh, more), above(e.stages[i].freshAtStart, more)})
               : impossible;
}

double holdsLooksHalf(const Evidence& e, std::size_t i)
{
    const auto old = wornLoading(e, i);
    if (!old || recordOf(e, i).elements != 2) {
        return impossible;
    }
    const auto half = filtration::halfChangedLoading(old->value);
    return half ? alike(ofOldAgainst(e, i, *half / old->value, old->sd / old->value), 1.0) : impossible;
}

double holdsLooksShut(const Evidence& e, std::size_t i)
{
    const int elements = recordOf(e, i).elements;
    return elements > 1 ? alike(e.stages[i].fresh, static_cast<double>(elements) / (elements - 1)) : impossible;
}

double holdsOthersAsClean(const Evidence& e, std::size_t place)
{
    return leastOverStages(e, [&](std::size_t i) {
        return i == place || !e.stages[i].fresh ? certain : within(e.stages[i].fresh, 0.6, 1.35);
    });
}

double holdsOverLimitIfCold(const Evidence& e, std::size_t i)
{
    const auto& limit = recordOf(e, i).changeLimit;
    if (!limit || !e.now.drops[i] || !e.now.viscosity || e.coldest == nullptr || e.coldest == &e.now
        || reachesPart(e, i, limit, 100)) {
        return impossible;
    }
    const Uncertain thicker = expectedFactor(*e.coldest, e.now);
    const Measured& drop = *e.now.drops[i];
    const double share = drop.value / limit->value() * thicker.value;
    const double ofDials = std::hypot(drop.reading / limit->value(), drop.standing / limit->value()) * thicker.value;
    return Uncertain{share, std::hypot(ofDials, share * thicker.sd / thicker.value)}.above(1.0);
}

double holdsOilCooled(const Evidence& e, std::size_t)
{
    constexpr double degrees = 3.0;
    const bool isKnown = e.base != nullptr && e.base->oil && e.now.oil;
    return plainly(isKnown && (*e.base->oil - *e.now.oil).in(units::kelvins) >= degrees);
}

} // namespace

// clang-format off
const Clue fellSuddenly = {"fell-suddenly", [](const E& e, Place i) { return std::min(below(e.stages[i].sinceLast, 0.7), moreThanRounding(e, e.stages[i].sinceLast, 2, 1.6)); }};
const Clue fellAlone = {"", [](const E& e, Place i) { return below(e.stages[i].aloneSinceLast, 0.9); }};
const Clue belowBase = {"", [](const E& e, Place i) { return unlessUnknown(e.stages[i].sinceFirst, 1.1, -1.0); }};
const Clue driftedDown = {"drifted-down", [](const E& e, Place i) { return std::min(below(e.stages[i].sinceFirst, 0.78), moreThanRounding(e, e.stages[i].sinceFirst, 2, 0.6)); }};
const Clue driftedAlone = {"", [](const E& e, Place i) { return below(e.stages[i].aloneSinceBase, 0.85); }};
const Clue headNormal = {"head-kept-since-base", [](const E& e, Place) { return above(e.headSinceBase, 0.88); }};
const Clue loadedByClean = {"loaded", [](const E& e, Place i) { return loadedAbove(e, i, 1.5); }};
const Clue loadedByBase = {"loaded", [](const E& e, Place i) {
    const bool isSoAtAll = above(e.now.loading[i], 1.5) >= even; // a base that was read too low is no proof
    const auto& sinceBase = e.stages[i].sinceBase;
    return isSoAtAll && sinceBase ? sinceBase->byReadingAlone().above(1.5) : impossible;
}};
const Clue atSetting = {"at-setting", holdsAtSetting};
const Clue limitOverSetting = {"limit-over-setting", [](const E& e, Place i) {
    const StageRecord& stage = recordOf(e, i);
    return plainly(stage.changeLimit && stage.bypass && stage.changeLimit->value() > stage.bypass->value());
}};
const Clue isWater = {"", [](const E& e, Place i) { return plainly(recordOf(e, i).kind == "water"); }};
const Clue swellsFast = {"swells-fast", holdsSwellsFast};
const Clue notForCold = {"oil-not-colder", [](const E& e, Place) { return e.base ? e.oilSinceBase.below(1.1) : impossible; }};
const Clue toldHalf = {"told-half", [](const E& e, Place i) {
    const auto& renewal = e.stages[i].renewal;
    return plainly(renewal && renewal->elements < recordOf(e, i).elements);
}};
const Clue moreThanNew = {"more-than-new", holdsMoreThanNew};
const Clue looksHalf = {"looks-half", holdsLooksHalf};
const Clue looksShut = {"looks-shut", holdsLooksShut};
const Clue highFromFirst = {"high-from-first", [](const E& e, Place i) { 
    return std::min(above(e.stages[i].fresh, 1.45), above(e.stages[i].freshAtStart, 1.45));
}};
const Clue lowFromFirst = {"low-from-first", [](const E& e, Place i) { return below(e.stages[i].fresh, 0.65); }};
const Clue stillHigh = {"", [](const E& e, Place i) { return above(e.now.loading[i], 1.45); }};
const Clue isFresh = {"", [](const E& e, Place i) { return e.stages[i].isFresh ? certain : notYet; }};
const Clue stillLow = {"", [](const E& e, Place i) { return below(e.now.loading[i], 0.5); }};
const Clue othersAsClean = {"", holdsOthersAsClean};
const Clue headAsHose = {"", [](const E& e, Place) {
    return e.now.headAgainstHose ? above(e.now.headAgainstHose, 0.7) : certain;
}};
const Clue atLimit = {"at-limit", [](const E& e, Place i) { return plainly(reachesPart(e, i, recordOf(e, i).changeLimit, 100)); }};
const Clue nearLimit = {"near-limit", [](const E& e, Place i) { return plainly(reachesPart(e, i, recordOf(e, i).changeLimit, 80)); }};
const Clue overLimitIfCold = {"over-limit-if-cold", holdsOverLimitIfCold};
const Clue isLast = {"", [](const E& e, Place i) { return plainly(i > 0 && i + 1 == e.stageCount()); }};
const Clue lastRises = {"grown", [](const E& e, Place i) { return above(e.stages[i].sinceBase, 1.3); }};
const Clue lastRisesFar = {"grown", [](const E& e, Place i) { return std::min(above(e.stages[i].sinceBase, 1.5), moreThanRounding(e, e.stages[i].sinceBase, 2)); }};
const Clue firstStays = {"first-stays", [](const E& e, Place) { return within(e.stages.front().sinceBase, 0.8, 1.2); }};
const Clue oilCooled = {"oil-thicker", holdsOilCooled};
const Clue belowZero = {"below-zero", [](const E& e, Place i) { return e.now.drops[i] ? whole(*e.now.drops[i]).below(0.0) : impossible; }};
// clang-format on

} // namespace loopside::run::clue
