// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/clue_parts.h"

namespace loopside::run::clue {

using units::pascal;
using units::Pressure;

namespace {

constexpr double leftOfHead = 0.35; ///< Between none and all of it, nearer to none: a valve is moved more often.

std::optional<Uncertain> filtersAgainstClean(const Evidence& e)
{
    constexpr double cleanSd = 0.15;
    const bool isKnown = e.now.filters && e.now.cleanFilters > Pressure{};
    return isKnown ? std::optional(against(*e.now.filters, e.now.cleanFilters, cleanSd)) : std::nullopt;
}

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
    const bool isHeadGone = e.headSinceLast ? e.headSinceLast->below(0.4) >= fairly
                                            : e.now.head && e.now.head->value < e.now.head->reading * 2.0;
    return isHeadGone ? below(e.totalSinceLast, 0.35) : impossible;
}

/// What the relief valve has to be short of for its spring to have begun to lift, with the error of the gauge in it.
double holdsAtRelief(const Evidence& e, std::size_t)
{
    constexpr double share = 1.0;
    const auto& first = e.now.gauges.front();
    const auto& relief = e.run.setup.cart.relief;
    return first && relief ? whole(*first).above(relief->value().in(pascal)*share) : impossible;
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

} // namespace

// clang-format off
const Clue oilThinner = {"oil-thinner", [](const E& e, Place) { return isWarmer(e) ? e.oilSinceBase.below(0.9) : impossible; }};
const Clue oilThicker = {"oil-thicker", [](const E& e, Place) { return isColder(e) ? e.oilSinceBase.above(1.11) : impossible; }};
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
    const bool isKnown = !e.totalSinceLast && e.now.total && e.now.cleanFilters > Pressure{};
    return isKnown ? against(*e.now.total, e.now.cleanFilters, 0.15).below(0.15) : impossible;
}};
const Clue filtersCostNothing = {"filters-cost-nothing", [](const E& e, Place) {
    constexpr double notContrary = 2.3; // a stage that cost little does not have to show it
    const double each = leastOverStages(e, [&](Place i) { return below(e.stages[i].sinceLast, 0.5); });
    return std::min({below(e.filtersSinceLast, 0.5), below(e.filtersSinceLast, 0.25) + veryLikely, each + notContrary});
}};
const Clue filtersCostNothingAtFirst = {"filters-cost-nothing-at-first", [](const E& e, Place) {
    return e.filtersSinceLast ? impossible : below(filtersAgainstClean(e), 0.25);
}};
const Clue filtersKept = {"filters-kept", [](const E& e, Place) { return above(e.filtersSinceLast, 0.8); }};
const Clue filtersFell = {"filters-fell", [](const E& e, Place) { return below(e.filtersSinceLast, 0.85); }};
const Clue filtersLess = {"filters-fell", [](const E& e, Place) { return below(e.filtersSinceLast, 0.7); }};
const Clue headKept = {"head-kept", [](const E& e, Place) { return within(e.headSinceLast, 0.5, 2.0); }};
const Clue headLeft = {"", [](const E& e, Place) { return unlessUnknown(e.headSinceLast, leftOfHead, 1.0); }};
const Clue headNotLeft = {"", [](const E& e, Place) { return unlessUnknown(e.headSinceLast, leftOfHead, -1.0); }};
const Clue headNotHigh = {"", [](const E& e, Place) { return below(e.headSinceLast, 1.2); }};
const Clue headCannotTell = {"", [](const E& e, Place) {
    const bool isTold = e.headSinceLast && e.headSinceLast->above(0.4) >= likely;
    return plainly(e.last && !isTold && !(e.now.head && whole(*e.now.head).above(0.0) >= sure));
}};
const Clue headMoves = {"head-moves", [](const E& e, Place) { return e.now.head ? whole(*e.now.head).above(0.0) : impossible; }};
const Clue headRose = {"head-rose", [](const E& e, Place) { return std::min(above(e.headSinceLast, 1.3), moreThanRounding(e, e.headSinceLast, 1)); }};
const Clue headTells = {"", [](const E& e, Place) { return plainly(!e.now.isWeak()); }};
const Clue headRoseAlone = {"", [](const E& e, Place) { return above(e.headAloneSinceLast, 1.25); }};
const Clue headFarUp = {"head-rose", [](const E& e, Place) { return above(e.headSinceLast, 3.0); }};
const Clue headGone = {"head-gone", [](const E& e, Place) { 
    const bool isStrong = e.last && !e.last->isWeak(); // a few divisions are gone too easily
    return isStrong ? std::min(below(e.headSinceLast, 0.5), moreThanRounding(e, e.headSinceLast, 1)) : impossible;
}};
const Clue headNotRisen = {"", [](const E& e, Place) { return below(e.headSinceBase, 1.0); }};
const Clue headLow = {"head-low", [](const E& e, Place) { return std::min(below(e.headSinceBase, 0.95), moreThanRounding(e, e.headSinceBase, 1, 0.6)); }};
const Clue aStageFellToo = {"", [](const E& e, Place) {
    return mostOverStages(e, [&](Place i) { return std::min(below(e.stages[i].sinceFirst, 0.95), moreThanRounding(e, e.stages[i].sinceFirst, 2, 0.6)); });
}};
const Clue flowLost = {"flow-lost", [](const E& e, Place) { return below(flowLeft(e), 0.9); }};
const Clue pressureLow = {"flow-lost", [](const E& e, Place) { return below(flowLeft(e), 0.97); }};
const Clue atRelief = {"at-relief", holdsAtRelief};
const Clue nearRelief = {"", [](const E& e, Place) {
    constexpr double share = 0.9;
    const auto& first = e.now.gauges.front();
    const auto& relief = e.run.setup.cart.relief;
    return plainly(first && relief && first->value >= relief->value() * share);
}};
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
// clang-format on

} // namespace loopside::run::clue
