// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Where a clean ΔP was measured, while it is told part by part.

#pragma once

#include "run/catalogue.h"

#include <optional>

namespace loopside::site {

struct CleanAtParts
{
    std::optional<run::TypedFlow> flow = {};
    std::optional<run::TypedViscosity> viscosity = {};
    std::optional<run::TypedDensity> density = {};

    [[nodiscard]] static CleanAtParts of(const std::optional<run::CleanAt>& known)
    {
        if (!known) {
            return {};
        }
        const auto told = [](const auto& typed) {
            return typed.number() == Decimal(0, 0) ? std::nullopt : std::optional(typed);
        };
        return {told(known->flow), told(known->viscosity), known->density};
    }

    /// Nothing if no part is told. A flow or a viscosity that is not told stands as 0, which `run::faultIn` refuses:
    /// the one says nothing without the other.
    [[nodiscard]] std::optional<run::CleanAt> whole() const
    {
        if (!flow && !viscosity && !density) {
            return std::nullopt;
        }
        return run::CleanAt{flow.value_or(run::TypedFlow(Decimal(0, 0), **units::unitNamed<units::Flow>("L/min"))),
                            viscosity.value_or(run::TypedViscosity(
                                Decimal(0, 0), **units::unitNamed<units::KinematicViscosity>("cSt"))),
                            density};
    }
};

} // namespace loopside::site
