// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Dirt by size. Masses are kept, counts follow from them.
//
// Source: spheres of 2.65 g/cm³, the density of silica test dust (from memory); the mean sizes are our choice. Wear
//   metal is three times as heavy: the counts are right in kind, not in number.

#pragma once

#include "filtration/clean_up.h"

#include <array>
#include <cstddef>

namespace loopside::practice {

inline constexpr std::size_t sizeClasses = 5;

/// One of something for each size class: silt below 4 µm(c), 4 to 6, 6 to 14, 14 to 30, over 30.
template<class T>
using PerClass = std::array<T, sizeClasses>;

inline constexpr PerClass<double> meanSizesUm = {2.5, 4.9, 9.0, 20.0, 40.0};

/// Counts at and above 4, 6, 14 and 30 µm(c), and the silt that no code shows.
struct DirtCounted
{
    double from4PerMl = 0.0;
    double from6PerMl = 0.0;
    double from14PerMl = 0.0;
    double from30PerMl = 0.0;
    double siltMgPerL = 0.0;
};

/// The concentrations of such dirt. The counts must not rise with size.
[[nodiscard]] PerClass<double> concentrationsMgPerL(const DirtCounted& dirt);

/// What a counter would find at and above 4, 6 and 14 µm(c).
[[nodiscard]] filtration::PerSize<double> countsPerMl(const PerClass<double>& mgPerL);

[[nodiscard]] double total(const PerClass<double>& dirt);

} // namespace loopside::practice
