// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "run/state.h"
#include "sync/topic.h"

#include <set>
#include <string>

namespace loopside::handover {

/// What a tablet asks its hub for: records, what loadings teach and runs that are handed to it, always; every entry of
/// the runs that are open, of those that are one with another or may be, and of those that show one of `codes`; and of
/// tanks with an open run which this tablet goes on with what runs there were, as somebody with another tablet may have
/// written the same one down.
[[nodiscard]] std::set<sync::Topic> interestOf(const run::State& state, const Id& device,
                                               const std::set<std::string>& codes);

} // namespace loopside::handover
