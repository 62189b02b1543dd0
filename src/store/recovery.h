// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A start that nothing stops. The journal is looked at before it is used; a torn last write is dropped and counted;
// anything else is damage: the file is kept under another name, a new one is made of every entry that can still be read
// in it and in the backups, and what is missing is told.

#pragma once

#include "store/sqlite_journal.h"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace loopside::store {

/// How much of a journal a start looks at, so that it takes a bounded time.
struct StartLimits
{
    std::size_t hashes = 50'000;    ///< Youngest entries whose bytes and links are checked.
    std::size_t signatures = 2'000; ///< Entries whose signatures are checked: at each start the next ones.
    std::uint64_t structureMaxBytes = 32'000'000; ///< A larger file's structure is to be looked at behind the start.
};

/// What was done about a damaged journal.
struct Recovered
{
    std::string why;
    std::string keptAs;                    ///< The damaged file; empty where there was none.
    std::size_t entries = 0;               ///< In the new journal.
    std::size_t fromBackups = 0;           ///< Of them such as could not be read in the damaged file.
    std::vector<std::string> backups = {}; ///< The ones that they came from.
    std::vector<ledger::Loss> losses = {}; ///< Gaps that stay.
    std::uint64_t endMissing = 0;          ///< Entries behind the last one, as far as the journal's witness knew them.

    [[nodiscard]] std::uint64_t missing() const;
};

struct Opened
{
    std::unique_ptr<SqliteJournal> journal;
    std::int64_t tornWrites = 0; ///< Dropped at this start: 0 or 1.
    std::optional<Recovered> recovered = {};

    /// What to tell the person; an empty id if there is nothing to tell.
    [[nodiscard]] Message notice() const;
};

/// A journal that is looked at, beside whoever works with it.
struct Seen
{
    std::unique_ptr<SqliteJournal> journal;
    std::string damage = {}; ///< What shows that it is not all; empty: nothing does. The next start deals with it.
    bool isTorn = false;     ///< A last write is torn, which the next start drops and counts.
};

/// Opens the journal `path` to look at it; nothing of file and log is changed (SqliteJournal::openToRead). It is held
/// against its witness and against the backups in `backups` (empty: none), and its log is looked at unless somebody
/// works with it.
[[nodiscard]] Result<Seen> openToLook(const std::string& path, const std::string& backups = {});

/// The same for one who cannot do with a part: Corrupt where anything shows that it is not all.
[[nodiscard]] Result<std::unique_ptr<SqliteJournal>> openWhole(const std::string& path,
                                                               const std::string& backups = {});

/// Opens the journal `path`, or makes it; recovers it from damage with the backups in `backups` (empty: there are
/// none). Nobody else may have it open: take the InstanceLock first.
///
/// Corrupt, with the file left as it is, where not one entry can be read of it or of a backup. Otherwise the errors of
/// `SqliteJournal::open` that are no damage.
[[nodiscard]] Result<Opened> openOrRecover(const std::string& path, const std::string& backups, std::int64_t wallMs,
                                           const StartLimits& limits = {});

/// Makes the journal `path` anew from everything that can be read in it, in the files that it was kept as before, and
/// in `sources`, for the reason `why`. The file there is kept under another name. Corrupt if not one entry was found;
/// on any failure the file is left or put back as it was.
[[nodiscard]] Result<Recovered> recover(const std::string& path, const std::vector<std::string>& sources,
                                        std::int64_t wallMs, const std::string& why);

/// What the checks of a start find in `journal`; moves on to the next piece for the next start.
[[nodiscard]] Result<std::vector<std::string>> checkPiece(SqliteJournal& journal, const StartLimits& limits);

/// How many torn last writes were dropped from `journal` over its life.
[[nodiscard]] Result<std::int64_t> tornWritesOf(const SqliteJournal& journal);

/// Everything that restores have told to be missing in `journal`.
[[nodiscard]] Result<std::vector<ledger::Loss>> lossesOf(const SqliteJournal& journal);

} // namespace loopside::store
