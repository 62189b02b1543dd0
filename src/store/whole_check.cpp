// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/whole_check.h"

#include "ledger/fold_check.h"
#include "store/durable_file.h"
#include "store/recovery.h"

#include <utility>

namespace loopside::store {

namespace {

Result<std::unique_ptr<SqliteJournal>> openedStill(const std::string& path)
{
    const Result<bool> there = isThere(path);
    if (!there || !*there) {
        return there ? fail(Errc::NotFound, path + " is not there") : fail(there.error());
    }
    auto journal = SqliteJournal::open(path);
    const Done still = journal ? (*journal)->holdStill() : fail(journal.error());
    return still ? std::move(journal) : fail(still.error());
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
    return Verified{*last, {}, *std::move(restores), *torn, {}};
}

Error ended()
{
    return {Errc::Unavailable, "the check was ended before it was through"};
}

/// An attachment may have been withdrawn between the look at the entries and the one at the files; then the journal has
/// grown, and the next look knows of it.
Result<AttachmentsChecked> attachmentsOf(const std::string& path, const CheckWatch& watch)
{
    AttachmentsChecked checked;
    std::uint64_t before = 0;
    while (!watch.isToEnd) {
        const auto journal = openedStill(path);
        const auto last = journal ? (*journal)->last() : fail(journal.error());
        if (!last || *last == before) {
            return last ? Result<AttachmentsChecked>(std::move(checked)) : fail(last.error());
        }
        const auto folded = ledger::foldedOf(**journal);
        if (!folded) {
            return AttachmentsChecked{}; // that it cannot be folded is told already
        }
        checked = checkAttachments(*folded, AttachmentFolder::besideJournal(path));
        if (checked.faults.empty()) {
            return checked;
        }
        before = *last;
    }
    return fail(ended());
}

} // namespace

Result<Verified> verifyWhole(const std::string& path, CheckWatch& watch)
{
    const auto journal = openedStill(path);
    auto found = journal ? beginning(**journal) : fail(journal.error());
    const auto losses = found ? lossesOf(**journal) : fail(found.error());
    if (!losses) {
        return fail(losses.error());
    }
    watch.entries = found->entries;
    found->faults = ledger::verifyAll(**journal, *losses, [&](ledger::Position position) {
        watch.looked = position;
        return !watch.isToEnd;
    });
    if (watch.isToEnd) {
        return fail(ended());
    }
    for (std::string& difference : ledger::foldFaults(**journal, ledger::foldedOf(**journal))) {
        found->faults.push_back({0, std::move(difference)});
    }
    auto attachments = attachmentsOf(path, watch);
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

Done checkStructureOf(const std::string& path)
{
    auto journal = SqliteJournal::open(path, {.structureMaxBytes = 0});
    if (!journal) {
        return fail(journal.error());
    }
    (*journal)->leaveAsItIs();
    return (*journal)->checkStructure();
}

} // namespace loopside::store
