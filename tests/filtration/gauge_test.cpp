// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "filtration/gauge.h"

#include <catch2/catch.hpp>

#include <cmath>

using Catch::Contains;
using Catch::WithinRel;
using namespace loopside::filtration;
using namespace loopside::units;

namespace {

Gauge gradeB()
{
    return {100.0 * psi, 1.0 * psi, accuracyGrade("B").value()};
}

double psiAt(const Gauge& gauge, double reading)
{
    return permissibleError(gauge, reading * psi).value().in(psi);
}

} // namespace

TEST_CASE("an accuracy grade is known by every name that people give it")
{
    const auto [typed, name] = GENERATE(table<std::string, std::string>({
        {"B", "B"},
        {"b", "B"},
        {" grade B ", "B"},
        {"Grade 2a", "2A"},
        {"1", "1"},
        {"1A", "1A"},
        {"1,6", "1.6"},
        {"class 2.5", "2.5"},
    }));
    CAPTURE(typed);
    const auto grade = accuracyGrade(typed);
    REQUIRE(grade.has_value());
    CHECK(grade->name == name);
}

TEST_CASE("what is not an accuracy grade is refused with those that are")
{
    const std::string name = GENERATE("E", "", "5A", "3", "grade", "2.50 %", "B C");
    CAPTURE(name);
    const auto grade = accuracyGrade(name);
    REQUIRE_FALSE(grade.has_value());
    CHECK(grade.error().code == loopside::Errc::NotFound);
    CHECK_THAT(grade.error().sentence,
               Contains("\"" + name + "\"") && Contains("gauge accuracy grade") && Contains("4A, 3A"));
}

TEST_CASE("the middle half of a scale reaches from a quarter to three quarters, both included, in every unit")
{
    const auto [reading, percent] = GENERATE(table<double, double>({
        {-5.0, 3.0},
        {0.0, 3.0},
        {24.9, 3.0},
        {25.0, 2.0},
        {75.0, 2.0},
        {75.1, 3.0},
        {130.0, 3.0},
    }));
    CAPTURE(reading);
    const auto unit = GENERATE(psi, bar, kgfPerCm2, kilopascal);
    const Gauge gauge{100.0 * unit, std::nullopt, accuracyGrade("B").value()};
    CHECK_THAT(permissibleError(gauge, reading * unit).value().in(unit), WithinRel(percent, 1e-12));
}

TEST_CASE("the permissible error grows with the span")
{
    Gauge wide = gradeB();
    wide.span = 200.0 * psi;
    CHECK_THAT(psiAt(wide, 100.0), WithinRel(2.0 * psiAt(gradeB(), 50.0), 1e-12));
}

TEST_CASE("what is not known of a gauge is not made up")
{
    Gauge gauge = gradeB();
    SECTION("grade")
    {
        gauge.grade = std::nullopt;
        CHECK_FALSE(permissibleError(gauge, 50.0 * psi).has_value());
        CHECK_FALSE(standingUncertainty(gauge, 50.0 * psi).has_value());
        CHECK(readingUncertainty(gauge, Pressure{}).has_value());
    }
    SECTION("span")
    {
        gauge.span = GENERATE(std::optional<Pressure>{}, std::optional(Pressure{}), std::optional(-1.0 * psi));
        CHECK_FALSE(permissibleError(gauge, 50.0 * psi).has_value());
        CHECK_FALSE(standingUncertainty(gauge, 50.0 * psi).has_value());
    }
    SECTION("graduation")
    {
        gauge.graduation = GENERATE(std::optional<Pressure>{}, std::optional(Pressure{}));
        CHECK_FALSE(readingUncertainty(gauge, 2.0 * psi).has_value());
        CHECK(standingUncertainty(gauge, 50.0 * psi).has_value());
    }
}

TEST_CASE("a needle that swings is read less well, from either side alike")
{
    const Gauge gauge = gradeB();
    const auto steady = readingUncertainty(gauge, Pressure{}).value();
    const auto swinging = readingUncertainty(gauge, 2.0 * psi).value();
    CHECK(steady < swinging);
    CHECK(readingUncertainty(gauge, -2.0 * psi).value() == swinging);
    // JCGM 100: 1/√12 for the graduation and 2/√3 for the swing, in quadrature.
    CHECK_THAT(swinging.in(psi), WithinRel(std::sqrt(1.0 / 12.0 + 4.0 / 3.0), 1e-12));
}
