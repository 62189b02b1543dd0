// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include <cstdint>
#include <string>

namespace loopside::test {

struct CrashReport
{
    std::size_t cuts = 0;   ///< Power cuts tried.
    std::size_t torn = 0;   ///< Of them such that left a torn write.
    std::string firstFault; ///< What was lost, or wrong; empty: nothing.
};

/// What the power can be cut at.
enum class CutAt
{
    AnyChange, ///< Writes, truncations and syncs.
    Syncs
};

/// Appends batches, long and short, so that the log is brought into the file on the way, and lets the power be cut at
/// every `step`th call of the disk that counts. What each way of cutting it may leave is opened as the next start
/// would.
///
/// A fault is: an acknowledged entry that is not there, a part of a batch, a torn write that is taken for damage or
/// damage for a torn write. `isDiskLying` plants one: a disk that acknowledges syncs and does none.
[[nodiscard]] CrashReport crashAtEvery(std::size_t step, CutAt at, std::uint64_t seed, bool isDiskLying);

} // namespace loopside::test
