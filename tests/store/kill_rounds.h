// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstdint>
#include <optional>
#include <string>

namespace loopside::test {

/// When the recording program says that an entry is in the journal.
enum class Acknowledges
{
    AfterAppending,
    BeforeAppending, ///< The fault to be found: it says so, and is killed before it is true.
};

/// Lets another process record entries into the journal `path` and kills it at a moment that follows from `seed`; then
/// opens the journal as the next start of a tablet would.
///
/// Returns what is wrong with it: that anything had to be recovered, an acknowledged entry that is not there, a fault
/// of the chain, a body that was never written. Nothing if all is well. Adds the entries acknowledged to
/// `acknowledged`.
[[nodiscard]] std::optional<std::string> killAndReopen(const std::string& path, std::uint64_t seed, Acknowledges when,
                                                       std::uint64_t& acknowledged);

/// `rounds` of them over some files, with seeds from `firstSeed` on; checks that each finds nothing wrong.
void checkKillRounds(int rounds, int firstSeed = 1);

} // namespace loopside::test
