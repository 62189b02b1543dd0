// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/fluid.h"

#include "oil/grade.h"

#include <catch2/catch.hpp>

using Catch::Contains;
using Catch::WithinRel;
using loopside::Errc;
using namespace loopside::oil;
using namespace loopside::units;

namespace {

FluidProperties vg46()
{
    FluidProperties properties;
    properties.grade = "VG 46";
    properties.viscosityIndex = 98.0;
    return properties;
}

std::vector<ViscosityPoint> twoPoints()
{
    return {{40.0 * celsius, 32.0 * centistokes}, {100.0 * celsius, 5.4 * centistokes}};
}

double cStAt(const FluidProperties& properties, std::optional<Temperature> at)
{
    return Fluid::from(properties).value().viscosityAt(at).value().in(centistokes);
}

loopside::Error refusal(const FluidProperties& properties)
{
    const auto fluid = Fluid::from(properties);
    REQUIRE_FALSE(fluid.has_value());
    return fluid.error();
}

} // namespace

TEST_CASE("a grade with its index has the grade's mid-point at 40 degrees")
{
    for (const Grade& grade : grades()) {
        if (grade.vg < 7) {
            continue; // too thin at 100 °C for an index of 98
        }
        FluidProperties properties = vg46();
        properties.grade = std::to_string(grade.vg);
        CAPTURE(grade.vg);
        CHECK_THAT(cStAt(properties, 40.0 * celsius), WithinRel(grade.mid.in(centistokes), 1e-5));
    }
}

TEST_CASE("two points come before grade and index")
{
    FluidProperties properties = vg46();
    properties.points = twoPoints();
    CHECK_THAT(cStAt(properties, 40.0 * celsius), WithinRel(32.0, 1e-9));
}

TEST_CASE("a grade that nobody knows does no harm beside two points")
{
    FluidProperties properties;
    properties.grade = "the green drum";
    properties.points = twoPoints();
    CHECK_THAT(cStAt(properties, 40.0 * celsius), WithinRel(32.0, 1e-9));
}

TEST_CASE("a fixed viscosity comes before grade and index, at every temperature and at none")
{
    FluidProperties properties = vg46();
    properties.fixedViscosity = 51.0 * centistokes;
    CHECK_THAT(cStAt(properties, 40.0 * celsius), WithinRel(51.0, 1e-12));
    CHECK_THAT(cStAt(properties, 5.0 * celsius), WithinRel(51.0, 1e-12));
    CHECK_THAT(cStAt(properties, std::nullopt), WithinRel(51.0, 1e-12));
}

TEST_CASE("without the oil temperature a viscosity that needs it is not to be had")
{
    const auto viscosity = Fluid::from(vg46()).value().viscosityAt(std::nullopt);
    REQUIRE_FALSE(viscosity.has_value());
    CHECK(viscosity.error().code == Errc::Unavailable);
    CHECK_THAT(viscosity.error().sentence, Contains("oil temperature"));
}

TEST_CASE("a fixed viscosity and points contradict each other")
{
    FluidProperties properties;
    properties.fixedViscosity = 51.0 * centistokes;
    properties.points = twoPoints();
    const auto error = refusal(properties);
    CHECK(error.code == Errc::Conflict);
    CHECK_THAT(error.sentence, Contains("fixed viscosity") && Contains("points"));
}

TEST_CASE("a grade without its index is refused for the index")
{
    FluidProperties properties = vg46();
    properties.viscosityIndex = std::nullopt;
    const auto error = refusal(properties);
    CHECK(error.code == Errc::Unavailable);
    CHECK_THAT(error.sentence, Contains("viscosity index is missing") && Contains("ISO VG 46"));
}

TEST_CASE("an oil of which nothing tells the viscosity is refused with what would")
{
    const std::string grade = GENERATE("", "   ");
    FluidProperties properties;
    properties.grade = grade;
    properties.viscosityIndex = 98.0;
    const auto error = refusal(properties);
    CHECK(error.code == Errc::Unavailable);
    CHECK_THAT(error.sentence, Contains("a grade with its viscosity index") && Contains("two viscosity points"));
}

TEST_CASE("one point or three do not make a line")
{
    FluidProperties properties = vg46();
    properties.points = twoPoints();
    SECTION("one")
    {
        properties.points.pop_back();
        CHECK_THAT(refusal(properties).sentence, Contains("Two viscosity points") && Contains("; 1 are given"));
    }
    SECTION("three")
    {
        properties.points.push_back(properties.points.front());
        CHECK_THAT(refusal(properties).sentence, Contains("; 3 are given"));
    }
    CHECK(refusal(properties).code == Errc::Malformed);
}

TEST_CASE("nonsense in any property is refused with the property named")
{
    FluidProperties properties = vg46();
    SECTION("grade")
    {
        properties.grade = "VG 45";
        CHECK(refusal(properties).code == Errc::NotFound);
        CHECK_THAT(refusal(properties).sentence, Contains("\"VG 45\""));
    }
    SECTION("viscosity index")
    {
        properties.viscosityIndex = 950.0;
        CHECK_THAT(refusal(properties).sentence, Contains("viscosity index") && Contains("950.0"));
    }
    SECTION("points")
    {
        properties.points = {{40.0 * celsius, 5.4 * centistokes}, {100.0 * celsius, 32.0 * centistokes}};
        CHECK_THAT(refusal(properties).sentence, Contains("points"));
    }
    SECTION("fixed viscosity")
    {
        properties.fixedViscosity = 0.0 * centistokes;
        CHECK_THAT(refusal(properties).sentence, Contains("fixed viscosity"));
    }
    SECTION("density")
    {
        properties.densityAt15 = 87.0 * kilogramPerCubicMetre;
        CHECK_THAT(refusal(properties).sentence, Contains("density at 15 °C") && Contains("87.0 kg/m³"));
    }
}

TEST_CASE("a density is told only where it is known at 15 degrees and the oil temperature is known")
{
    FluidProperties properties = vg46();
    CHECK_FALSE(Fluid::from(properties).value().densityAt(40.0 * celsius).has_value());
    properties.densityAt15 = 870.0 * kilogramPerCubicMetre;
    const Fluid fluid = Fluid::from(properties).value();
    CHECK_FALSE(fluid.densityAt(std::nullopt).has_value());
    CHECK_FALSE(fluid.densityAt(400.0 * celsius).has_value());
    const auto density = fluid.densityAt(15.0 * celsius);
    REQUIRE(density.has_value());
    CHECK_THAT(density->in(kilogramPerCubicMetre), WithinRel(870.0, 1e-12));
}
