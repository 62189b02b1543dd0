// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "base/result.h"
#include "units/temperature.h"

#include <string_view>

namespace loopside::oil {

/// Whether `at` is from −40 to 150 °C, where this module answers; OutOfRange naming `what` otherwise.
///
/// Our choice, not a standard's: the standards bound a line by the cloud point and the boiling point of the oil, which
/// nobody at a cart knows. Published grids go from −20 to 100 °C; the margin takes in winter starts and hot reservoirs.
/// A typing slip such as 400 °C falls outside. Near −40 °C the model is weak: see walther.h.
[[nodiscard]] Done checkWorkingRange(units::Temperature at, std::string_view what);

} // namespace loopside::oil
