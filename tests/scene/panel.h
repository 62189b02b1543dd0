// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The panel that sizes are meant for: 10.1 inch, 16:10, so 217.5 mm × 136.0 mm (computed: 10.1 × 25.4 mm over the
// diagonal). A picture of 1280×800 has 5.88 pixels for a millimetre there.

#pragma once

#include <QSizeF>

#include <cmath>

namespace loopside::scene {

inline constexpr double panelDiagonalMm = 10.1 * 25.4;

/// Pixels of a window for a millimetre of the panel that it fills, lengthwise or upright.
[[nodiscard]] inline double pixelsPerMm(const QSizeF& window)
{
    return std::hypot(window.width(), window.height()) / panelDiagonalMm;
}

/// The least size of a target for a gloved finger, in both directions. Common practice for gloves, no source.
inline constexpr double targetMmMin = 12.0;
/// Of the keys that are touched most: the main key, digits, modes.
inline constexpr double primaryMmMin = 20.0;
/// Between two targets.
inline constexpr double gapMmMin = 2.0;
/// What rounding to whole pixels may take.
inline constexpr double roundingMm = 0.1;

} // namespace loopside::scene
