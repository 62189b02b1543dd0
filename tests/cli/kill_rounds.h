// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace loopside::test {

/// A story of so many readings; on G1 of each stands a number that no other has.
[[nodiscard]] std::string storyOf(int readings);

/// G1 of each reading that whole lines of `replay --json` acknowledge.
[[nodiscard]] std::vector<int> acknowledged(const std::string& output);

/// Starts on the journal `path` as a tablet would and says what is wrong with it: that anything had to be recovered, a
/// reading of `acknowledged` that is not there or is another, more than one that was not acknowledged, a fault that
/// `verify` finds. Nothing if all is well; `kept` is then how many readings are there.
[[nodiscard]] std::optional<std::string> wrongWith(const std::string& path, const std::vector<int>& acknowledged,
                                                   std::size_t& kept);

/// Kills the replay of so many readings into a journal at a moment that follows from a seed, and holds `wrongWith`
/// against what it printed: with `rounds` seeds from `firstSeed` on.
void checkProgramKills(int rounds, int readings, int firstSeed = 1);

} // namespace loopside::test
