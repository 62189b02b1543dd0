// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a stage's change limit stands against: where the valve past the element, the pump's relief valve or the gauges'
// error make it a limit that may never be seen.

#pragma once

#include "base/result.h"
#include "units/quantity.h"

#include <optional>
#include <string>
#include <vector>

namespace loopside::filtration {

/// What is known of one stage's limits; each differential pressure or pressure above 0.
struct StageLimits
{
    std::optional<units::Pressure> change;     ///< Where the elements are to be changed.
    std::optional<units::Pressure> bypass;     ///< Where the bypass valve of element or housing begins to open.
    std::optional<units::Pressure> terminal;   ///< Where the element's maker says that it is full.
    std::optional<units::Pressure> relief;     ///< Where the pump's relief valve begins to open.
    std::optional<units::Pressure> gaugeError; ///< Expanded (k = 2) of the stage's differential pressure.
    std::optional<units::Pressure> clean;      ///< Clean differential pressure at the conditions in question.
};

enum class LimitConflict
{
    NoLimitKnown,     ///< Neither a change limit nor anything to take one from.
    AboveBypass,      ///< The change limit is at or above the bypass setting: the valve opens first.
    WithinGaugeError, ///< It is below, by less than the gauges' error.
    AboveRelief,      ///< The change limit is at or above the relief setting: the pump's valve opens first.
    CleanAboveHalf,   ///< Caution: the clean drop is more than 1/2 of the bypass setting.
    CleanAboveThird,  ///< Note: it is more than 1/3, and not more than 1/2.
};

struct LimitFinding
{
    LimitConflict conflict;
    std::string sentence; ///< Plain English with the values in kPa.

    friend bool operator==(const LimitFinding&, const LimitFinding&) = default;
};

/// Everything that `limits` are in conflict with, in the order of `LimitConflict`; empty where nothing is known to be.
/// What is missing is not judged.
///
/// Source: a clean drop of at most 1/2, better 1/3, of the bypass setting is a handbook's advice, read; a change limit
/// below the bypass setting less the gauges' error follows from what the gauges can tell.
/// OutOfRange, naming it, if a pressure that is given is not above 0; a gauge error may be 0.
[[nodiscard]] Result<std::vector<LimitFinding>> limitFindings(const StageLimits& limits);

/// Where to warn and where to change.
struct ChangeLimits
{
    units::Pressure warn;
    units::Pressure change;
};

/// The limits to take where nobody has given one: warn at 60 %, change at 80 % of the lower of bypass setting and
/// terminal differential pressure; nothing if neither is known. Both must be above 0.
/// Our choice after common practice, no source: sources put indicators at 50 to 90 % of the bypass setting.
[[nodiscard]] std::optional<ChangeLimits> defaultLimits(std::optional<units::Pressure> bypass,
                                                        std::optional<units::Pressure> terminal);

} // namespace loopside::filtration
