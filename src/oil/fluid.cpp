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

/// The line of an oil of which only grade and viscosity index are known: the mid-point of the grade at 40 °C, and what
/// the index makes of it at 100 °C. New oil may be 10 % off at 40 °C within its grade.
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
    return viscosityAt100(grade->mid, *viscosityIndex).and_then([&](KinematicViscosity at100) {
        return WaltherLine::through(40.0 * celsius, grade->mid, 100.0 * celsius, at100);
    });
}

Result<WaltherLine> lineOf(const std::vector<ViscosityPoint>& points)
{
    if (points.size() != 2) {
        return fail(Errc::Malformed,
                    "Two viscosity points make a line; " + std::to_string(points.size()) + " are given.");
    }
    return WaltherLine::through(points[0].at, points[0].viscosity, points[1].at, points[1].viscosity);
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
        return lineOf(properties.points).transform(asViscosity);
    }
    if (trimmed(properties.grade).empty()) {
        return fail(Errc::Unavailable,
                    "Nothing tells the viscosity of the oil; give a grade with its viscosity index, two "
                    "viscosity points or a fixed viscosity.");
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
        return Fluid(viscosity, properties.densityAt15);
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

} // namespace loopside::oil
