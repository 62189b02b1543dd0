// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The shape of a loading: drop ÷ limit over phase (load ÷ load at the limit), without its scale.
//
// On open bench data the curves of filters that live one to five minutes at four rates of dust fall on one shape; so a
// shape seen once says much of the next loading of that element, however long that lives.

#pragma once

#include "forecast/loading.h"

#include <array>
#include <optional>
#include <span>
#include <vector>

namespace loopside::forecast {

inline constexpr int phaseSteps = 100;

/// Drop ÷ limit at the phases 0, 0.01 … 1; never falling, 1 at the end.
using Shape = std::array<double, phaseSteps + 1>;

/// A shape and the load at which it is through.
struct ScaledShape
{
    Shape shape;
    double life;
};

/// The shape and life of a past loading against `limit`, which may be lower than the one it ran to, or up to
/// 1.3 times that: then it is carried on as it rose last. Smoothed by a local
/// straight line of the logarithm, then made never to fall. Nothing if it did not get as far as `limit`, or has fewer
/// than three points.
[[nodiscard]] std::optional<ScaledShape> shapeOf(const PastLoading& ended, units::Pressure limit);

/// Shapes of blocking laws, with and without a knee, over clean drops from 1.5 to 50 % of the limit: what is known
/// where nothing was learned. The choice is ours, from the laws in blocking_law.h and the knee seen on open data.
[[nodiscard]] std::vector<Shape> lawShapes();

/// Shapes of blocking laws for one clean drop ÷ limit, above 0 and below 1: single laws, and laws that change to
/// another at a knee. Fewer, with less between them, than `lawShapes`.
[[nodiscard]] std::vector<Shape> lawShapesFrom(double clean);

} // namespace loopside::forecast
