// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "store/attachment_folder.h"

#include "base/text.h"
#include "ledger/digest.h"
#include "run/notes.h"

#include <algorithm>

namespace loopside::store {

namespace {

constexpr std::size_t fileBytesMax = static_cast<std::size_t>(run::attachmentBytesMax) + std::tuple_size_v<Salt>;
constexpr std::string_view unfinished = ".new";

std::string nameOf(std::string_view bytes)
{
    return toHex(ledger::sha256(bytes));
}

/// A name that a journal states may be any text: only what names a file in the folder is looked for on the disk.
Done mustBeName(const std::string& hash)
{
    return run::isAttachmentHash(hash)
        ? Done()
        : fail(Errc::Malformed, "\"" + quotable(hash) + "\" is no name of an attachment");
}

} // namespace

AttachmentFolder::AttachmentFolder(std::string path, Disk& disk) : path_{std::move(path)}, disk_{&disk} {}

AttachmentFolder AttachmentFolder::besideJournal(const std::string& path, Disk& disk)
{
    return AttachmentFolder(path + ".attachments", disk);
}

AttachmentFolder AttachmentFolder::inBackups(const std::string& folder, Disk& disk)
{
    return AttachmentFolder(folder + "/attachments", disk);
}

Result<std::string> AttachmentFolder::keep(std::string_view content, const Salt& salt)
{
    const auto most = static_cast<std::size_t>(run::attachmentBytesMax);
    if (content.empty() || content.size() > most) {
        const std::string kilobytes = std::to_string(most / 1000) + " kB";
        return fail(Errc::OutOfRange,
                    "an attachment has 1 byte to " + kilobytes + ", not " + std::to_string(content.size()) + " bytes",
                    {"refused.attachment-bytes", {{"most", kilobytes}}});
    }
    std::string bytes(salt.begin(), salt.end());
    bytes += content;
    const std::string hash = nameOf(bytes);
    return place(hash, bytes).transform([&] { return hash; });
}

/// The file is whole and synced before it has its name, and the name is synced before anybody is told of it.
Done AttachmentFolder::place(const std::string& hash, std::string_view bytes)
{
    const std::string last = fileOf(hash);
    const std::string first = last + std::string(unfinished);
    const auto slash = path_.find_last_of('/');
    Done done = disk_->makeFolder(path_)
                    .and_then(
                        [&] { return disk_->syncFolder(slash == std::string::npos ? "." : path_.substr(0, slash)); })
                    .and_then([&] { return disk_->write(first, bytes); })
                    .and_then([&] { return disk_->sync(first); })
                    .and_then([&] { return disk_->rename(first, last); })
                    .and_then([&] { return disk_->syncFolder(path_); });
    if (!done) {
        static_cast<void>(disk_->remove(first));
        static_cast<void>(disk_->remove(last)); // nobody was told of it, or what was there was altered
    }
    return done;
}

Result<std::string> AttachmentFolder::file(const std::string& hash) const
{
    auto bytes = mustBeName(hash).and_then([&] { return disk_->read(fileOf(hash), fileBytesMax); });
    if (bytes && (bytes->size() <= std::tuple_size_v<Salt> || nameOf(*bytes) != hash)) {
        return fail(Errc::Corrupt, "the attachment " + hash + " was altered since it was kept");
    }
    return bytes;
}

Done AttachmentFolder::keepFile(const std::string& hash, std::string_view bytes)
{
    if (bytes.size() <= std::tuple_size_v<Salt> || bytes.size() > fileBytesMax || nameOf(bytes) != hash) {
        return fail(Errc::Corrupt, "the attachment " + quotable(hash) + " was altered on its way");
    }
    return file(hash) ? Done() : place(hash, bytes); // to place it anew might fail, and cost the one that is there
}

Result<std::string> AttachmentFolder::read(const std::string& hash) const
{
    return file(hash).transform([](const std::string& bytes) { return bytes.substr(std::tuple_size_v<Salt>); });
}

Done AttachmentFolder::remove(const std::string& hash)
{
    return mustBeName(hash).and_then([&] { return disk_->remove(fileOf(hash)); }).and_then([&] {
        Done synced = disk_->syncFolder(path_);
        return !synced && synced.error().code == Errc::NotFound ? Done() : synced;
    });
}

Result<std::vector<std::string>> AttachmentFolder::hashes() const
{
    return disk_->list(path_).transform([](std::vector<std::string> names) {
        std::erase_if(names, [](const std::string& name) { return !run::isAttachmentHash(name); });
        return names;
    });
}

bool AttachmentFolder::lacks(const std::string& hash) const
{
    const auto bytes = file(hash);
    return !bytes && (bytes.error().code == Errc::NotFound || bytes.error().code == Errc::Corrupt);
}

Result<std::size_t> AttachmentFolder::takeFrom(const AttachmentFolder& from, const std::set<std::string>& without)
{
    const auto theirs = from.hashes();
    const auto ours = hashes();
    if (!theirs || !ours) {
        return fail(theirs ? ours.error() : theirs.error());
    }
    for (const std::string& hash : *ours) {
        if (const Done removed = without.contains(hash) ? remove(hash) : Done(); !removed) {
            return fail(removed.error());
        }
    }
    std::size_t taken = 0;
    for (const std::string& hash : *theirs) {
        const bool isWanted = !without.contains(hash) && lacks(hash);
        const auto bytes = isWanted ? from.file(hash) : Result<std::string>(std::string());
        if (!isWanted || !bytes) {
            continue;
        }
        if (const Done placed = place(hash, *bytes); !placed) {
            return fail(placed.error());
        }
        ++taken;
    }
    return taken;
}

std::set<std::string> withdrawnIn(const run::State& state)
{
    std::set<std::string> withdrawn;
    std::set<std::string> standing;
    for (const auto& [id, run] : state.runs) {
        for (const run::Attachment& attachment : run::attachmentsOf(run)) {
            (attachment.withdrawn ? withdrawn : standing).insert(attachment.added.hash);
        }
    }
    std::erase_if(withdrawn, [&](const std::string& hash) { return standing.contains(hash); });
    return withdrawn;
}

AttachmentsChecked checkAttachments(const run::State& state, const AttachmentFolder& folder)
{
    AttachmentsChecked checked;
    const auto there = folder.hashes();
    if (!there) {
        checked.faults.push_back(there.error().sentence);
        return checked;
    }
    std::set<std::string> unknown(there->begin(), there->end());
    const std::set<std::string> withdrawn = withdrawnIn(state);
    for (const auto& [id, run] : state.runs) {
        for (const run::Attachment& attachment : run::attachmentsOf(run)) {
            const std::string& hash = attachment.added.hash;
            const bool isThere = unknown.erase(hash) > 0;
            if (attachment.withdrawn) {
                if (isThere && withdrawn.contains(hash)) {
                    checked.leftovers.push_back(hash);
                }
                continue;
            }
            const std::string which = "the " + std::string(run::nameOf(attachment.added.kind)) + " " + hash
                + " of the run " + toText(run.id) + " on " + quotable(run.setup.tank.name);
            const auto content = folder.read(hash);
            if (content) {
                ++checked.whole;
            } else if (content.error().code == Errc::NotFound) {
                checked.faults.push_back(which + " is missing");
            } else if (content.error().code == Errc::Corrupt) {
                checked.faults.push_back(which + " was altered since it was kept");
            } else {
                checked.faults.push_back(which + " cannot be read: " + content.error().sentence);
            }
        }
    }
    checked.orphans.assign(unknown.begin(), unknown.end());
    return checked;
}

} // namespace loopside::store
