// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/standing.h"

namespace loopside::run {

/// Whether `set` is questioned, or the oil may not have gone through the filters. `standing` is that of its run.
[[nodiscard]] bool isInDoubt(const Standing& standing, const Fact& set);

/// The same where it is known what the diagnosis says of that set; null where it says nothing.
[[nodiscard]] bool isInDoubt(const Standing& standing, const Fact& set, const JudgedSet* judged);

} // namespace loopside::run
