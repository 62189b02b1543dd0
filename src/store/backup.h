// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Backups of a journal: whole copies in a folder, each made while the journal is in use, checked before it counts, and
// named by its moment and its last position, such as journal-20260712T061500Z-000000001234.sqlite.

#pragma once

#include "store/sqlite_journal.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace loopside::store {

struct Backup
{
    std::string path;
    std::string at;            ///< As in its name, such as "20260712T061500Z".
    ledger::Position last = 0; ///< Position of the last entry in it.

    friend bool operator==(const Backup&, const Backup&) = default;
};

/// The backups in `folder`, the youngest first; none if the folder is not there. Told by their names alone.
[[nodiscard]] Result<std::vector<Backup>> backupsIn(const std::string& folder);

/// The folder of the backups of the journal `path`, where that is a tablet's by its name; else empty: a tablet has
/// `journal.sqlite` and `backups` in one folder.
[[nodiscard]] std::string backupFolderOf(const std::string& path);

/// Whether the backup `path` is of `journal` as it is since its last restore, or of a later one: what it holds,
/// `journal` should hold. Told by what stands in both, never by a clock. A backup that cannot be read is taken for one
/// as long as `journal` was never restored.
[[nodiscard]] Result<bool> isOfSameLife(const SqliteJournal& journal, const std::string& path);

/// Copies `journal` into `folder`, which is made if it is not there, and checks the copy: its structure, and that it
/// holds what the journal held, hash for hash; of the last `signaturesMax` entries the signatures too. Then removes
/// the backups that `kept` leaves out. Where the wall clock is behind the youngest backup, the second after that one is
/// taken for its name.
///
/// Nothing if no entry came since the youngest one, and no restore. On failure all older backups stay and no new one
/// counts. Corrupt if the copy is not sound, which says that the journal is not. May run beside a program that appends.
[[nodiscard]] Result<std::optional<Backup>> backUp(const SqliteJournal& journal, const std::string& folder,
                                                   std::int64_t wallMs);

/// Those of `backups`, youngest first, that stay: the eight youngest, the last one of each of the seven youngest days
/// that have any, and the one with the most entries.
[[nodiscard]] std::vector<Backup> kept(const std::vector<Backup>& backups);

/// What a backup's check may cost at most.
inline constexpr std::size_t signaturesMax = 5000;

} // namespace loopside::store
