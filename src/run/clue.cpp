// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/clue.h"

#include "filtration/clean_drop.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using units::pascal;
using units::Pressure;

constexpr double certain = 10.0; ///< What is plainly so.

double plainly(bool isSo)
{
    return isSo ? certain : impossible;
}

double above(const std::optional<Uncertain>& number, double bound)
{
    return number ? number->above(bound) : impossible;
}

double below(const std::optional<Uncertain>& number, double bound)
{
    return number ? number->below(bound) : impossible;
}

/// A second witness, where there is one: beyond `bound`, upward or downward.
double unlessUnknown(const std::optional<Uncertain>& number, double bound, double direction)
{
    return number ? number->above(bound) * direction : certain;
}

double within(const std::optional<Uncertain>& number, double low, double high)
{
    return std::min(above(number, low), below(number, high));
}

/// A pressure with both its errors, in pascals.
Uncertain whole(const Measured& measured)
{
    return {measured.value.in(pascal), std::hypot(measured.reading.in(pascal), measured.standing.in(pascal))};
}

const StageRecord& recordOf(const Evidence& e, std::size_t i)
{
    return e.run.setup.stages[i];
}

bool reachesPart(const Evidence& e, std::size_t i, const std::optional<TypedPressure>& of, int percent)
{
    const auto& raw = e.now.moment->raw[i];
    return of && raw && reaches(*raw, *of, percent);
}

/// The least, over all stages, of what `look` says of each.
template<class Look>
double leastOverStages(const Evidence& e, Look look)
{
    double least = certain;
    for (std::size_t i = 0; i < e.stageCount(); ++i) {
        least = std::min(least, look(i));
    }
    return least;
}

template<class Look>
double mostOverStages(const Evidence& e, Look look)
{
    return -leastOverStages(e, [&](std::size_t i) { return -look(i); });
}

std::optional<Uncertain> filtersAgainstClean(const Evidence& e)
{
    constexpr double cleanSd = 0.15;
    const bool isKnown = e.now.filters && e.now.cleanFilters > Pressure{};
    return isKnown ? std::optional(against(*e.now.filters, e.now.cleanFilters, cleanSd)) : std::nullopt;
}

/// How far the ΔP of stage `i` at `then` was from the ΔP now if only the oil had changed: then × factor, reading
/// errors.
Uncertain broughtToNow(const Evidence& e, const Sight& then, std::size_t i)
{
    const double factor = expectedFactor(e.now, then).value;
    return {then.drops[i]->value.in(pascal)*factor, then.drops[i]->reading.in(pascal)*factor};
}

// ---- the loop as a whole

bool isWarmer(const Evidence& e)
{
    return e.base != nullptr && e.base->oil && e.now.oil && *e.now.oil > *e.base->oil;
}

bool isColder(const Evidence& e)
{
    return e.base != nullptr && e.base->oil && e.now.oil && *e.now.oil < *e.base->oil;
}

/// No pressure left anywhere. A valve in bypass leaves some behind the last stage.
double holdsNothingFlows(const Evidence& e, std::size_t)
{
    const bool isHeadGone = e.headSinceLast ? e.headSinceLast->below(0.4) >= likely
                                            : e.now.head && e.now.head->value < e.now.head->reading * 2.0;
    return isHeadGone ? below(e.totalSinceLast, 0.22) : impossible;
}

/// What the relief valve has to be short of for its spring to have begun to lift, with the error of the gauge in it.
double holdsAtRelief(const Evidence& e, std::size_t)
{
    constexpr double share = 1.0;
    const auto& first = e.now.gauges.front();
    const auto& relief = e.run.setup.cart.relief;
    return first && relief ? whole(*first).above(relief->value().in(pascal)*share) : impossible;
}

