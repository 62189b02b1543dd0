// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The ΔP of a stage is another one than just before, and nothing was told that explains it. Dirt makes a ΔP rise, but
// takes its time; nothing that is well makes it fall but warmer oil or less flow. The set counts all the same: if the
// cart did this, the finding is made from this very set.

#include "run/question_rules.h"

#include <algorithm>
#include <cmath>

namespace loopside::run {

namespace {

using units::pascal;
using units::Pressure;

constexpr double timesError = 3.0;  ///< Of the reading error (k = 2) of a ΔP. Common practice.
constexpr double shareOfLast = 0.3; ///< And of the last ΔP.

/// A rise over more than this may be dirt. Our choice: the interval of readings in the first hour.
constexpr RunTime longestRise = std::chrono::minutes(15);

Pressure sizeOf(Pressure pressure)
{
    return std::abs(pressure.in(pascal)) * pascal;
}

/// The stage whose ΔP jumped most between two sets, from 0; nothing if none did.
std::optional<std::size_t> stageThatJumped(const SetAsked& set, const Moment& from)
{
    const RunTime gap = set.moment.at - from.at;
    if (!isUndisturbed(from, set.moment) || gap > unwatchedAfter) {
        return std::nullopt;
    }
    const auto now = seenIn(set.reading(), set);
    const auto then = seenIn(*from.reading, set);
    const double change = changeByOil(from, set.moment, set.run);
    std::optional<std::size_t> stage;
    double most = 1.0;
    for (std::size_t i = 0; i + 1 < now.size(); ++i) {
        if (!now[i] || !now[i + 1] || !then[i] || !then[i + 1]) {
            continue;
        }
        const Pressure drop = now[i]->value - now[i + 1]->value;
        const Pressure last = then[i]->value - then[i + 1]->value;
        const Pressure error = std::max(errorOfDifference(now[i]->reading, now[i + 1]->reading),
                                        errorOfDifference(then[i]->reading, then[i + 1]->reading));
        const auto timesAllowed = [&](Pressure reference) {
            return sizeOf(drop - reference) / std::max(error * timesError, sizeOf(reference) * shareOfLast);
        };
        const double times = std::min(timesAllowed(last), timesAllowed(last * change));
        const bool mayBeDirt = drop > last && gap > longestRise;
        if (times > most && !mayBeDirt) {
            stage = i;
            most = times;
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
