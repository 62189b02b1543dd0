// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The check of a whole journal: structure of the file, every hash, link and signature, what a tablet would show against
// everything that the entries say, and the attachments beside it. The command `verify` and the tablet's own check are
// this one. A start looks at less (recovery.h).

#pragma once

#include "ledger/verify.h"
#include "store/attachment_folder.h"
#include "store/sqlite_journal.h"

#include <atomic>
#include <cstdint>
#include <string>
#include <vector>

namespace loopside::store {

/// What is wrong with a journal, and what became of it and of the files beside it.
struct Verified
{
    std::uint64_t entries = 0;
    std::vector<ledger::Fault> faults; ///< Position 0: of no single entry.
    std::vector<Restore> restores;
    std::int64_t torn = 0; ///< Torn last writes that were dropped.
    bool isTorn = false;   ///< One more stands there, which the next start drops and counts.
    AttachmentsChecked attachments;
};

/// How far a check has come, for another thread; which may also end it.
struct CheckWatch
{
    std::atomic<std::uint64_t> looked = 0; ///< Entries whose hash, link and signature were looked at.
    std::atomic<std::uint64_t> entries = 0;
    std::atomic<bool> isToEnd = false;
};

/// Checks the journal `path`, which must be there and may be in use: what comes meanwhile is left for the next time.
/// File and log stay as they are. It is held against its witness and, where it is a tablet's by its name, against the
/// backups in the folder beside it; its log is looked at unless somebody works with it. Takes some seconds for 100 000
/// entries; what it holds in memory goes with the runs, not with their readings.
///
/// NotFound if nothing is there, Unavailable if `watch` ended it, and the errors of `SqliteJournal::openToRead`:
/// Corrupt where the structure of the file is not whole, or its layout is not that of a journal.
[[nodiscard]] Result<Verified> verifyWhole(const std::string& path, CheckWatch& watch);
[[nodiscard]] Result<Verified> verifyWhole(const std::string& path);

} // namespace loopside::store