/// Whether every stage and the head lie beyond `bound`, upward or downward, each rather than not and their weighted
/// mean for sure. What is wrong with the oil is wrong for all of them.
double allBeyond(const Evidence& e, double bound, double direction)
{
    constexpr double common = 0.15; // what they share: grade and thermometer
    double weights = 0.0;
    double sum = 0.0;
    const auto take = [&](const std::optional<Uncertain>& ratio) {
        if (!ratio || ratio->above(bound) * direction < even) {
            return false;
        }
        const double weight = 1.0 / (ratio->sd * ratio->sd);
        weights += weight;
        sum += weight * ratio->value;
        return true;
    };
    const bool areAll = take(e.now.headAgainstHose) && std::all_of(e.now.loading.begin(), e.now.loading.end(), take);
    if (!areAll) {
        return impossible;
    }
    const double mean = sum / weights;
    return Uncertain{mean, std::hypot(1.0 / std::sqrt(weights), common * mean)}.above(bound) * direction;
}

double holdsNeedlesSwing(const Evidence& e, std::size_t)
{
    constexpr double share = 0.05;
    constexpr int atLeast = 2;
    int swinging = 0;
    for (const auto& gauge : e.now.moment->reading->gauges) {
        if (gauge && gauge->high) {
            const double half = (*gauge->high - gauge->low).toDouble() / 2.0;
            swinging += half > share * std::abs(gauge->low.toDouble() + half) ? 1 : 0;
        }
    }
    const int read = static_cast<int>(
        std::count_if(e.now.gauges.begin(), e.now.gauges.end(), [](const auto& gauge) { return gauge.has_value(); }));
    return plainly(swinging >= std::min(atLeast, read) && swinging > 0);
}

/// How far each of the last sets lies from the line between its neighbours, in ln loading, against what the dials
/// allow.
double holdsCorrectedScatters(const Evidence& e, std::size_t)
{
    constexpr std::size_t sets = 7;
    constexpr double scatter = 0.15;
    constexpr double beyondDials = 2.5;
    if (e.sights.size() < sets) {
        return impossible;
    }
    return mostOverStages(e, [&](std::size_t i) {
        double squares = 0.0;
        double ofDials = 0.0;
        for (std::size_t k = e.sights.size() - sets + 1; k + 1 < e.sights.size(); ++k) {
            const Sight& a = e.sights[k - 1];
            const Sight& b = e.sights[k];
            const Sight& c = e.sights[k + 1];
            const auto isLow = [&](const Sight& s) {
                const bool isOfOthers = s.moment->elementsSince[i] != e.now.moment->elementsSince[i];
                return isOfOthers || !s.loading[i] || s.loading[i]->value <= 0.0;
            };
            if (isLow(a) || isLow(b) || isLow(c) || c.at == a.at) {
                return impossible;
            }
            const double w = static_cast<double>((b.at - a.at).count()) / static_cast<double>((c.at - a.at).count());
            const double line = (1.0 - w) * std::log(a.loading[i]->value) + w * std::log(c.loading[i]->value);
            const double size = 1.0 + (1.0 - w) * (1.0 - w) + w * w;
            const double off = std::log(b.loading[i]->value) - line;
            const double dial = b.drops[i]->reading / b.drops[i]->value;
            squares += off * off / size;
            ofDials += dial * dial;
        }
        const double n = static_cast<double>(sets - 2);
        return plainly(squares / n > scatter * scatter && squares > beyondDials * beyondDials * ofDials);
    });
}

// ---- one stage

/// Whether the set at `index` shows stage `i` with the elements of now, in oil that drives it alike.
bool isOfThisOil(const Evidence& e, std::size_t index, std::size_t i)
{
    constexpr double sameOil = 0.07;
    const Sight& sight = e.sights[index];
    return sight.drops[i] && sight.moment->elementsSince[i] == e.now.moment->elementsSince[i]
        && std::abs(std::log(expectedFactor(e.now, sight).value)) < sameOil;
}

