// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/limits.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using Catch::Contains;
using Catch::WithinRel;
using namespace loopside::filtration;
using namespace loopside::units;

namespace {

/// A stage with nothing to say against it: in psi, change 20, bypass 25, relief 100, gauge error 3, clean 5.
StageLimits sound()
{
    return {20.0 * psi, 25.0 * psi, 30.0 * psi, 100.0 * psi, 3.0 * psi, 5.0 * psi};
}

std::vector<LimitConflict> conflictsOf(const StageLimits& limits)
{
    std::vector<LimitConflict> conflicts;
    const auto findings = limitFindings(limits).value();
    for (const LimitFinding& finding : findings) {
        conflicts.push_back(finding.conflict);
    }
    return conflicts;
}

std::string onlySentence(const StageLimits& limits, LimitConflict conflict)
{
    const auto findings = limitFindings(limits).value();
    REQUIRE(findings.size() == 1);
    CHECK(findings.front().conflict == conflict);
    return findings.front().sentence;
}

} // namespace

TEST_CASE("a change limit well below bypass and relief is in conflict with nothing")
{
    CHECK(conflictsOf(sound()).empty());
}

TEST_CASE("a change limit at or above the bypass setting is told")
{
    StageLimits limits = sound();
    limits.change = GENERATE(25.0, 25.1, 40.0) * psi;
    CHECK_THAT(onlySentence(limits, LimitConflict::AboveBypass),
               Contains("not below the bypass setting, 172.4 kPa") && Contains("may never be reached"));
}

TEST_CASE("a change limit below the bypass setting by less than the gauge error is told")
{
    StageLimits limits = sound();
    limits.change = 22.5 * psi;
    CHECK_THAT(onlySentence(limits, LimitConflict::WithinGaugeError),
               Contains("by more than the gauge error, 20.7 kPa"));
    limits.gaugeError = 2.4 * psi;
    CHECK(conflictsOf(limits).empty());
    limits.gaugeError = std::nullopt; // cannot tell
    CHECK(conflictsOf(limits).empty());
}

TEST_CASE("a change limit at or above the relief setting is told, beside that of the bypass valve")
{
    StageLimits limits = sound();
    limits.relief = 20.0 * psi;
    CHECK_THAT(onlySentence(limits, LimitConflict::AboveRelief), Contains("relief setting of the pump, 137.9 kPa"));
    limits.change = 30.0 * psi;
    CHECK(conflictsOf(limits) == std::vector{LimitConflict::AboveBypass, LimitConflict::AboveRelief});
}

TEST_CASE("a clean drop of more than a third of the bypass setting is a note, of more than half a caution")
{
    // A handbook's advice, read.
    const auto conflictsAt = [](double cleanPsi) {
        StageLimits limits = sound();
        limits.clean = cleanPsi * psi;
        return conflictsOf(limits);
    };
    CHECK(conflictsAt(8.3).empty());
    CHECK(conflictsAt(8.4) == std::vector{LimitConflict::CleanAboveThird});
    CHECK(conflictsAt(12.5) == std::vector{LimitConflict::CleanAboveThird});
    CHECK(conflictsAt(12.6) == std::vector{LimitConflict::CleanAboveHalf});
    CHECK(conflictsAt(82.0) == std::vector{LimitConflict::CleanAboveHalf});
}

TEST_CASE("a stage of which no limit is known is told, and nothing else of it is judged")
{
    StageLimits limits;
    limits.relief = 100.0 * psi;
    limits.clean = 50.0 * psi;
    CHECK_THAT(onlySentence(limits, LimitConflict::NoLimitKnown), Contains("nothing says when to change"));
    limits.terminal = 25.0 * psi;
    CHECK(conflictsOf(limits).empty());
}

TEST_CASE("default limits are 60 and 80 % of the lower of bypass setting and terminal drop")
{
    // Our choice after common practice.
    const auto changeKpa = [](std::optional<Pressure> bypass, std::optional<Pressure> terminal) {
        const ChangeLimits limits = defaultLimits(bypass, terminal).value();
        CHECK_THAT(limits.warn / limits.change, WithinRel(0.75, 1e-12));
        return limits.change.in(kilopascal);
    };
    const Pressure low = 100.0 * kilopascal;
    const Pressure high = 250.0 * kilopascal;
    CHECK_THAT(changeKpa(low, high), WithinRel(80.0, 1e-12));
    CHECK_THAT(changeKpa(high, low), WithinRel(80.0, 1e-12));
    CHECK_THAT(changeKpa(low, std::nullopt), WithinRel(80.0, 1e-12));
    CHECK_THAT(changeKpa(std::nullopt, high), WithinRel(200.0, 1e-12));
    CHECK_FALSE(defaultLimits(std::nullopt, std::nullopt).has_value());
}

TEST_CASE("default limits are in conflict with nothing that they were taken from")
{
    const double bypassPsi = GENERATE(5.0, 25.0, 100.0);
    StageLimits limits;
    limits.bypass = bypassPsi * psi;
    limits.change = defaultLimits(limits.bypass, std::nullopt).value().change;
    limits.gaugeError = 0.19 * bypassPsi * psi;
    CHECK(conflictsOf(limits).empty());
}

TEST_CASE("limits that cannot be are refused with the fault named")
{
    const double number = GENERATE(-1.0, std::nan(""));
    CAPTURE(number);
    const auto refusal = [&](std::optional<Pressure> StageLimits::* member) {
        StageLimits limits = sound();
        limits.*member = number * psi;
        const auto findings = limitFindings(limits);
        REQUIRE_FALSE(findings.has_value());
        CHECK(findings.error().code == loopside::Errc::OutOfRange);
        return findings.error().sentence;
    };
    CHECK_THAT(refusal(&StageLimits::change), Contains("change limit"));
    CHECK_THAT(refusal(&StageLimits::bypass), Contains("bypass setting"));
    CHECK_THAT(refusal(&StageLimits::terminal), Contains("terminal differential pressure"));
    CHECK_THAT(refusal(&StageLimits::relief), Contains("relief setting"));
    CHECK_THAT(refusal(&StageLimits::gaugeError), Contains("gauge error"));
    CHECK_THAT(refusal(&StageLimits::clean), Contains("clean differential pressure"));
}
