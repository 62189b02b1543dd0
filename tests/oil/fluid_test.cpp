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

TEST_CASE("one measured point with the index overrides the grade")
{
    FluidProperties properties = vg46();
    SECTION("at 40 degrees it is as if the grade had that mid-point")
    {
        properties.points = {{40.0 * celsius, 46.0 * centistokes}};
        CHECK_THAT(cStAt(properties, 0.0 * celsius), WithinRel(cStAt(vg46(), 0.0 * celsius), 1e-9));
        properties.points = {{40.0 * celsius, 43.0 * centistokes}};
        CHECK_THAT(cStAt(properties, 40.0 * celsius), WithinRel(43.0, 1e-6));
    }
    SECTION("at any other it is met there")
    {
        const double atC = GENERATE(20.0, 37.8, 60.0, 100.0, 120.0);
        CAPTURE(atC);
        properties.points = {{atC * celsius, 25.0 * centistokes}};
        CHECK_THAT(cStAt(properties, atC * celsius), WithinRel(25.0, 1e-6));
        CHECK(Fluid::from(properties)->viscosityIndex().value() == Approx(98.0).margin(0.1));
    }
    SECTION("the grade need not be known")
    {
        properties.grade = "the green drum";
        properties.points = {{40.0 * celsius, 43.0 * centistokes}};
        CHECK(Fluid::from(properties).has_value());
    }
}

TEST_CASE("one point without the index does not make a line, nor do three")
{
    FluidProperties properties = vg46();
    properties.points = twoPoints();
    SECTION("one")
    {
        properties.points.pop_back();
        properties.viscosityIndex = std::nullopt;
        CHECK(refusal(properties).code == Errc::Unavailable);
        CHECK_THAT(refusal(properties).sentence,
                   Contains("viscosity index is missing") && Contains("one viscosity point"));
    }
    SECTION("three")
    {
        properties.points.push_back(properties.points.front());
        CHECK(refusal(properties).code == Errc::Malformed);
        CHECK_THAT(refusal(properties).sentence, Contains("; 3 are given"));
    }
}

TEST_CASE("a point that an index cannot have is refused with the point")
{
    FluidProperties properties = vg46();
    properties.points = {{100.0 * celsius, 1.5 * centistokes}};
    CHECK_THAT(refusal(properties).sentence, Contains("1.500 cSt at 100.0 °C") && Contains("less than 2 cSt"));
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

TEST_CASE("an oil whose line may not hold is flagged, not refused")
{
    FluidProperties properties = vg46();
    SECTION("an ordinary oil is not")
    {
        properties.family = GENERATE(FluidFamily::Unknown, FluidFamily::Hydraulic, FluidFamily::SyntheticHydrocarbon);
        CHECK_FALSE(Fluid::from(properties)->caution().has_value());
    }
    SECTION("thickened with polymers")
    {
        properties.family = FluidFamily::PolymerThickened;
        CHECK_THAT(Fluid::from(properties)->caution().value(), Contains("thicker in the cold"));
    }
    SECTION("water-based")
    {
        properties.family = FluidFamily::WaterGlycol;
        CHECK_THAT(Fluid::from(properties)->caution().value(), Contains("water-based"));
    }
    SECTION("an index that mineral oil does not reach without polymers")
    {
        // Published typical data of a MIL-PRF-5606 type fluid: 13.5 and 5.1 cSt, index 382, 495 cSt at -40 °C, where
        // the line says 201.
        properties.points = {{40.0 * celsius, 13.5 * centistokes}, {100.0 * celsius, 5.1 * centistokes}};
        CHECK_THAT(Fluid::from(properties)->caution().value(), Contains("index of 382") && Contains("polymers"));
        properties.family = FluidFamily::Polyglycol;
        CHECK_FALSE(Fluid::from(properties)->caution().has_value());
    }
    SECTION("160 is the last index without")
    {
        properties.viscosityIndex = 160.0 - 1e-3;
        CHECK_FALSE(Fluid::from(properties)->caution().has_value());
        properties.viscosityIndex = 161.0;
        CHECK(Fluid::from(properties)->caution().has_value());
    }
    SECTION("a fixed viscosity has no line")
    {
        properties.fixedViscosity = 51.0 * centistokes;
        properties.family = FluidFamily::WaterGlycol;
        CHECK_FALSE(Fluid::from(properties)->caution().has_value());
        CHECK_FALSE(Fluid::from(properties)->viscosityIndex().has_value());
    }
}

TEST_CASE("a density is flagged where its formula does not hold, and only where it is known")
{
    FluidProperties properties = vg46();
    properties.family = FluidFamily::WaterGlycol;
    CHECK_FALSE(Fluid::from(properties)->densityCaution().has_value());
    properties.densityAt15 = 1080.0 * kilogramPerCubicMetre;
    CHECK_THAT(Fluid::from(properties)->densityCaution().value(), Contains("density formula"));
    properties.family = FluidFamily::Hydraulic;
    CHECK_FALSE(Fluid::from(properties)->densityCaution().has_value());
}