/// The first of the sets up to now between which the ΔP of stage `i` stands.
std::size_t flatSince(const Evidence& e, std::size_t i)
{
    constexpr double flat = 2.5; // standard uncertainties of one ΔP
    const double sd = e.now.drops[i]->reading.in(pascal);
    double low = e.now.drops[i]->value.in(pascal);
    double high = low;
    std::size_t first = e.sights.size() - 1;
    while (first > 0 && isOfThisOil(e, first - 1, i)) {
        const double drop = broughtToNow(e, e.sights[first - 1], i).value;
        low = std::min(low, drop);
        high = std::max(high, drop);
        if (high - low > flat * sd) {
            break;
        }
        --first;
    }
    return first;
}

/// Rises on a run of sets and then stands, though the oil did not thin: what a spring does, not dirt. Dirt that runs
/// out flattens too, but no faster than the tank is turned over.
double holdsFlatAfterRise(const Evidence& e, std::size_t i)
{
    constexpr std::size_t flatSets = 4;
    constexpr std::size_t riseSets = 2;
    constexpr double rise = 6.0; // standard uncertainties of one ΔP
    if (!e.now.drops[i] || !isOfThisOil(e, e.sights.size() - 1, i)) {
        return impossible;
    }
    const std::size_t first = flatSince(e, i);
    if (first + flatSets > e.sights.size() || first < riseSets || !isOfThisOil(e, first - 1, i)
        || !isOfThisOil(e, first - riseSets, i)) {
        return impossible;
    }
    const Sight& from = e.sights[first - riseSets];
    const Sight& top = e.sights[first];
    const Uncertain begun = broughtToNow(e, from, i);
    const Uncertain topped = broughtToNow(e, top, i);
    const double sd = e.now.drops[i]->reading.in(pascal);
    const double risen = topped.value - begun.value;
    if (risen < rise * sd) {
        return impossible;
    }
    const auto turnovers = [&](RunTime time) {
        return (e.now.moment->flow * (static_cast<double>(time.count()) / 1000.0 * units::second))
            / e.run.setup.tank.volume.value();
    };
    const double left = std::exp(-turnovers(top.at - from.at)); // of the dirt, at the fastest
    const double further = risen * left / (1.0 - left) * (1.0 - std::exp(-turnovers(e.now.at - top.at)));
    const double sdOfFurther = std::hypot(begun.sd, topped.sd) * further / risen;
    const double gone = e.now.drops[i]->value.in(pascal)-topped.value;
    return Uncertain{further - gone, std::hypot(sd, topped.sd, sdOfFurther)}.above(0.0);
}

