// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "fault.h"
#include "shown.h"

namespace loopside::scene {

/// The least size of letters, in pixels of a 1280×800 window: 2.5 mm, at arm's length. From the project's look.
inline constexpr double letterPxMin = 15.0;

/// Words that are cut, paint outside of their box, ground or window, or stand on other words or on a target that they
/// are no part of.
[[nodiscard]] Faults clippingFaults(const Shown& shown, const QSize& window);

} // namespace loopside::scene
