// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#pragma once

#include "hub/sql_hub.h"
#include "sync/files.h"

#include <optional>
#include <string>

namespace loopside::hub {

/// The files of attachments that a site hub keeps, each by the entry that names it. What was withdrawn is gone for
/// good, also where it was never here.
class SqlFiles
{
public:
    /// `sql`, laid out, outlives it. Keeps to the rows of `site`.
    SqlFiles(Sql& sql, const Id& site) : sql_{&sql}, site_{site}, store_{sql, site} {}

    /// Of `offered` those that an entry here names and that are neither here nor withdrawn.
    [[nodiscard]] Result<sync::FileList> wanted(const sync::FileList& offered) const;

    /// Keeps `file` once that would survive a power cut; one that is here, or withdrawn, is left as it is. NotFound if
    /// there is no entry at `place`, and the errors of `sync::mayKeep`.
    [[nodiscard]] Done keep(const sync::FilePlace& place, std::string_view file);

    /// The file that the entry `entry` names, salt and content; nothing if it is not here.
    [[nodiscard]] Result<std::optional<std::string>> of(const Id& entry) const;

    /// Whether the file that the entry `entry` names is here.
    [[nodiscard]] Result<bool> has(const Id& entry) const;

    /// Keeps `file` as the one that the entry `entry` names, which was looked at; leaves one that is here, or was
    /// withdrawn, as it is.
    [[nodiscard]] Done add(const Id& entry, std::string_view file);

    /// Removes the file that the entry `entry` names, for good.
    [[nodiscard]] Done withdraw(const Id& entry);

    /// Calls `look` with each file and the entry that names it, until one is refused.
    template<class Look>
    [[nodiscard]] Done each(Look look) const
    {
        const auto entries = entriesNamed();
        for (const Id& entry : entries ? *entries : std::vector<Id>()) {
            const auto file = of(entry);
            const Done looked = !file ? fail(file.error()) : *file ? look(entry, **file) : Done();
            if (!looked) {
                return looked;
            }
        }
        return entries ? Done{} : fail(entries.error());
    }

private:
    [[nodiscard]] Result<bool> isSettled(const Id& entry) const;
    [[nodiscard]] Result<std::vector<Id>> entriesNamed() const;

    Sql* sql_;
    Id site_;
    SqlHub store_;
};

} // namespace loopside::hub
