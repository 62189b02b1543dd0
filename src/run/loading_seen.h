// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How loaded a stage is, in the light of its first minutes and of how long oil has gone through it.
//
// Loading is what a stage costs now ÷ what is told of it clean, both in the oil of now. What errs all through the run,
// the dials and the thermometer, erred in the first minutes too, when the elements were as they had been told: so those
// minutes take part of it off.
//
// Source: Bayes' theorem with normal errors. What is expected before anything is read is our choice: elements that are
// as
//   told, or used and nobody told (oil_fit.h); a loading that grew by an exponential amount, so that less is likelier
//   than more.

#pragma once

#include "run/witness.h"

#include <vector>

namespace loopside::run {

/// The first minutes of the elements of one stage.
struct FirstMinutes
{
    const Sight& first;
    int sets = 1;          ///< How many, 1 or more.
    double loading = 1.0;  ///< Their mean ÷ `asFitted`.
    double asFitted = 1.0; ///< Loading that was told of the elements, 1 or more.
    RunTime began{0};      ///< When oil began to go through them.
};

/// Loadings of one stage in the sets up to now, and what they say together of now: the line through them.
class LoadingLine
{
public:
    /// `loading` as read, `at` not before those that were added.
    void add(RunTime at, double loading);

    /// Where the line stands at the last of them; of one or two sets that is what was read.
    [[nodiscard]] double atLast() const;

    /// How much of the variance of one set is left in that, up to 1.
    [[nodiscard]] double varianceLeft() const;

private:
    std::vector<double> hours_;
    std::vector<double> loadings_;
};

/// A loading that was read, with what can be expected of it.
struct LoadingSeen
{
    double loading = 1.0;    ///< As read, less what the first minutes say that dials and thermometer are off by.
    double ofDials = 0.0;    ///< Standard uncertainty from reading and from what is left of the standing errors.
    double ofOil = 0.0;      ///< The same of the thermometer, relative.
    double covariance = 0.0; ///< Of the two.
    double asFitted = 1.0;
    double hours = 0.0; ///< Since the oil began to go through.

    /// The chance, 0 to 1, that the stage is loaded more than `bound` times.
    [[nodiscard]] double chanceAbove(double bound) const;
};

/// Of stage `i` of `now`, which must have a loading, the last of `line`. Where the first minutes plainly contradict
/// what was told of the elements, they may have been worn, and say nothing.
[[nodiscard]] LoadingSeen loadingSeen(const Sight& now, std::size_t i, const LoadingLine& line,
                                      const FirstMinutes& minutes);

} // namespace loopside::run
