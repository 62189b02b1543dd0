// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "ledger/read_all.h"

#include <string>

namespace loopside::cli {

/// The run or job, among the entries that `read` gives, that `typed` names: an id, or the six signs that it shows.
/// NotFound, telling those that are there, or Conflict where several show these signs.
[[nodiscard]] Result<Id> runNamed(const ledger::EntryReader& read, const std::string& typed);

} // namespace loopside::cli
