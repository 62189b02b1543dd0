// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What the clues have in common; for clue_*.cpp alone.

#pragma once

#include "run/clue.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace loopside::run::clue {

using E = Evidence;
using Place = std::size_t;

inline constexpr double certain = 10.0; ///< What is plainly so.

[[nodiscard]] inline double plainly(bool isSo)
{
    return isSo ? certain : impossible;
}

/// `Number` is an Uncertain or a Ratio.
template<class Number>
[[nodiscard]] double above(const std::optional<Number>& number, double bound)
{
    return number ? number->above(bound) : impossible;
}

template<class Number>
[[nodiscard]] double below(const std::optional<Number>& number, double bound)
{
    return number ? number->below(bound) : impossible;
}

/// A second witness, where there is one: beyond `bound`, upward or downward.
template<class Number>
[[nodiscard]] double unlessUnknown(const std::optional<Number>& number, double bound, double direction)
{
    return number ? number->above(bound) * direction : certain;
}

template<class Number>
[[nodiscard]] double within(const std::optional<Number>& number, double low, double high)
{
    return std::min(above(number, low), below(number, high));
}

/// A pressure with both its errors, in pascals.
[[nodiscard]] inline Uncertain whole(const Measured& measured)
{
    using units::pascal;
    return {measured.value.in(pascal), std::hypot(measured.reading.in(pascal), measured.standing.in(pascal))};
}

/// Whether a loss between `dials` gauges changed by more than the rounding of their divisions can make it, which stays
/// the same from set to set while the needles stand: half a division of each, then and now, and a little.
[[nodiscard]] inline double moreThanRounding(const Evidence& e, const std::optional<Ratio>& change, int dials,
                                             double margin = 1.1)
{
    if (!change) {
        return impossible;
    }
    const double division = divisionOf(e.run.setup.cart.gauges.front()).in(units::pascal);
    return plainly(std::abs(change->dividend - change->divisor) > margin * dials * division);
}

[[nodiscard]] inline const StageRecord& recordOf(const Evidence& e, std::size_t i)
{
    return e.run.setup.stages[i];
}

[[nodiscard]] inline bool reachesPart(const Evidence& e, std::size_t i, const std::optional<TypedPressure>& of,
                                      int percent)
{
    const auto& raw = e.now.moment->raw[i];
    return of && raw && reaches(*raw, *of, percent);
}

/// The least, over all stages, of what `look` says of each.
template<class Look>
[[nodiscard]] double leastOverStages(const Evidence& e, Look look)
{
    double least = certain;
    for (std::size_t i = 0; i < e.stageCount(); ++i) {
        least = std::min(least, look(i));
    }
    return least;
}

template<class Look>
[[nodiscard]] double mostOverStages(const Evidence& e, Look look)
{
    return -leastOverStages(e, [&](std::size_t i) { return -look(i); });
}

} // namespace loopside::run::clue
