// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a pressure gauge may be off by. Two errors are kept apart throughout:
//
// - standing: what the gauge's grade permits. Unknown, but the same all through a run on that gauge.
// - reading: the graduation of the dial and the swing of its needle. Fresh at every reading.

#pragma once

#include "base/result.h"
#include "units/quantity.h"

#include <optional>
#include <string>
#include <string_view>

namespace loopside::filtration {

/// An accuracy grade or class: the permitted error in percent of span, in each zone of the scale.
///
/// Source: ASME B40.100 (B40.1 table 1), grades 4A to D: from memory, the pattern 2-1-2 of grade A read in two
///   explainers. EN 837-1:1998 table 11, classes 0.1 to 4: read.
/// Validity: at 20 °C. It includes hysteresis and repeatability, not friction.
struct AccuracyGrade
{
    std::string name;
    double firstQuarterPct;
    double middlePct; ///< The middle half, with both its ends.
    double lastQuarterPct;
};

/// The grade named `4A`, `3A`, `2A`, `1A`, `A`, `B`, `C`, `D`, or the class named `0.1`, `0.25`, `0.6`, `1`, `1.6`,
/// `2.5`, `4`. Upper and lower case are alike, a comma is a point, and the word `grade` or `class` may stand in front.
/// NotFound, with the names in the sentence, otherwise.
[[nodiscard]] Result<AccuracyGrade> accuracyGrade(std::string_view name);

/// What is known of a gauge whose scale begins at 0.
struct Gauge
{
    std::optional<units::Pressure> span;       ///< End of the scale, above 0.
    std::optional<units::Pressure> graduation; ///< Smallest division, above 0.
    std::optional<AccuracyGrade> grade;
};

/// The limit, either way, of the error that the grade permits at `reading`; nothing if grade or span is not known.
/// A reading below 0 counts to the first quarter, one beyond the span to the last.
[[nodiscard]] std::optional<units::Pressure> permissibleError(const Gauge& gauge, units::Pressure reading);

/// Standard uncertainty (k = 1) of the standing error at `reading`: a/√3 for a permissible error of ±a.
/// Nothing if that is not known.
/// Source: JCGM 100, rectangular distribution: limits with no other knowledge.
[[nodiscard]] std::optional<units::Pressure> standingUncertainty(const Gauge& gauge, units::Pressure reading);

/// Standard uncertainty (k = 1) of reading the dial: δ/√12 for a graduation δ and s/√3 for a needle that swings ±s
/// about what was taken, in quadrature. Nothing if the graduation is not known. Source: JCGM 100, rectangular
/// distributions. Validity: the dial is read to its nearest division.
[[nodiscard]] std::optional<units::Pressure> readingUncertainty(const Gauge& gauge, units::Pressure halfSwing);

} // namespace loopside::filtration
