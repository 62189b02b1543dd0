// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The tables as text.

#pragma once

#include "protocols.h"

#include <string>

namespace loopside::evaluation {

/// Median errors by method, the mean CRPS, and how many answers called themselves early.
void printErrors(const std::string& title, const Table& table);

/// How often the middle 50, 80 and 90 % held the truth, over all and by group, groups of fewer than `groupRunsMin` runs
/// together. A mark stands where a share is outside the 95 % binomial band of so many different runs.
void printCoverage(const Table& table);

} // namespace loopside::evaluation
