// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "published/checks.h"

#include <set>
#include <string>
#include <vector>

namespace loopside::published {

/// The rows that are counted: of an outside source, and met.
[[nodiscard]] std::vector<Checks::Row> countedRows(const Checks& checks);

/// The names of the sources of the counted rows.
[[nodiscard]] std::set<std::string> countedSources(const Checks& checks);

/// The lines of CHECKS.md.
[[nodiscard]] std::vector<std::string> tableOf(const Checks& checks);

} // namespace loopside::published
