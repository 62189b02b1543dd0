// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/tablet.h"

namespace loopside::app {

/// What tells a run from the others that are open: the name of its tank; where another is open there, its cart's before
/// it, or its code where the cart is the same.
[[nodiscard]] QString runName(const Tablet& tablet, const run::RunState& run);

} // namespace loopside::app
