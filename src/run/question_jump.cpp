// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The ΔP of a stage is another one than just before, and nothing was told that explains it. Nothing that is well makes
// a ΔP fall but warmer oil or less flow. Dirt makes it rise: then the gauges before the stage rise with it, and it
// takes its time. The set counts all the same: if the cart did this, the finding is made from this very set.

#include "run/question_rules.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using units::pascal;
using units::Pressure;

constexpr double timesError = 1.35; ///< Of the error (k = 2) of the change, as somebody reads dials. Our choice.
constexpr double shareOfLast = 0.3; ///< And of the last ΔP.

/// Dirt that doubles a ΔP within this time is asked about, what is slower may be dirt. Our choice.
constexpr RunTime doublingTime = std::chrono::minutes(5);

using SeenSet = std::vector<std::optional<Seen>>;

Pressure sizeOf(Pressure pressure)
{
    return std::abs(pressure.in(pascal)) * pascal;
}

/// One stage in two sets.
struct Step
{
    Pressure then;
    Pressure now;
    Pressure error;  ///< Of the change, k = 2.
    Pressure before; ///< By how much the gauge before the stage rose.
    double byOil;    ///< What the oil alone would have made of `then`, ÷ `then`.
};

std::optional<Step> stepOf(const SeenSet& then, const SeenSet& now, std::size_t stage, double byOil)
{
    if (!now[stage] || !now[stage + 1] || !then[stage] || !then[stage + 1]) {
        return std::nullopt;
    }
    const auto drop = [stage](const SeenSet& set) { return set[stage]->value - set[stage + 1]->value; };
    const auto error = [stage](const SeenSet& set) {
        return errorOfDifference(set[stage]->reading, set[stage + 1]->reading) * (readerAdds / 2.0);
    };
    return Step{drop(then), drop(now), errorOfDifference(error(then), error(now)),
                now[stage]->value - then[stage]->value, byOil};
}

/// Whether dirt can have made the rise: the gauge before the stage rose by most of it, and it did not double too fast.
bool mayBeDirt(const Step& step, RunTime gap)
{
    const Pressure rise = step.now - step.then;
    if (rise <= Pressure{} || step.before < rise * 0.5) {
        return false;
    }
    const double doublings = static_cast<double>(gap.count()) / static_cast<double>(doublingTime.count());
    return step.now <= std::max(step.then, step.error) * std::exp2(doublings) + step.error;
}

/// The change ÷ what is allowed of it, by the last ΔP and by what the oil made of that: the lesser of the two.
double timesAllowed(const Step& step)
{
    const auto beside = [&](Pressure reference) {
        return sizeOf(step.now - reference) / std::max(step.error * timesError, sizeOf(reference) * shareOfLast);
    };
    return std::min(beside(step.then), beside(step.then * step.byOil));
}

/// The stage whose ΔP jumped most between two sets, from 0; nothing if none did.
std::optional<std::size_t> stageThatJumped(const SetAsked& set, const Moment& from)
{
    const RunTime gap = set.moment.at - from.at;
    if (!isUndisturbed(from, set.moment) || gap > unwatchedAfter) {
        return std::nullopt;
    }
    const SeenSet then = seenIn(*from.reading, set);
    const SeenSet now = seenIn(set.reading(), set);
    const double byOil = changeByOil(from, set.moment, set.run);
    std::optional<std::size_t> stage;
    double most = 1.0;
    for (std::size_t i = 0; i + 1 < now.size(); ++i) {
        const auto step = stepOf(then, now, i, byOil);
        if (step && timesAllowed(*step) > most && !mayBeDirt(*step, gap)) {
            stage = i;
            most = timesAllowed(*step);
        }
    }
    return stage;
}

} // namespace

std::optional<Question> askJump(const SetAsked& set)
{
    if (set.good == nullptr || !stageThatJumped(set, *set.last)) {
        return std::nullopt; // as the set before: that one was right
    }
    const auto stage = stageThatJumped(set, *set.good);
    if (!stage || !set.moment.raw[*stage] || !set.good->raw[*stage]) {
        return std::nullopt;
    }
    const auto minutes = std::chrono::duration_cast<std::chrono::minutes>(set.moment.at - set.good->at).count();
    Question asked{.id = jumped, .of = set.moment.fact};
    asked.arguments = {{"stage", std::to_string(*stage + 1)},
                       {"was", set.good->raw[*stage]->toText()},
                       {"now", set.moment.raw[*stage]->toText()},
                       {"minutes", std::to_string(minutes)}};
    return asked;
}

} // namespace loopside::run
