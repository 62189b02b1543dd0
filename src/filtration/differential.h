// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The differential pressure of each stage, from the gauges before, between and behind the stages.
//
// Source: JCGM 100, sum of independent parts: u² = u₁² + u₂² for the difference of two gauges; expanded U = 2u.
// Validity: different gauges err independently. Neighbouring stages share the gauge between them, so that what it errs
//   by is taken from one stage and given to the other: see `correlation`.

#pragma once

#include "units/quantity.h"

#include <optional>
#include <span>
#include <vector>

namespace loopside::filtration {

/// What one gauge said, with its standard uncertainties (k = 1) where they are known.
struct GaugeValue
{
    units::Pressure value;
    std::optional<units::Pressure> standing;
    std::optional<units::Pressure> reading;
};

/// The pressure before a stage less that behind it, with expanded uncertainties (k = 2, about 95 %) where both gauges'
/// are known. Negative where the gauges say so: it is recorded as seen.
struct Difference
{
    units::Pressure value;
    std::optional<units::Pressure> standing;
    std::optional<units::Pressure> reading;
};

/// One difference for each pair of neighbours, so one less than there are `gauges`; nothing where either was not read.
[[nodiscard]] std::vector<std::optional<Difference>> differences(std::span<const std::optional<GaugeValue>> gauges);

/// Correlation (−1 to 0) of the standing errors of two neighbouring stages, whose gauges are `before`, `shared` and
/// `behind`: −u²/(U₁U₂) with u the standing uncertainty of the shared gauge and U₁, U₂ (k = 1) those of the two
/// differences. Nothing if a gauge was not read, a standing uncertainty is not known, or a difference has none.
[[nodiscard]] std::optional<double> correlation(const std::optional<GaugeValue>& before,
                                                const std::optional<GaugeValue>& shared,
                                                const std::optional<GaugeValue>& behind);

} // namespace loopside::filtration
