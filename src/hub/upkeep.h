// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Backup, restore and check of what a hub holds, alike for both databases. A backup is one file of lines: a title, a
// line for each device, account, line of the audit, entry, aside and file, and at the end the SHA-256 of all that
// stands before it.

#pragma once

#include "hub/device_register.h"
#include "hub/sql_hub.h"

#include <iosfwd>
#include <string>
#include <vector>

namespace loopside::hub {

struct Counted
{
    std::size_t devices = 0;
    std::size_t chains = 0;
    std::size_t entries = 0;
    std::size_t asides = 0;
    std::size_t accounts = 0; ///< Of people, in a backup.
    std::size_t files = 0;    ///< Of attachments.

    friend bool operator==(const Counted&, const Counted&) = default;
};

/// Writes what the hub of `site` holds at this moment to `out`. The key and the certificate are not in it, nor are
/// passwords: their hashes are.
[[nodiscard]] Result<Counted> writeBackup(Sql& sql, const SiteRecord& site, std::ostream& out);

/// Puts the backup in `text` into `sql`, laid out, which must not hold its site. The site goes on with a new record, so
/// that tablets hand over what came after the backup; nobody is signed in to it. Each entry is looked at as if a tablet
/// handed it over. Corrupt for a file that was cut or altered, Incompatible for one of a newer version, Conflict if the
/// site is there; nothing is stored then.
[[nodiscard]] Result<Counted> restoreBackup(Sql& sql, std::string_view text, std::int64_t nowMs, RandomSource& random);

struct Verified
{
    Counted counted;
    std::vector<std::string> faults = {}; ///< Sentences; empty: all is as it was written.
};

/// Looks at every entry: its hash, its signature by the key of its device, what it goes on from, and whether each chain
/// ends where the hub says and has no gaps but those that were told as lost. And at every file: whether it is the one
/// that its entry names.
[[nodiscard]] Result<Verified> verify(Sql& sql, const SiteRecord& site);

} // namespace loopside::hub
