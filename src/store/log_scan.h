// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The tail rule. SQLite reads its write-ahead log up to the first frame that is not as it was written, and drops the
// rest without a word: right for a write that a power cut tore, wrong where the disk spoilt a frame in the middle and
// acknowledged commits follow. This tells the two apart, before SQLite sees the log.
//
// Every commit is synced before the next one begins. So what was never acknowledged is at most one transaction, and it
// is the last. If behind the first bad frame the log goes on into another transaction, that frame was once good.
//
// Source of the layout: "WAL-mode File Format", section 4 of SQLite's "Database File Format"; from memory, held against
// logs that SQLite wrote.

#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

namespace loopside::store {

struct LogScan
{
    std::size_t commits = 0; ///< Transactions that SQLite takes from the log.
    bool isTorn = false;     ///< Behind them stands the beginning of one more, which nobody acknowledged.
    bool isDamaged = false;  ///< Behind them stand acknowledged ones, which SQLite would drop.

    friend bool operator==(const LogScan&, const LogScan&) = default;
};

/// Whether `log` cannot be judged without its database: its header is not as it was written.
[[nodiscard]] bool isHeadless(std::string_view log);

/// Looks at the bytes of a write-ahead log beside those of its database, which only a headless one needs. No log is one
/// without bytes.
[[nodiscard]] LogScan scanLog(std::string_view log, std::string_view database);

/// Page `page` as the last commit that SQLite takes from `log` has it; empty if the log does not have it. While the log
/// is brought into the file this alone may be whole.
[[nodiscard]] std::string_view committedPage(std::string_view log, std::uint32_t page);

} // namespace loopside::store
