// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/limits.h"

#include "base/text.h"
#include "filtration/checks.h"

#include <algorithm>
#include <string_view>

namespace loopside::filtration {

using units::kilopascal;
using units::Pressure;

namespace {

using Known = std::optional<Pressure>;

std::string kPa(Pressure pressure)
{
    return fixed(pressure.in(kilopascal), 1) + " kPa";
}

Done checkAboveZero(const Known& pressure, std::string_view what)
{
    return pressure.has_value() ? filtration::checkAboveZero(pressure->in(kilopascal), what, "kPa") : Done{};
}

Done checkGaugeError(const Known& error)
{
    return error.has_value() ? checkZeroOrMore(error->in(kilopascal), "gauge error", "kPa") : Done{};
}

Done checkLimits(const StageLimits& limits)
{
    return checkAboveZero(limits.change, "change limit")
        .and_then([&] { return checkAboveZero(limits.bypass, "bypass setting"); })
        .and_then([&] { return checkAboveZero(limits.terminal, "terminal differential pressure"); })
        .and_then([&] { return checkAboveZero(limits.relief, "relief setting"); })
        .and_then([&] { return checkGaugeError(limits.gaugeError); })
        .and_then([&] { return checkAboveZero(limits.clean, "clean differential pressure"); });
}

std::optional<LimitFinding> againstBypass(const StageLimits& limits)
{
    if (!limits.change.has_value() || !limits.bypass.has_value()) {
        return std::nullopt;
    }
    const std::string both = "The change limit, " + kPa(*limits.change) + ", is not below the bypass setting, "
        + kPa(*limits.bypass);
    if (*limits.change >= *limits.bypass) {
        return LimitFinding{LimitConflict::AboveBypass,
                            both + ": the bypass valve opens first, and the limit may never be reached."};
    }
    if (limits.gaugeError.has_value() && *limits.change > *limits.bypass - *limits.gaugeError) {
        return LimitFinding{LimitConflict::WithinGaugeError,
                            both + ", by more than the gauge error, " + kPa(*limits.gaugeError)
                                + ": the bypass valve may open before the gauges show the limit."};
    }
    return std::nullopt;
}

std::optional<LimitFinding> againstRelief(const StageLimits& limits)
{
    if (!limits.change.has_value() || !limits.relief.has_value() || *limits.change < *limits.relief) {
        return std::nullopt;
    }
    return LimitFinding{LimitConflict::AboveRelief,
                        "The change limit, " + kPa(*limits.change) + ", is not below the relief setting of the pump, "
                            + kPa(*limits.relief) + ": the relief valve opens first."};
}

std::optional<LimitFinding> cleanAgainstBypass(const StageLimits& limits)
{
    if (!limits.clean.has_value() || !limits.bypass.has_value()) {
        return std::nullopt;
    }
    const double share = *limits.clean / *limits.bypass;
    if (!(share > 1.0 / 3.0)) {
        return std::nullopt;
    }
    const bool isAboveHalf = share > 0.5;
    return LimitFinding{isAboveHalf ? LimitConflict::CleanAboveHalf : LimitConflict::CleanAboveThird,
                        "The clean differential pressure, " + kPa(*limits.clean) + ", is more than "
                            + (isAboveHalf ? "half" : "a third") + " of the bypass setting, " + kPa(*limits.bypass)
                            + ": little is left for dirt."};
}

std::optional<LimitFinding> withoutLimit(const StageLimits& limits)
{
    if (limits.change.has_value() || defaultLimits(limits.bypass, limits.terminal).has_value()) {
        return std::nullopt;
    }
    return LimitFinding{LimitConflict::NoLimitKnown,
                        "Neither a change limit nor a bypass setting nor a terminal differential pressure is known: "
                        "nothing says when to change the elements."};
}

} // namespace

Result<std::vector<LimitFinding>> limitFindings(const StageLimits& limits)
{
    return checkLimits(limits).transform([&] {
        std::vector<LimitFinding> findings;
        for (const auto& judge : {withoutLimit, againstBypass, againstRelief, cleanAgainstBypass}) {
            if (std::optional<LimitFinding> finding = judge(limits)) {
                findings.push_back(*std::move(finding));
            }
        }
        return findings;
    });
}

std::optional<ChangeLimits> defaultLimits(Known bypass, Known terminal)
{
    if (!bypass.has_value() && !terminal.has_value()) {
        return std::nullopt;
    }
    const Pressure lowest = bypass.has_value() && terminal.has_value() ? std::min(*bypass, *terminal)
        : bypass                                                       ? *bypass
                                                                       : *terminal;
    return ChangeLimits{0.6 * lowest, 0.8 * lowest};
}

} // namespace loopside::filtration
