// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// A start that nothing stops. The journal is looked at before it is used; a torn last write is dropped and counted;
// anything else is damage: the file is kept under another name, a new one is made of every entry that can still be read
// in it and in the backups, and what is missing is told.

#pragma once

#include "store/sqlite_journal.h"

#include <cstddef>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <vector>

namespace loopside::store {

/// How much is looked at of a journal.
struct StartLimits
{
    std::size_t hashes = 2'000;                  ///< Youngest entries whose bytes and links are checked.
    std::size_t signatures = 200;                ///< Entries whose signatures are checked: at each start the next ones.
    std::uint64_t structureMaxBytes = 4'000'000; ///< A larger file's structure is left for behind the start.
};

/// What is looked at behind the start, beside the work that goes on; and by the start where the last look found damage.
inline constexpr StartLimits behindStart{50'000, 2'000, std::numeric_limits<std::uint64_t>::max()};

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

/// What a look at a part of a journal found.
struct PieceChecked
{
    std::vector<std::string> faults; ///< A sentence each.
    std::int64_t signaturesUpTo = 0; ///< The entry up to which signatures were checked.
};

/// Looks at the youngest hashes of `journal` and at the next piece of signatures.
[[nodiscard]] Result<PieceChecked> checkPiece(const SqliteJournal& journal, const StartLimits& limits);

/// Looks at what the start left out of the journal `path`, which may be in use, with a connection of its own: more of
/// its entries, and unless `isStructureSeen` the structure of its file.
[[nodiscard]] Result<PieceChecked> checkBehindStart(const std::string& path, bool isStructureSeen);

/// Keeps in `journal` how far it was looked at, so that the next look goes on there; or that it has damage, so that the
/// next start looks as far as that and recovers it.
[[nodiscard]] Done noteChecked(SqliteJournal& journal, const PieceChecked& checked);

/// How many torn last writes were dropped from `journal` over its life.
[[nodiscard]] Result<std::int64_t> tornWritesOf(const SqliteJournal& journal);

/// Everything that restores have told to be missing in `journal`.
[[nodiscard]] Result<std::vector<ledger::Loss>> lossesOf(const SqliteJournal& journal);

} // namespace loopside::store
