// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "oil/fluid_family.h"
#include "oil/walther.h"
#include "units/quantity.h"
#include "units/temperature.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace loopside::oil {

/// A viscosity and the temperature at which it was measured.
struct ViscosityPoint
{
    units::Temperature at;
    units::KinematicViscosity viscosity;
};

/// What is known of an oil, as told; any of it may be missing.
struct FluidProperties
{
    std::string grade;                    ///< As typed, may be empty.
    std::optional<double> viscosityIndex; ///< Dimensionless.
    std::vector<ViscosityPoint> points;   ///< None; one, beside a viscosity index; or two.
    std::optional<units::KinematicViscosity> fixedViscosity;
    std::optional<units::Density> densityAt15;
    FluidFamily family = FluidFamily::Unknown; ///< Only cautions depend on it.
};

/// An oil whose viscosity is known over temperature, and its density if that is known too.
class Fluid
{
public:
    /// The best that `properties` allow: a fixed viscosity before two points before one point and viscosity index
    /// before grade and viscosity index. A laboratory's value is such a point and overrides the grade.
    ///
    /// Conflict if a fixed viscosity and points are both given; Malformed if there are more than two points;
    /// Unavailable if nothing tells the viscosity, or one point or a grade comes without a viscosity index; NotFound
    /// for an unknown grade that is needed; OutOfRange, with the sentence of the rule that was broken, for numbers that
    /// oil cannot have.
    [[nodiscard]] static Result<Fluid> from(const FluidProperties& properties);

    /// The viscosity. A fixed one needs no temperature; otherwise Unavailable without one, OutOfRange as of
    /// `WaltherLine::at`.
    [[nodiscard]] Result<units::KinematicViscosity> viscosityAt(std::optional<units::Temperature> temperature) const;

    /// The density; nothing if it is not known at 15 °C, no temperature is given, or that is outside `densityAt`'s
    /// validity.
    [[nodiscard]] std::optional<units::Density> densityAt(std::optional<units::Temperature> temperature) const;

    /// What is to be kept in mind with the viscosity, one whole sentence; none if the line holds as far as is known.
    ///
    /// The family's reason why the line does not hold, or a viscosity index above 160: mineral oils reach about 140
    /// without a thickener (from memory), so that such an oil may be thickened with polymers, which no line shows. Not
    /// told of esters and polyglycols, which reach it by themselves, nor of a fixed viscosity, which has no line.
    [[nodiscard]] std::optional<std::string> caution() const;

    /// The same of the density, where it is known.
    [[nodiscard]] std::optional<std::string> densityCaution() const;

    /// The viscosity index of the line, unrounded; none for a fixed viscosity and below 2 mm²/s at 100 °C.
    [[nodiscard]] std::optional<double> viscosityIndex() const;

private:
    using Viscosity = std::variant<units::KinematicViscosity, WaltherLine>;

    Fluid(Viscosity viscosity, std::optional<units::Density> densityAt15, FluidFamily family)
        : viscosity_{viscosity}, densityAt15_{densityAt15}, family_{family}
    {
    }

    [[nodiscard]] static Result<Viscosity> viscosityOf(const FluidProperties& properties);

    Viscosity viscosity_;
    std::optional<units::Density> densityAt15_;
    FluidFamily family_;
};

} // namespace loopside::oil
