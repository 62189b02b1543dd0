// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/pattern.h"

#include <vector>

namespace loopside::run {

/// The values that the sentences of a finding may have in them, those that are known: pressures in the unit of the
/// gauges as they were read, the rest as people of the trade say it.
///
/// Of a stage: stage, elements, upper, lower (gauge numbers), drop, drop-before, drop-base, expected (clean, now),
/// loading, times (since its base), limit, setting, cold, coldest. Of the loop: head, head-before, head-base, filters,
/// filters-before, first, first-before, oil, oil-base, relief, room, flow, lost, thick, viscosity, grade, behaves-at.
/// Of a gauge: gauge, shown, sets, off, zero.
[[nodiscard]] std::vector<Message::Argument> findingValues(const Evidence& evidence, const Pattern& pattern,
                                                           std::size_t place);

} // namespace loopside::run
