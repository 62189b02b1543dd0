// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/gauge.h"

#include "base/text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace loopside::filtration {

using units::Pressure;

namespace {

struct KnownGrade
{
    std::string_view name;
    double firstQuarterPct;
    double middlePct;
    double lastQuarterPct;
};

constexpr std::array<KnownGrade, 15> knownGrades{{
    {"4A", 0.1, 0.1, 0.1},
    {"3A", 0.25, 0.25, 0.25},
    {"2A", 0.5, 0.5, 0.5},
    {"1A", 1.0, 1.0, 1.0},
    {"A", 2.0, 1.0, 2.0},
    {"B", 3.0, 2.0, 3.0},
    {"C", 4.0, 3.0, 4.0},
    {"D", 5.0, 5.0, 5.0},
    {"0.1", 0.1, 0.1, 0.1},
    {"0.25", 0.25, 0.25, 0.25},
    {"0.6", 0.6, 0.6, 0.6},
    {"1", 1.0, 1.0, 1.0},
    {"1.6", 1.6, 1.6, 1.6},
    {"2.5", 2.5, 2.5, 2.5},
    {"4", 4.0, 4.0, 4.0},
}};

/// `name` in upper case, with a point for a comma and without the word in front.
std::string plainName(std::string_view name)
{
    std::string plain(trimmed(name));
    for (char& sign : plain) {
        if (sign >= 'a' && sign <= 'z') {
            sign = static_cast<char>(sign - 'a' + 'A');
        } else if (sign == ',') {
            sign = '.';
        }
    }
    for (const std::string_view word : {"GRADE ", "CLASS "}) {
        if (plain.starts_with(word)) {
            return std::string(trimmed(std::string_view(plain).substr(word.size())));
        }
    }
    return plain;
}

std::string listOfGrades()
{
    std::string list;
    for (const KnownGrade& grade : knownGrades) {
        list += (list.empty() ? "" : ", ") + std::string(grade.name);
    }
    return list;
}

double percentAt(const AccuracyGrade& grade, double shareOfSpan)
{
    constexpr double conversionSlack = 1e-9; // 25 of 100 is a quarter in every unit
    if (shareOfSpan < 0.25 - conversionSlack) {
        return grade.firstQuarterPct;
    }
    return shareOfSpan > 0.75 + conversionSlack ? grade.lastQuarterPct : grade.middlePct;
}

} // namespace

Result<AccuracyGrade> accuracyGrade(std::string_view name)
{
    const auto found = std::ranges::find_if(
        knownGrades, [plain = plainName(name)](const KnownGrade& grade) { return grade.name == plain; });
    if (found == knownGrades.end()) {
        return fail(Errc::NotFound,
                    "\"" + quotable(name) + "\" is not a gauge accuracy grade; the grades and classes are "
                        + listOfGrades() + ".");
    }
    return AccuracyGrade{std::string(found->name), found->firstQuarterPct, found->middlePct, found->lastQuarterPct};
}

std::optional<Pressure> permissibleError(const Gauge& gauge, Pressure reading)
{
    if (!gauge.grade.has_value() || !gauge.span.has_value() || !(*gauge.span > Pressure{})) {
        return std::nullopt;
    }
    return *gauge.span * percentAt(*gauge.grade, reading / *gauge.span) / 100.0;
}

std::optional<Pressure> standingUncertainty(const Gauge& gauge, Pressure reading)
{
    const std::optional<Pressure> limit = permissibleError(gauge, reading);
    if (!limit.has_value()) {
        return std::nullopt;
    }
    return *limit * std::numbers::inv_sqrt3;
}

std::optional<Pressure> readingUncertainty(const Gauge& gauge, Pressure halfSwing)
{
    if (!gauge.graduation.has_value() || !(*gauge.graduation > Pressure{})) {
        return std::nullopt;
    }
    // δ/√12 is half a graduation over √3.
    const double halfGraduation = (*gauge.graduation / 2.0).in(units::pascal);
    return std::hypot(halfGraduation, halfSwing.in(units::pascal)) * std::numbers::inv_sqrt3 * units::pascal;
}

} // namespace loopside::filtration
