// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Oil flows from the higher pressure to the lower: while filtering no gauge shows more than the one before it. Two
// neighbours with hardly any oil pressure between them may scatter about each other, by the reading error (k = 2) or by
// a division each (our choice: common dials are read no better).
//
// Two ways to see that two were typed into each other's boxes. Against the last good set the reading error is enough,
// for the gauges' own errors are in both: the gauges stand the wrong way round, and exchanged they come nearer to the
// last set by more than that comparison errs. Without help from a last set the gauges' own errors count too, unless a
// set with the pump off told their zeros; and an order that stood in the last good set already is not asked again.

#include "run/question_rules.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using units::pascal;
using units::Pressure;
using SeenSet = std::vector<std::optional<Seen>>;

constexpr double rounding = 1e-9; ///< Of doubles: two divisions are not more than two divisions.

/// Two gauges, one behind the other but for some that were not read, of which the second shows more.
struct Inversion
{
    std::size_t before = 0;
    std::size_t after = 0;
    Pressure by;
};

/// By how much two gauges may scatter against each other.
Pressure scatterOf(const Seen& a, const Seen& b)
{
    return std::max(errorOfDifference(a.reading, b.reading), a.division + b.division);
}

/// The gauges that stand the wrong way round beyond their scatter.
std::vector<Inversion> inversionsIn(const SeenSet& seen)
{
    std::vector<Inversion> inversions;
    std::optional<std::size_t> before;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        if (!seen[i]) {
            continue;
        }
        if (before) {
            const Pressure by = seen[i]->value - seen[*before]->value;
            if (by > scatterOf(*seen[*before], *seen[i]) * (1.0 + rounding)) {
                inversions.push_back({*before, i, by});
            }
        }
        before = i;
    }
    return inversions;
}

ReadingLogged exchanged(ReadingLogged reading, std::size_t a, std::size_t b)
{
    std::swap(reading.gauges[a], reading.gauges[b]);
    return reading;
}

/// How far two sets lie apart, over the gauges that both show.
Pressure distance(const SeenSet& a, const SeenSet& b, double change)
{
    Pressure sum;
    for (std::size_t i = 0; i < a.size(); ++i) {
        if (a[i] && b[i]) {
            sum = sum + std::abs((a[i]->value - b[i]->value * change).in(pascal)) * pascal;
        }
    }
    return sum;
}

/// 31 − 24 psi is told as 7 psi, in the unit of the first gauge.
std::string textOfDifference(const ReadingLogged& reading, const CartRecord& cart, std::size_t high, std::size_t low)
{
    const auto more = shownBy(reading, cart, high);
    const auto less = shownBy(reading, cart, low);
    if (more->unit == less->unit) {
        return ExactPressure{more->number - less->number, more->unit}.toText();
    }
    return units::printComputed(more->value() - less->value(), *less->unit);
}

Question question(const SetAsked& set, std::size_t before, std::size_t after)
{
    Question asked{.id = gaugesSwapped, .of = set.moment.fact};
    asked.arguments = {{"gauge", std::to_string(before + 1)},
                       {"other", std::to_string(after + 1)},
                       {"by", textOfDifference(set.reading(), set.cart(), after, before)}};
    const ReadingLogged other = exchanged(set.reading(), before, after);
    if (inversionsIn(seenIn(other, set)).empty()) {
        asked.proposal = Proposal{other.gauges, nullptr};
    } else {
        asked.variant = "unclear";
    }
    return asked;
}

/// What the order of two gauges may be off by, without another set of the run beside it.
Pressure errorOfOrder(const SetAsked& set, const SeenSet& seen, const Inversion& inversion)
{
    const auto square = [](Pressure pressure) { return pressure.in(pascal)*pressure.in(pascal); };
    double sum = 0.0;
    for (const std::size_t i : {inversion.before, inversion.after}) {
        const bool isKnown = set.isZeroKnown[i];
        sum += square(seen[i]->reading) * (isKnown ? 2.0 : 1.0) // the zero was read, too
            + (isKnown ? 0.0 : square(seen[i]->standing));
    }
    return 2.0 * std::sqrt(sum) * pascal;
}

/// Whether the last good set showed the same, or so little less that it is scatter.
bool stoodSoBefore(const SetAsked& set, const SeenSet& seen, const Inversion& inversion)
{
    if (set.good == nullptr) {
        return false;
    }
    const SeenSet before = seenIn(*set.good->reading, set);
    if (!before[inversion.before] || !before[inversion.after]) {
        return false;
    }
    const Pressure then = before[inversion.after]->value - before[inversion.before]->value;
    const Pressure step = scatterOf(*seen[inversion.before], *seen[inversion.after]) * std::sqrt(2.0);
    return inversion.by - std::max(then, Pressure{}) <= step;
}

} // namespace

std::optional<Question> askSwapOfLast(const SetAsked& set)
{
    const SeenSet seen = seenIn(set.reading(), set);
    if (set.good == nullptr || inversionsIn(seen).empty()) {
        return std::nullopt;
    }
    const SeenSet last = seenIn(*set.good->reading, set);
    const double change = changeByOil(*set.good, set.moment, set.run);
    const Pressure typed = distance(seen, last, change);
    std::optional<Question> best;
    Pressure most;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        for (std::size_t j = i + 1; j < seen.size(); ++j) {
            if (!seen[i] || !seen[j] || !last[i] || !last[j]) {
                continue;
            }
            const SeenSet other = seenIn(exchanged(set.reading(), i, j), set);
            const Pressure gain = typed - distance(other, last, change);
            // each of the two is compared with the last set twice
            const Pressure error = errorOfDifference(seen[i]->reading, seen[j]->reading) * 2.0;
            if (gain > std::max(most, error) && inversionsIn(other).empty()) {
                best = question(set, i, j);
                most = gain;
            }
        }
    }
    return best;
}

std::optional<Question> askOrder(const SetAsked& set)
{
    const SeenSet seen = seenIn(set.reading(), set);
    for (const Inversion& inversion : inversionsIn(seen)) {
        if (inversion.by > errorOfOrder(set, seen, inversion) && !stoodSoBefore(set, seen, inversion)) {
            return question(set, inversion.before, inversion.after);
        }
    }
    return std::nullopt;
}

} // namespace loopside::run