/// At its setting, in the digits as typed; and then as long as it stays within a few hundredths of it.
double holdsAtSetting(const Evidence& e, std::size_t i)
{
    constexpr double stays = 0.93;
    constexpr double notYet = 1.0; // below every need, above what keeps a finding
    const auto& setting = recordOf(e, i).bypass;
    if (!setting || !e.now.drops[i]) {
        return impossible;
    }
    if (reachesPart(e, i, setting, 100)) {
        return certain;
    }
    const Measured& drop = *e.now.drops[i];
    return std::min(notYet, Uncertain{drop.value / setting->value(), drop.reading / setting->value()}.above(stays));
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

/// The chance that `fresh` is a multiple `as`, told as how far it is within two standard uncertainties of it.
double alike(const std::optional<Uncertain>& fresh, double as)
{
    constexpr double near = 2.0;
    return fresh ? near - std::abs(fresh->above(as)) : impossible;
}

/// What stage `i` reads after a changeover ÷ what `share` of its old loading would make it.
std::optional<Uncertain> ofOldAgainst(const Evidence& e, std::size_t i, double share, double sdOfOld)
{
    const auto& ofOld = e.stages[i].ofOld;
    return ofOld ? std::optional(quotient(*ofOld, {share, share * sdOfOld})) : std::nullopt;
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
    return old ? above(ofOldAgainst(e, i, 1.0 / old->value, old->sd / old->value), more) : impossible;
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

// ---- one gauge

Pressure division(const Evidence& e, std::size_t i)
{
    const GaugeRecord& gauge = e.run.setup.cart.gauges[i];
    return gauge.graduation ? Pressure(gauge.graduation->toDouble(), gauge.unit->unit)
                            : Pressure(1.0, gauge.unit->unit);
}

/// How far gauge `i` has gone since `then`, in divisions of that dial; nothing where it was not read.
std::optional<double> gone(const Evidence& e, const Sight& then, std::size_t i)
{
    const auto& now = e.now.gauges[i];
    const auto& before = then.gauges[i];
    return now && before ? std::optional((now->value - before->value) / division(e, i)) : std::nullopt;
}

/// Stands while it has to move: an inner needle when both its neighbours go one way, the first when the next one goes
/// far, the last when the oil alone would move it.
double holdsNeedleStands(const Evidence& e, std::size_t place)
{
    constexpr int sets = 3;
    constexpr int setsAtEnd = 6;
    constexpr double far = 3.0;
    const Standstill& needle = e.needles[place];
    const std::size_t last = e.needles.size() - 1;
    const bool isAtEnd = place == 0 || place == last;
    if (needle.sets < (isAtEnd ? setsAtEnd : sets)) {
        return impossible;
    }
    if (place == last) {
        const auto& head = needle.since->head;
        const Uncertain factor = expectedFactor(e.now, *needle.since);
        const double should = head ? head->value / division(e, place) : 0.0;
        return plainly(std::abs(should * (factor.value - 1.0)) > far && std::abs(factor.above(1.0)) > veryLikely);
    }
    const auto next = gone(e, *needle.since, place + 1);
    const auto before = place > 0 ? gone(e, *needle.since, place - 1) : next;
    return plainly(next && before && std::min(std::abs(*next), std::abs(*before)) > far && *next * *before > 0.0);
}

/// How far the needle of a pump-off set is from static head, where that is beyond the reading error.
std::optional<Pressure> zeroError(const Evidence& e, std::size_t i)
{
    const auto& head = e.run.setup.cart.staticHead;
    if (e.pumpOff == nullptr || !head) {
        return std::nullopt;
    }
    const auto shown = shownBy(*e.pumpOff->reading, e.run.setup.cart, i);
    const auto error = filtration::readingUncertainty(e.run.setup.cart.gauges[i].gauge(), Pressure{});
    if (!shown || !error) {
        return std::nullopt;
    }
    const Pressure off = shown->value() - head->value();
    return std::abs(off.in(pascal)) > 2.0 * error->in(pascal) ? std::optional(off) : std::nullopt;
}

double holdsOffZero(const Evidence& e, std::size_t place)
{
    return plainly(zeroError(e, place).has_value());
}

double holdsFarOffZero(const Evidence& e, std::size_t place)
{
    const auto off = zeroError(e, place);
    if (!off) {
        return impossible;
    }
    const auto taken = offsetsFrom(*e.pumpOff->reading, e.run.setup.cart);
    return plainly(!taken[place]); // too far for a zero error
}

} // namespace

namespace clue {

using E = Evidence;
using Place = std::size_t;

// clang-format off
const Clue oilThinner = {"oil-thinner", [](const E& e, Place) { return isWarmer(e) ? e.oilSinceBase.below(0.87) : impossible; }};
const Clue oilThicker = {"oil-thicker", [](const E& e, Place) { return isColder(e) ? e.oilSinceBase.above(1.15) : impossible; }};
const Clue pressuresFell = {"", [](const E& e, Place) {
    const bool isKnown = e.base && e.base->total && e.now.total && e.base->total->value > Pressure{};
    return isKnown ? moved(*e.now.total, *e.base->total, {1.0, 0.0}).below(0.95) : impossible;
}};
const Clue pressuresRose = {"", [](const E& e, Place) {
    const bool isKnown = e.base && e.base->total && e.now.total && e.base->total->value > Pressure{};
    return isKnown ? moved(*e.now.total, *e.base->total, {1.0, 0.0}).above(1.05) : impossible;
}};
const Clue nothingFlows = {"nothing-flows", holdsNothingFlows};
const Clue nothingFlowsAtFirst = {"nothing-flows", [](const E& e, Place) {
    const bool isKnown = !e.last && e.now.total && e.now.cleanFilters > Pressure{};
    return isKnown ? against(*e.now.total, e.now.cleanFilters, 0.15).below(0.15) : impossible;
}};
const Clue filtersCostNothing = {"filters-cost-nothing", [](const E& e, Place) { return below(e.filtersSinceLast, 0.25); }};
const Clue filtersCostNothingAtFirst = {"filters-cost-nothing-at-first", [](const E& e, Place) {
    return e.last ? impossible : below(filtersAgainstClean(e), 0.25);
}};
const Clue filtersKept = {"filters-kept", [](const E& e, Place) { return above(e.filtersSinceLast, 0.8); }};
const Clue filtersFell = {"filters-fell", [](const E& e, Place) { return below(e.filtersSinceLast, 0.85); }};
const Clue headKept = {"head-kept", [](const E& e, Place) { return within(e.headSinceLast, 0.5, 2.0); }};
const Clue headNotHigh = {"", [](const E& e, Place) { return below(e.headSinceLast, 1.2); }};
const Clue headMoves = {"head-moves", [](const E& e, Place) { return e.now.head ? whole(*e.now.head).above(0.0) : impossible; }};
const Clue headRose = {"head-rose", [](const E& e, Place) { return std::min(above(e.headSinceLast, 1.3), unlessUnknown(e.headSinceOneBefore, 1.2, 1.0)); }};
const Clue headRoseAlone = {"", [](const E& e, Place) { return above(e.headAloneSinceLast, 1.25); }};
const Clue headFarUp = {"head-rose", [](const E& e, Place) { return above(e.headSinceLast, 3.0); }};
const Clue headGone = {"head-gone", [](const E& e, Place) { 
    const bool isStrong = e.last && !e.last->isWeak(); // a few divisions are gone too easily
    return isStrong ? std::min(below(e.headSinceLast, 0.5), unlessUnknown(e.headSinceOneBefore, 0.6, -1.0)) : impossible;
}};
const Clue headLow = {"head-low", [](const E& e, Place) { return below(e.headSinceBase, 0.95); }};
const Clue aStageFellToo = {"", [](const E& e, Place) {
    return mostOverStages(e, [&](Place i) { return below(e.stages[i].sinceBase, 0.95); });
}};
const Clue flowLost = {"flow-lost", [](const E& e, Place) { return below(flowLeft(e), 0.9); }};
const Clue pressureLow = {"flow-lost", [](const E& e, Place) { return below(flowLeft(e), 0.97); }};
const Clue atRelief = {"at-relief", holdsAtRelief};
const Clue allThick = {"all-thick", [](const E& e, Place) { return allBeyond(e, 1.35, 1.0); }};
const Clue allThin = {"all-thin", [](const E& e, Place) { return allBeyond(e, 0.72, -1.0); }};
const Clue allStepUp = {"all-step-up", [](const E& e, Place) {
    return e.stageCount() < 2 ? impossible : leastOverStages(e, [&](Place i) { return above(e.stages[i].sinceLast, 1.2); });
}};
const Clue noneLoaded = {"none-loaded", [](const E& e, Place) {
    return leastOverStages(e, [&](Place i) { return below(e.now.loading[i], 1.5); });
}};
const Clue oneNearLimit = {"", [](const E& e, Place) {
    return mostOverStages(e, [&](Place i) { return plainly(reachesPart(e, i, recordOf(e, i).changeLimit, 80)); });
}};
const Clue needlesSwing = {"needles-swing", holdsNeedlesSwing};
const Clue correctedScatters = {"corrected-scatters", holdsCorrectedScatters};
const Clue foam = {"foam", [](const E& e, Place) { return plainly(e.signs.foam); }};
const Clue whine = {"whine", [](const E& e, Place) { return plainly(e.signs.whine); }};
const Clue clicking = {"clicking", [](const E& e, Place) { return plainly(e.signs.clicking); }};

const Clue fellSuddenly = {"fell-suddenly", [](const E& e, Place i) { return std::min(below(e.stages[i].sinceLast, 0.7), unlessUnknown(e.stages[i].sinceOneBefore, 0.8, -1.0)); }};
const Clue fellAlone = {"", [](const E& e, Place i) { return below(e.stages[i].aloneSinceLast, 0.75); }};
const Clue driftedDown = {"drifted-down", [](const E& e, Place i) { return below(e.stages[i].sinceBase, 0.78); }};
const Clue driftedAlone = {"", [](const E& e, Place i) { return below(e.stages[i].aloneSinceBase, 0.85); }};
const Clue headNormal = {"head-kept-since-base", [](const E& e, Place) { return above(e.headSinceBase, 0.88); }};
const Clue loadedByClean = {"loaded", [](const E& e, Place i) { return above(e.now.loading[i], 1.5); }};
const Clue loadedByBase = {"loaded", [](const E& e, Place i) {
    const bool isSoAtAll = above(e.now.loading[i], 1.5) >= even; // a base that was read too low is no proof
    return isSoAtAll ? above(e.stages[i].sinceBase, 1.5) : impossible;
}};
const Clue atSetting = {"at-setting", holdsAtSetting};
const Clue flatAfterRise = {"flat-after-rise", holdsFlatAfterRise};
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
const Clue highFromFirst = {"high-from-first", [](const E& e, Place i) { return above(e.stages[i].fresh, 1.45); }};
const Clue lowFromFirst = {"low-from-first", [](const E& e, Place i) { return below(e.stages[i].fresh, 0.65); }};
const Clue othersAsClean = {"", holdsOthersAsClean};
const Clue headAsHose = {"", [](const E& e, Place) {
    return e.now.headAgainstHose ? above(e.now.headAgainstHose, 0.7) : certain;
}};
const Clue atLimit = {"at-limit", [](const E& e, Place i) { return plainly(reachesPart(e, i, recordOf(e, i).changeLimit, 100)); }};
const Clue nearLimit = {"near-limit", [](const E& e, Place i) { return plainly(reachesPart(e, i, recordOf(e, i).changeLimit, 80)); }};
const Clue overLimitIfCold = {"over-limit-if-cold", holdsOverLimitIfCold};
const Clue isLast = {"", [](const E& e, Place i) { return plainly(i > 0 && i + 1 == e.stageCount()); }};
const Clue lastRises = {"grown", [](const E& e, Place i) { return above(e.stages[i].sinceBase, 1.3); }};
const Clue lastRisesFar = {"grown", [](const E& e, Place i) { return above(e.stages[i].sinceBase, 1.5); }};
const Clue firstStays = {"first-stays", [](const E& e, Place) { return within(e.stages.front().sinceBase, 0.8, 1.2); }};
const Clue oilCooled = {"oil-thicker", holdsOilCooled};
const Clue belowZero = {"below-zero", [](const E& e, Place i) { return e.now.drops[i] ? whole(*e.now.drops[i]).below(0.0) : impossible; }};

const Clue needleStands = {"needle-stands", holdsNeedleStands};
const Clue offZero = {"off-zero", holdsOffZero};
const Clue farOffZero = {"off-zero", holdsFarOffZero};
// clang-format on

} // namespace clue

} // namespace loopside::run
