// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/catalogue.h"
#include "run/event.h"

#include <vector>

namespace loopside::run {

/// What of a result is unlike what oil of a machine shows, each as a question: a slip of the pen, another bottle or
/// another unit are more likely. Nothing is refused for it.
///
/// A scale number above 24, water above half a percent, a viscosity a fifth off that of `fluid` at 40 °C, an acid
/// number above 5 mg KOH/g. Source: common practice, where a fifth and such acid numbers condemn an oil.
[[nodiscard]] std::vector<Message> oddIn(const ResultEntered& result, const FluidRecord& fluid);

} // namespace loopside::run
