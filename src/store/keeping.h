// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// What a person asks of a journal as a whole, by a command or by a key: to put it together anew out of everything that
// can be read, and to carry its attachments along.

#pragma once

#include "store/aside_file.h"
#include "store/attachment_folder.h"
#include "store/recovery.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace loopside::store {

/// Where a restore may take entries and attachments from, beside the journal itself.
struct RestoreSources
{
    std::vector<std::string> journals = {};
    std::string backups = {}; ///< A folder of backups; empty: none.
};

struct RestoredByHand
{
    Recovered recovered;
    Result<std::size_t> attachments; ///< How many came back. The entries stand where they belong even if this failed.
};

/// Makes the journal `path` anew as `recover` does, and brings back its attachments. Nobody else may have it open.
/// On failure the file is as it was.
[[nodiscard]] Result<RestoredByHand> restoreByHand(const std::string& path, const RestoreSources& sources,
                                                   std::int64_t wallMs);

/// Makes the journal `path`, which must not be there, out of what `give` gives, in the order of positions, with a
/// witness of its own: one that an earlier journal left there goes once all was given. Nobody else works there.
/// Otherwise as `SqliteJournal::make`.
[[nodiscard]] Done makeImported(const std::string& path, const GiveEntries& give);

/// What stands beside a journal, in a folder of backups or beside an export.
struct Beside
{
    AttachmentFolder attachments;
    AsideFile aside;

    /// That of the journal or the export `path`.
    [[nodiscard]] static Beside file(const std::string& path);
    [[nodiscard]] static Beside inBackups(const std::string& folder);
};

/// Brings the attachments and what was kept aside from one place to another; how many attachments. Each is tried, also
/// where the other fails.
[[nodiscard]] Result<std::size_t> carryBeside(const ledger::Journal& journal, const Beside& from, Beside to);

/// Brings the attachments of one folder into another, but for those that `journal` says were withdrawn; how many. Of
/// entries that are too damaged to tell what was withdrawn, all that is there is brought: it is wanted most then.
[[nodiscard]] Result<std::size_t> carryAttachments(const ledger::Journal& journal, const AttachmentFolder& from,
                                                   AttachmentFolder to);

} // namespace loopside::store
