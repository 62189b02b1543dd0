// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "oil/fluid.h"

#include "base/text.h"
#include "oil/density.h"
#include "oil/grade.h"
#include "oil/viscosity_index.h"

namespace loopside::oil {

using units::celsius;
using units::KinematicViscosity;
using units::Temperature;

namespace {

constexpr double thickenedFrom = 160.0; ///< Viscosity index, see `Fluid::caution`.

/// The line of an oil of which only grade and viscosity index are known, through the grade's mid-point at 40 °C. New
/// oil may be 10 % off within its grade.
Result<WaltherLine> lineOf(const std::string& gradeText, std::optional<double> viscosityIndex)
{
    const Result<Grade> grade = gradeNamed(gradeText);
    if (!grade.has_value()) {
        return fail(grade.error());
    }
    if (!viscosityIndex.has_value()) {
        return fail(Errc::Unavailable,
                    "The viscosity index is missing: ISO VG " + std::to_string(grade->vg)
                        + " alone tells the viscosity at 40 °C only.");
    }
    return lineWithIndex(40.0 * celsius, grade->mid, *viscosityIndex);
}

Result<WaltherLine> lineOf(const std::vector<ViscosityPoint>& points, std::optional<double> viscosityIndex)
{
    if (points.size() == 2) {
        return WaltherLine::through(points[0].at, points[0].viscosity, points[1].at, points[1].viscosity);
    }
    if (points.size() > 2) {
        return fail(Errc::Malformed,
                    "Two viscosity points make a line; " + std::to_string(points.size()) + " are given.");
    }
    if (!viscosityIndex.has_value()) {
        return fail(Errc::Unavailable,
                    "The viscosity index is missing: one viscosity point alone tells the viscosity at that temperature "
                    "only. Give the index or a second point.");
    }
    return lineWithIndex(points[0].at, points[0].viscosity, *viscosityIndex);
}

} // namespace

Result<Fluid::Viscosity> Fluid::viscosityOf(const FluidProperties& properties)
{
    const auto asViscosity = [](auto known) { return Viscosity(known); };
    if (properties.fixedViscosity.has_value() && !properties.points.empty()) {
        return fail(Errc::Conflict, "A fixed viscosity and viscosity points are both given; give one or the other.");
    }
    if (properties.fixedViscosity.has_value()) {
        return checkViscosity(*properties.fixedViscosity, "fixed viscosity").transform([&] {
            return Viscosity(*properties.fixedViscosity);
        });
    }
    if (!properties.points.empty()) {
        return lineOf(properties.points, properties.viscosityIndex).transform(asViscosity);
    }
    if (trimmed(properties.grade).empty()) {
        return fail(
            Errc::Unavailable,
            "Nothing tells the viscosity of the oil; give a grade with its viscosity index, one viscosity point "
            "with it, two viscosity points or a fixed viscosity.");
    }
    return lineOf(properties.grade, properties.viscosityIndex).transform(asViscosity);
}

Result<Fluid> Fluid::from(const FluidProperties& properties)
{
    if (properties.densityAt15.has_value()) {
        const Done checked = checkDensityAt15(*properties.densityAt15);
        if (!checked.has_value()) {
            return fail(checked.error());
        }
    }
    return viscosityOf(properties).transform([&](const Viscosity& viscosity) {
        return Fluid(viscosity, properties.densityAt15, properties.family);
    });
}

Result<KinematicViscosity> Fluid::viscosityAt(std::optional<Temperature> temperature) const
{
    if (const auto* fixedViscosity = std::get_if<KinematicViscosity>(&viscosity_)) {
        return *fixedViscosity;
    }
    if (!temperature.has_value()) {
        return fail(Errc::Unavailable, "The viscosity needs the oil temperature, which is missing.");
    }
    return std::get<WaltherLine>(viscosity_).at(*temperature);
}

std::optional<units::Density> Fluid::densityAt(std::optional<Temperature> temperature) const
{
    if (!densityAt15_.has_value() || !temperature.has_value()) {
        return std::nullopt;
    }
    const Result<units::Density> density = oil::densityAt(*densityAt15_, *temperature);
    return density.has_value() ? std::optional(*density) : std::nullopt;
}

std::optional<std::string> Fluid::caution() const
{
    if (std::holds_alternative<KinematicViscosity>(viscosity_)) {
        return std::nullopt;
    }
    if (const auto why = traitsOf(family_).whyNoLine; why.has_value() && family_ != FluidFamily::Unknown) {
        return std::string(*why);
    }
    const std::optional<double> index = viscosityIndex();
    const bool byItself = family_ == FluidFamily::Ester || family_ == FluidFamily::Polyglycol;
    if (!index.has_value() || *index <= thickenedFrom || byItself) {
        return std::nullopt;
    }
    return "A viscosity index of " + fixed(reportedViscosityIndex(*index), 0)
        + " may come from polymers; such an oil is far thicker in the cold than the viscosity line says.";
}

std::optional<std::string> Fluid::densityCaution() const
{
    const auto why = traitsOf(family_).whyNoDensity;
    const bool holds = !why.has_value() || family_ == FluidFamily::Unknown || !densityAt15_.has_value();
    return holds ? std::nullopt : std::optional(std::string(*why));
}

std::optional<double> Fluid::viscosityIndex() const
{
    const auto* line = std::get_if<WaltherLine>(&viscosity_);
    if (line == nullptr) {
        return std::nullopt;
    }
    const Result<double> index = line->at(40.0 * celsius).and_then([&](KinematicViscosity at40) {
        return line->at(100.0 * celsius).and_then([&](KinematicViscosity at100) {
            return oil::viscosityIndex(at40, at100);
        });
    });
    return index.has_value() ? std::optional(*index) : std::nullopt;
}

} // namespace loopside::oil
