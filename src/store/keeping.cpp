// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/keeping.h"

#include "ledger/fold_check.h"
#include "store/backup.h"

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

/// The attachments that backups and other journals have and this one has not; how many.
Result<std::size_t> bringBack(const std::string& path, const RestoreSources& sources)
{
    const auto journal = SqliteJournal::open(path);
    if (!journal) {
        return fail(journal.error());
    }
    std::vector<AttachmentFolder> folders;
    if (!sources.backups.empty()) {
        folders.push_back(AttachmentFolder::inBackups(sources.backups));
    }
    for (const std::string& source : sources.journals) {
        folders.push_back(AttachmentFolder::besideJournal(source));
    }
    std::size_t all = 0;
    for (const AttachmentFolder& folder : folders) {
        const auto carried = carryAttachments(**journal, folder, AttachmentFolder::besideJournal(path));
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

Result<std::size_t> carryAttachments(const ledger::Journal& journal, const AttachmentFolder& from, AttachmentFolder to)
{
    const auto folded = ledger::foldedOf(journal);
    return to.takeFrom(from, folded ? withdrawnIn(*folded) : std::set<std::string>());
}

} // namespace loopside::store
