// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/keeping.h"

#include "ledger/at_hand.h"
#include "store/backup.h"
#include "store/durable_file.h"
#include "store/end_witness.h"

#include <algorithm>
#include <iterator>
#include <set>
#include <utility>

namespace loopside::store {

namespace {

/// The journals that were named, and the backups.
Result<std::vector<std::string>> journalsOf(const RestoreSources& sources)
{
    const auto backups = sources.backups.empty() ? Result<std::vector<Backup>>(std::vector<Backup>())
                                                 : backupsIn(sources.backups);
    if (!backups) {
        return fail(backups.error());
    }
    std::vector<std::string> journals = sources.journals;
    for (const Backup& backup : *backups) {
        journals.push_back(backup.path);
    }
    return journals;
}

/// What stands beside backups and other journals and not beside this one; how many attachments.
Result<std::size_t> bringBack(const std::string& path, const RestoreSources& sources)
{
    const auto journal = SqliteJournal::open(path);
    if (!journal) {
        return fail(journal.error());
    }
    std::vector<Beside> places;
    if (!sources.backups.empty()) {
        places.push_back(Beside::inBackups(sources.backups));
    }
    std::ranges::transform(sources.journals, std::back_inserter(places), Beside::file);
    std::size_t all = 0;
    for (const Beside& place : places) {
        const auto carried = carryBeside(**journal, place, Beside::file(path));
        if (!carried) {
            return carried;
        }
        all += *carried;
    }
    return all;
}

} // namespace

Result<RestoredByHand> restoreByHand(const std::string& path, const RestoreSources& sources, std::int64_t wallMs)
{
    const auto journals = journalsOf(sources);
    auto recovered = journals ? recover(path, *journals, wallMs, "restored by a person") : fail(journals.error());
    if (!recovered) {
        return fail(recovered.error());
    }
    return RestoredByHand{*std::move(recovered), bringBack(path, sources)};
}

Done makeImported(const std::string& path, const GiveEntries& give)
{
    const Result<bool> there = isThere(path);
    if (!there || *there) {
        return fail(there ? Error{Errc::Conflict, path + " is there already"} : there.error());
    }
    JournalEnd end;
    const Done made = SqliteJournal::make(path, [&](const PutEntry& put) {
        auto restore = give([&](const ledger::Stored& stored) {
            end = {stored.position, stored.entry.hash};
            return put(stored);
        });
        if (restore) {
            forgetEnd(path);
        }
        return restore;
    });
    if (made && end.position > 0) {
        EndWitness(path).write(end);
    }
    return made;
}

Beside Beside::file(const std::string& path)
{
    return {AttachmentFolder::besideJournal(path), AsideFile(path)};
}

Beside Beside::inBackups(const std::string& folder)
{
    return {AttachmentFolder::inBackups(folder), AsideFile::inBackups(folder)};
}

Result<std::size_t> carryBeside(const ledger::Journal& journal, const Beside& from, Beside to)
{
    const auto aside = to.aside.takeFrom(from.aside);
    auto attachments = carryAttachments(journal, from.attachments, std::move(to.attachments));
    return !attachments || aside ? attachments : fail(aside.error());
}

Result<std::size_t> carryAttachments(const ledger::Journal& journal, const AttachmentFolder& from, AttachmentFolder to)
{
    const auto atHand = ledger::foldAtHand(journal); // what was withdrawn is lasting
    return to.takeFrom(from, atHand ? withdrawnIn(atHand->folded.state) : std::set<std::string>());
}

} // namespace loopside::store
