// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// How the drop across an element grows with the dirt that it has caught: the blocking laws at constant flow, with a
// knee.
//
//   dL/dm = k·Lⁿ          L: loading, drop ÷ clean drop at the same flow and viscosity; m: grams caught
//   L^(1−n) = 1 + (1−n)·k·m      and ln L = k·m for n = 1
//
// n = 0 cake, 1 intermediate, 3/2 standard (gradual), 2 complete blocking. Behind the knee another n and a steeper
// slope hold: depth fills first, then the surface closes.
// Source: Hermia's blocking laws in the form for constant rate (Hlavacek and Bouchet 1993; abstract and a handbook
//   read). The knee is ours, after open bench data of suspended particles in liquid, whose curves creep for three
//   quarters of their life and then turn up; pleated elements are said to do the same (common practice).
// Validity: constant flow and viscosity within a step; L from 1. Above n = 1 the law goes to infinity at a finite m;
//   there, and beyond, it is held at `loadingMax`.

#pragma once

#include "base/result.h"

#include <optional>

namespace loopside::practice {

inline constexpr double loadingMax = 1e4;

struct BlockingLaw
{
    struct Knee
    {
        double grams;    ///< Caught up to the knee, above 0.
        double exponent; ///< n behind it.
        double steeper;  ///< Slope just behind ÷ slope just before, above 0.
    };

    double exponent; ///< n, from 0 to 3.
    double perGram;  ///< k: slope of the clean element, above 0.
    std::optional<Knee> knee = {};

    /// The law through (0, 1) and (`grams`, `loading`). OutOfRange, naming it, if the grams are not above 0, the
    /// loading not above 1, or n is not from 0 to 3.
    [[nodiscard]] static Result<BlockingLaw> through(double exponent, double grams, double loading);

    /// A point of a curve.
    struct Point
    {
        double grams;
        double loading;
    };

    /// The law with its knee at `knee` that goes through `end`, each piece with its own n. OutOfRange as of `through`,
    /// and if the end does not lie beyond and above the knee.
    [[nodiscard]] static Result<BlockingLaw> throughKnee(double exponent, Point knee, double exponentBehind, Point end);
};

/// Whether such a law can be; OutOfRange, naming what is wrong, otherwise.
[[nodiscard]] Done checkLaw(const BlockingLaw& law);

/// The loading after `grams`, from 1 to `loadingMax`. `grams` from 0.
[[nodiscard]] double loadingAt(const BlockingLaw& law, double grams);

/// The grams that bring a clean element to `loading`, which is from 1 to `loadingMax`.
[[nodiscard]] double gramsAt(const BlockingLaw& law, double loading);

} // namespace loopside::practice
