// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Runs that go from hand to hand, and runs that are one, in words.

#pragma once

#include "ledger/handed.h"
#include "words/words.h"

#include <functional>
#include <string>

namespace loopside::words {

/// What a person is called, by id.
using PersonName = std::function<std::string(const Id&)>;

/// "tablet 7f3a": the beginning of its id, by which a hub calls it too where nobody gave it a name.
[[nodiscard]] std::string tabletText(const Words& words, const Id& device);

/// "handed to tablet 7f3a", "taken over by its code", "one with run 7K3M9Q"; empty where `kept` says nothing of hands
/// and links.
[[nodiscard]] std::string handedLine(const Words& words, const run::Kept& kept, const PersonName& nameOf);

/// "10:12–10:40: run 7K3M9Q says filtering, run 0AB3CD says not …", by a wall clock `offsetMin` ahead of UTC. The runs
/// are told with who opened them.
[[nodiscard]] std::string disagreementLine(const Words& words, const run::Disagreement& disagreement,
                                           const run::State& state, const PersonName& nameOf, int offsetMin);

} // namespace loopside::words
