// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "hub/sql_files.h"

#include "hub/entry_row.h"

namespace loopside::hub {

using sync::FileList;
using sync::FilePlace;

/// Whether it is known of the file of `entry` that it is here or was withdrawn.
Result<bool> SqlFiles::isSettled(const Id& entry) const
{
    return sql_
        ->run("SELECT entry_id FROM files WHERE site_id = $1 AND entry_id = $2", {valueOf(site_), valueOf(entry)})
        .transform([](const std::vector<SqlRow>& rows) { return !rows.empty(); });
}

Result<FileList> SqlFiles::wanted(const FileList& offered) const
{
    FileList wanted;
    for (const FilePlace& place : offered) {
        const auto held = store_.at(place.chain, place.sequence);
        if (!held) {
            return fail(held.error());
        }
        if (!*held || !sync::fileNamedBy((*held)->entry)) {
            continue;
        }
        const auto settled = isSettled((*held)->entry.header.id);
        if (!settled) {
            return fail(settled.error());
        }
        if (!*settled) {
            wanted.push_back(place);
        }
    }
    return wanted;
}

Done SqlFiles::keep(const FilePlace& place, std::string_view file)
{
    const auto held = store_.at(place.chain, place.sequence);
    if (!held || !*held) {
        return held ? fail(Errc::NotFound, "the entry that names the file is not here: hand it over first")
                    : fail(held.error());
    }
    const ledger::Entry& entry = (*held)->entry;
    if (Done may = sync::mayKeep(entry, file); !may) {
        return may;
    }
    return add(entry.header.id, file);
}

Done SqlFiles::add(const Id& entry, std::string_view file)
{
    const auto added = sql_->run("INSERT INTO files (site_id, entry_id, bytes) VALUES ($1, $2, $3) "
                                 "ON CONFLICT (site_id, entry_id) DO NOTHING",
                                 {valueOf(site_), valueOf(entry), file});
    return added ? Done{} : fail(added.error());
}

Done SqlFiles::withdraw(const Id& entry)
{
    const auto gone = sql_->run("INSERT INTO files (site_id, entry_id, bytes) VALUES ($1, $2, $3) "
                                "ON CONFLICT (site_id, entry_id) DO UPDATE SET bytes = excluded.bytes",
                                {valueOf(site_), valueOf(entry), std::string_view()});
    return gone ? Done{} : fail(gone.error());
}

Result<bool> SqlFiles::has(const Id& entry) const
{
    return sql_
        ->run("SELECT entry_id FROM files WHERE site_id = $1 AND entry_id = $2 AND length(bytes) > 0",
              {valueOf(site_), valueOf(entry)})
        .transform([](const std::vector<SqlRow>& rows) { return !rows.empty(); });
}

Result<std::optional<std::string>> SqlFiles::of(const Id& entry) const
{
    return sql_->run("SELECT bytes FROM files WHERE site_id = $1 AND entry_id = $2", {valueOf(site_), valueOf(entry)})
        .transform([](const std::vector<SqlRow>& rows) {
            return rows.empty() || rows.front().bytes(0).empty() ? std::nullopt : std::optional(rows.front().bytes(0));
        });
}

Result<std::vector<Id>> SqlFiles::entriesNamed() const
{
    return rowsAs(sql_->run("SELECT entry_id FROM files WHERE site_id = $1 ORDER BY entry_id", {valueOf(site_)}),
                  [](const SqlRow& row) -> Result<Id> {
                      Id entry;
                      const Done taken = take(row.bytes(0), entry.bytes);
                      return taken ? Result<Id>(entry) : fail(taken.error());
                  });
}

} // namespace loopside::hub
