// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The mixed tank of filtration/clean_up.h as it is likely to be for a run, at one size: by what runs before taught of
// its mixing and of what gets in (place_learned.h), else by what was told, a quarter either way, with nothing getting
// in.
//
// What gets in while nobody filters is taken to get in while somebody does: R = r·V, F = R/(Q·k). Its likely value is
// 0 where the counts do not tell that anything gets in; then only the worst tank has a floor.
// Validity: as of tank_learned.h. A machine that runs, or work at the tank, may let in more than the days between runs.

#pragma once

#include "filtration/clean_up.h"
#include "run/catalogue.h"
#include "run/place_learned.h"

#include <cstddef>

namespace loopside::run {

/// What was told of a mixing factor is known to a quarter: common practice, see filtration/clean_up.h.
inline constexpr double mixingUnsure = 0.25;

/// Standard deviations from the middle to the 5 % and the 95 % of a normal distribution.
inline constexpr double ninetyPercent = 1.6448536269514722;

struct TankAhead
{
    filtration::MixedTank best = {}; ///< As well mixed and as tight as 5 % of what is likely.
    filtration::MixedTank likely = {};
    filtration::MixedTank worst = {};
};

/// At place `size` of PerSize. `told` is k where no run taught it, 0 to 1.
[[nodiscard]] TankAhead tankAhead(const PlaceLearned& place, const Setup& setup, std::size_t size, double told);

/// How likely it is that what gets in keeps the count above `targetPerMl` (above 0), 0 to 1: by the ends of the band of
/// what gets in, its logarithm normal. 0 where nothing was learned of it.
[[nodiscard]] double chanceNever(const PlaceLearned& place, const Setup& setup, std::size_t size, double targetPerMl,
                                 double captureTimesMixing);

} // namespace loopside::run
