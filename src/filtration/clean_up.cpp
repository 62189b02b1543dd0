// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/clean_up.h"

#include "base/text.h"
#include "filtration/checks.h"
#include "filtration/turnover.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace loopside::filtration {

using oil::CleanlinessCode;
using oil::ScaleNumber;

namespace {

constexpr std::array<std::string_view, 3> sizeNames = {"4 µm", "6 µm", "14 µm"};

std::string perMl(double count)
{
    return fixed(count, count < 10.0 ? 2 : 0) + " per mL";
}

Done checkPart(double number, std::string_view what, bool zeroToo)
{
    if ((number > 0.0 || (zeroToo && number == 0.0)) && number <= 1.0) {
        return {};
    }
    return fail(Errc::OutOfRange,
                "The " + std::string(what) + " must be " + (zeroToo ? "from 0 to 1" : "above 0 and at most 1")
                    + "; it is " + fixed(number, 2) + ".");
}

Done checkTank(const MixedTank& tank)
{
    return checkPart(tank.captureTimesMixing, "capture times mixing", true).and_then([&] {
        return checkZeroOrMore(tank.floorPerMl, "floor", "per mL");
    });
}

/// The counts that a scale number stands for, the lower one just inside.
struct Ends
{
    double low;
    std::optional<double> high;
};

std::optional<Ends> endsOf(const ScaleNumber& scale)
{
    const auto range = scale.countRange();
    if (!range) {
        return std::nullopt;
    }
    return Ends{std::nextafter(range->moreThanPerMl, std::numeric_limits<double>::infinity()), range->upToPerMl};
}

SizeToTarget sizeToTarget(std::optional<double> startPerMl, const ScaleNumber& target, const MixedTank& tank)
{
    const auto limit = endsOf(target);
    if (!limit || !limit->high) {
        return {{}, "the target is no number"};
    }
    if (!startPerMl) {
        return {{}, "the count at the start is not known"};
    }
    const auto turnovers = turnoversBetween(*startPerMl, *limit->high, tank);
    return turnovers ? SizeToTarget{*turnovers, {}} : SizeToTarget{{}, turnovers.error().sentence};
}

bool asksNothing(const ScaleNumber& target)
{
    return target.kind() == ScaleNumber::Kind::NotCounted;
}

/// The slowest size, or the first that has no turnovers.
std::optional<std::size_t> slowestOf(const PerSize<std::optional<SizeToTarget>>& sizes)
{
    std::optional<std::size_t> slowest;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        if (!sizes[i]) {
            continue;
        }
        if (!sizes[i]->turnovers) {
            return i;
        }
        if (!slowest || *sizes[i]->turnovers > *sizes[*slowest]->turnovers) {
            slowest = i;
        }
    }
    return slowest;
}

/// A place of the code that is expected: what was not counted stays as it is, else the number of the expected count.
ScaleNumber expectedScale(const ScaleNumber& start, std::optional<double> expectedPerMl)
{
    if (!endsOf(start)) {
        return start;
    }
    return expectedPerMl ? oil::scaleNumberOf(*expectedPerMl).value() : ScaleNumber::aboveTable();
}

/// The code of these counts; none: beyond the table. Each is raised to those of the larger sizes.
Result<CleanlinessCode> expectedCode(const CleanlinessCode& start, PerSize<std::optional<double>> expectedPerMl)
{
    const auto& scales = start.scales();
    double larger = 0.0;
    for (std::size_t i = scales.size(); i-- > 0;) {
        if (expectedPerMl[i]) {
            larger = std::max(larger, *expectedPerMl[i]);
            expectedPerMl[i] = larger;
        } else if (endsOf(scales[i])) {
            larger = std::numeric_limits<double>::max();
        }
    }
    return CleanlinessCode::of({expectedScale(scales[0], expectedPerMl[0]), expectedScale(scales[1], expectedPerMl[1]),
                                expectedScale(scales[2], expectedPerMl[2])});
}

} // namespace

Result<double> captureTimesMixing(std::span<const double> betas, double mixing)
{
    double passing = 1.0; // 1/β of all stages
    for (const double beta : betas) {
        if (!(beta >= 1.0)) {
            return fail(Errc::OutOfRange, "The filtration ratio β must be 1 or more; it is " + fixed(beta, 2) + ".");
        }
        passing /= beta;
    }
    return checkPart(mixing, "mixing factor", false).transform([&] { return (1.0 - passing) * mixing; });
}

