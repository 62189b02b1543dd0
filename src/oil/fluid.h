// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
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
    std::vector<ViscosityPoint> points;   ///< None, or two.
    std::optional<units::KinematicViscosity> fixedViscosity;
    std::optional<units::Density> densityAt15;
};

/// An oil whose viscosity is known over temperature, and its density if that is known too.
class Fluid
{
public:
    /// The best that `properties` allow: a fixed viscosity before two points before grade and viscosity index.
    ///
    /// Conflict if a fixed viscosity and points are both given; Malformed if there are points but not two; Unavailable
    /// if nothing tells the viscosity, or a grade comes without a viscosity index; NotFound for an unknown grade that
    /// is needed; OutOfRange, with the sentence of the rule that was broken, for numbers that oil cannot have.
    [[nodiscard]] static Result<Fluid> from(const FluidProperties& properties);

    /// The viscosity. A fixed one needs no temperature; otherwise Unavailable without one, OutOfRange as of
    /// `WaltherLine::at`.
    [[nodiscard]] Result<units::KinematicViscosity> viscosityAt(std::optional<units::Temperature> temperature) const;

    /// The density; nothing if it is not known at 15 °C, no temperature is given, or that is outside `densityAt`'s
    /// validity.
    [[nodiscard]] std::optional<units::Density> densityAt(std::optional<units::Temperature> temperature) const;

private:
    using Viscosity = std::variant<units::KinematicViscosity, WaltherLine>;

    Fluid(Viscosity viscosity, std::optional<units::Density> densityAt15)
        : viscosity_{viscosity}, densityAt15_{densityAt15}
    {
    }

    [[nodiscard]] static Result<Viscosity> viscosityOf(const FluidProperties& properties);

    Viscosity viscosity_;
    std::optional<units::Density> densityAt15_;
};

} // namespace loopside::oil
