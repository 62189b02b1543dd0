// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Whether the oil is thicker or thinner than it was told. Bayes over how many times it is: what the return hose and
// each stage cost against what they ought to. A stage may be loaded without anybody having told, and then says little;
// an element's ΔP is never less than that of a clean one, so that no stage may cost less than the oil would make it.
//
// Source: Bayes' theorem; the chances before anything is read are our choice. Validity: errors that are normal.

#pragma once

#include <vector>

namespace loopside::run {

struct Evidence;

/// Chance, before anything is read, that elements are loaded and nobody told. Our choice.
inline constexpr double usedUntold = 0.03;

/// How well it fits what is read that the oil is so much thicker than told. Not normalised.
struct OilFit
{
    double lnTimes; ///< ln of the viscosity ÷ that told.
    double fit;
};

/// In even steps of `lnTimes`, from much thinner to much thicker; empty where the hose or a stage cannot be judged.
[[nodiscard]] std::vector<OilFit> oilFits(const Evidence& evidence);

/// The chance, 0 to 1, that the oil is more than `bound` times as thick as told; a half where nothing is known.
[[nodiscard]] double chanceThicker(const std::vector<OilFit>& fits, double bound);

} // namespace loopside::run