Result<double> floorFromIngress(double particlesPerMinute, units::Flow flow, double captureTimesMixing)
{
    return checkZeroOrMore(particlesPerMinute, "ingress", "particles/min")
        .and_then([&] { return checkAboveZero(flow.in(units::litrePerMinute), "flow", "L/min"); })
        .and_then([&] { return checkPart(captureTimesMixing, "capture times mixing", false); })
        .transform([&] {
            const double mlPerMinute = (flow * (1.0 * units::minute)).in(units::millilitre);
            return particlesPerMinute / (mlPerMinute * captureTimesMixing);
        });
}

Result<double> countAfter(double startPerMl, double turnovers, const MixedTank& tank)
{
    return checkTank(tank)
        .and_then([&] { return checkZeroOrMore(startPerMl, "count at the start", "per mL"); })
        .and_then([&] { return checkZeroOrMore(turnovers, "number of turnovers", ""); })
        .transform([&] {
            const double left = leftBehind(turnovers, tank.captureTimesMixing);
            return tank.floorPerMl + (startPerMl - tank.floorPerMl) * left;
        });
}

Result<double> turnoversBetween(double startPerMl, double targetPerMl, const MixedTank& tank)
{
    const Done checked = checkTank(tank)
                             .and_then([&] { return checkZeroOrMore(startPerMl, "count at the start", "per mL"); })
                             .and_then([&] { return checkAboveZero(targetPerMl, "target", "per mL"); });
    if (!checked) {
        return fail(checked.error());
    }
    if (startPerMl <= targetPerMl) {
        return 0.0;
    }
    if (tank.captureTimesMixing == 0.0) {
        return fail(Errc::Unavailable, "The target is never reached: nothing is captured.");
    }
    if (targetPerMl <= tank.floorPerMl) {
        return fail(Errc::Unavailable,
                    "The target of " + perMl(targetPerMl) + " is never reached: what gets in holds the count at "
                        + perMl(tank.floorPerMl) + ".");
    }
    const double above = (startPerMl - tank.floorPerMl) / (targetPerMl - tank.floorPerMl);
    return std::log(above) / tank.captureTimesMixing;
}

double codesDown(double turnovers, double captureTimesMixing)
{
    return turnovers * captureTimesMixing / std::numbers::ln2;
}

double neverPassed(double turnovers)
{
    return leftBehind(turnovers, 1.0);
}

Result<WayToCode> turnoversToCode(const PerSize<std::optional<double>>& startPerMl, const CleanlinessCode& to,
                                  const PerSize<MixedTank>& tank)
{
    WayToCode way;
    for (std::size_t i = 0; i < tank.size(); ++i) {
        const Done checked = checkTank(tank[i]).and_then(
            [&] { return checkZeroOrMore(startPerMl[i].value_or(0.0), "count at the start", "per mL"); });
        if (!checked) {
            return fail(checked.error());
        }
        if (!asksNothing(to.scales()[i])) {
            way.sizes[i] = sizeToTarget(startPerMl[i], to.scales()[i], tank[i]);
        }
    }
    way.slowest = slowestOf(way.sizes);
    if (!way.slowest) {
        return fail(Errc::Unavailable, "The target code asks for no size.");
    }
    const SizeToTarget& slowest = *way.sizes[*way.slowest];
    way.turnovers = slowest.turnovers;
    way.why = slowest.why.empty() ? "" : "At " + std::string(sizeNames[*way.slowest]) + ": " + slowest.why;
    return way;
}

Result<WayToCode> turnoversToCode(const CleanlinessCode& from, const CleanlinessCode& to,
                                  const PerSize<MixedTank>& tank)
{
    PerSize<std::optional<double>> startPerMl;
    for (std::size_t i = 0; i < startPerMl.size(); ++i) {
        const auto ends = endsOf(from.scales()[i]);
        startPerMl[i] = ends ? ends->high : std::nullopt;
    }
    return turnoversToCode(startPerMl, to, tank);
}

Result<CodeRange> codeAfter(const CleanlinessCode& start, double turnovers, const PerSize<MixedTank>& tank)
{
    PerSize<std::optional<double>> low;
    PerSize<std::optional<double>> high;
    for (std::size_t i = 0; i < tank.size(); ++i) {
        const auto ends = endsOf(start.scales()[i]);
        const auto lowest = countAfter(ends ? ends->low : 0.0, turnovers, tank[i]);
        const auto highest = countAfter(ends ? ends->high.value_or(0.0) : 0.0, turnovers, tank[i]);
        if (!lowest || !highest) {
            return fail(lowest ? highest.error() : lowest.error());
        }
        if (ends) {
            low[i] = *lowest;
            high[i] = ends->high ? std::optional(*highest) : std::nullopt;
        }
    }
    return expectedCode(start, low).and_then([&](const CleanlinessCode& from) {
        return expectedCode(start, high).transform([&](const CleanlinessCode& to) { return CodeRange{from, to}; });
    });
}

} // namespace loopside::filtration
