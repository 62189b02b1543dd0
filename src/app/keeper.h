// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "app/backup_timer.h"
#include "app/record_check.h"
#include "app/record_out.h"
#include "store/sqlite_journal.h"

#include <cstdint>
#include <string>

namespace loopside::app {

/// What keeps the tablet's record: its backups and its check; and what writes the records of runs for others. Outlives
/// the views, which are made anew with a language.
struct Keeper
{
    /// Of the journal `path`, open as `opened`, with backups in the folder `backupFolder` and records of runs in
    /// `recordFolder`. Tablet and journal outlive it.
    Keeper(Tablet& tablet, const store::SqliteJournal& opened, const std::string& path, const std::string& backupFolder,
           const std::string& recordFolder)
        : journal{opened},
          folder{backupFolder},
          backups{tablet, path, backupFolder},
          check{tablet, path},
          records{tablet, path, recordFolder}
    {
    }

    [[nodiscard]] bool isBusy() const { return backups.isBusy() || check.isBusy() || records.isBusy(); }

    const store::SqliteJournal& journal;
    std::string folder;
    BackupTimer backups;
    RecordCheck check;
    RecordOut records;
};

/// Puts the journal `path` together anew from what can be read in it and in the backups of `backupFolder`, and says
/// what became of it, with a reason in the language of `words`. Nobody has it open.
[[nodiscard]] Message restoreRecord(const words::Words& words, const std::string& path, const std::string& backupFolder,
                                    std::int64_t wallMs);

} // namespace loopside::app
