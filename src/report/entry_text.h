// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What an entry of a run says, in a line.

#pragma once

#include "run/state.h"
#include "words/words.h"

#include <functional>
#include <map>
#include <string>
#include <vector>

namespace loopside::report {

/// What a person is called; never empty where somebody is meant.
using NameOf = std::function<std::string(const Id& person)>;

/// By `names`, which outlives it; one that is not there by the first digits of the id.
[[nodiscard]] NameOf nameIn(const std::map<Id, std::string>& names);

/// Digits and units as typed. Empty for what the program alone needs.
[[nodiscard]] std::string entryText(const words::Words& words, const run::RunState& run, const run::Event& event,
                                    const NameOf& nameOf);

/// The facts of `run` in the order in which they were seen; several of one moment as they were entered.
[[nodiscard]] std::vector<const run::Fact*> factsBySeen(const run::RunState& run);

/// Those that are not empty, one behind the other with a dot between them.
[[nodiscard]] std::string joined(const std::vector<std::string>& parts);

} // namespace loopside::report
