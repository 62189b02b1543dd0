// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/whole_check.h"

#include "ledger/at_hand.h"
#include "ledger/fold_check.h"
#include "store/backup.h"
#include "store/recovery.h"

#include <utility>

namespace loopside::store {

namespace {

Result<Seen> seenStill(const std::string& path)
{
    auto seen = openToLook(path, backupFolderOf(path));
    const Done still = seen ? seen->journal->holdStill() : fail(seen.error());
    return still ? std::move(seen) : fail(still.error());
}

/// Entries, and what became of the file.
Result<Verified> beginning(const SqliteJournal& journal)
{
    const auto last = journal.last();
    auto restores = journal.restores();
    const auto torn = tornWritesOf(journal);
    if (!last || !restores || !torn) {
        return fail(!last ? last.error() : !restores ? restores.error() : torn.error());
    }
    return Verified{*last, {}, *std::move(restores), *torn, false, {}};
}

Error ended()
{
    return {Errc::Unavailable, "the check was ended before it was through"};
}

/// An attachment may have been withdrawn between the look at the entries, of which the last was `before` and which came
/// to `state`, and the one at the files; then the journal has grown, and the next look knows of it.
Result<AttachmentsChecked> attachmentsOf(const std::string& path, const run::State& state, ledger::Position before,
                                         const CheckWatch& watch)
{
    const auto folder = AttachmentFolder::besideJournal(path);
    AttachmentsChecked checked = checkAttachments(state, folder);
    while (!checked.faults.empty()) {
        const auto journal = SqliteJournal::openToRead(path, {.structureMaxBytes = 0});
        const Done still = journal ? (*journal)->holdStill() : fail(journal.error());
        const auto last = still ? (*journal)->last() : fail(still.error());
        if (!last || *last == before || watch.isToEnd) {
            return last && watch.isToEnd ? fail(ended())
                : last                   ? Result<AttachmentsChecked>(std::move(checked))
                                         : fail(last.error());
        }
        before = *last;
        if (const auto atHand = ledger::foldAtHand(**journal)) {
            checked = checkAttachments(atHand->folded.state, folder);
        }
    }
    return checked;
}

} // namespace

Result<Verified> verifyWhole(const std::string& path, CheckWatch& watch)
{
    const auto seen = seenStill(path);
    auto found = seen ? beginning(*seen->journal) : fail(seen.error());
    const auto losses = found ? lossesOf(*seen->journal) : fail(found.error());
    if (!losses) {
        return fail(losses.error());
    }
    watch.entries = found->entries;
    found->isTorn = seen->isTorn;
    found->faults = ledger::verifyAll(*seen->journal, *losses, [&](ledger::Position position) {
        watch.looked = position;
        return !watch.isToEnd;
    });
    if (!seen->damage.empty()) {
        found->faults.insert(found->faults.begin(), {0, seen->damage});
    }
    if (watch.isToEnd) {
        return fail(ended());
    }
    const ledger::FoldChecked folded = ledger::checkFold(*seen->journal);
    for (const std::string& fault : folded.faults) {
        found->faults.push_back({0, fault});
    }
    auto attachments = folded.isWhole ? attachmentsOf(path, folded.state, found->entries, watch)
                                      : Result<AttachmentsChecked>(AttachmentsChecked{});
    if (!attachments) {
        return fail(attachments.error());
    }
    found->attachments = *std::move(attachments);
    for (const std::string& fault : found->attachments.faults) {
        found->faults.push_back({0, fault});
    }
    return found;
}

Result<Verified> verifyWhole(const std::string& path)
{
    CheckWatch nobody;
    return verifyWhole(path, nobody);
}

} // namespace loopside::store
