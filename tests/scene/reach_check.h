// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "fault.h"
#include "shown.h"

namespace loopside::scene {

/// Targets and words that a screen reader does not know: without a name or a role, or nowhere told.
[[nodiscard]] Faults namingFaults(const Shown& shown);

/// Targets that Tab does not come to, that take no Enter or Space when it is there, or that do not look different then;
/// and what Tab comes to under a sheet. Sends real keys to the window and leaves the focus where it was.
[[nodiscard]] Faults keyboardFaults(QQuickWindow& window, const Shown& shown);

} // namespace loopside::scene
