// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "cli/commands.h"
#include "cli/files.h"
#include "ledger/fold_check.h"
#include "store/attachment_folder.h"
#include "words/record_told.h"

#include <algorithm>
#include <fstream>

namespace loopside::cli {

namespace {

std::string endingOf(const std::string& mediaType)
{
    return mediaType == "image/jpeg" ? ".jpg"
        : mediaType == "image/png"   ? ".png"
        : mediaType == "audio/ogg"   ? ".ogg"
                                     : ".wav";
}

/// Writes each run's lines, in the order in which they were seen.
class Teller
{
public:
    Teller(const NotesOptions& options, const words::Words& words, std::ostream& out)
        : options_{options}, words_{words}, folder_{store::AttachmentFolder::besideJournal(options.journal)}, out_{out}
    {
    }

    Done tell(const run::RunState& run)
    {
        out_ << run.setup.tank.name << ", " << run.setup.cart.name << ", " << toText(run.id) << '\n';
        const auto notes = run::notesOf(run);
        const auto attachments = run::attachmentsOf(run);
        for (const run::Fact& fact : run.facts) {
            if (const auto* checked = std::get_if<run::CheckAnswered>(&fact.effective)) {
                line(fact, words::checkLine(words_, *checked));
            }
            const auto note = std::ranges::find(notes, fact.header.id, &run::Note::entry);
            if (note != notes.end()) {
                line(fact, words::noteLine(words_, *note, run));
            }
            const auto attachment = std::ranges::find(attachments, fact.header.id, &run::Attachment::entry);
            if (attachment == attachments.end()) {
                continue;
            }
            line(fact, words::attachmentLine(words_, *attachment));
            if (const Done saved = save(*attachment); !saved) {
                return saved;
            }
        }
        return {};
    }

private:
    void line(const run::Fact& fact, const std::string& text)
    {
        if (!text.empty()) {
            out_ << "  " << words::runTimeText(fact.seen) << "  " << text << '\n';
        }
    }

    Done save(const run::Attachment& attachment)
    {
        if (attachment.withdrawn) {
            return {};
        }
        const auto content = folder_.read(attachment.added.hash);
        if (!content) {
            out_ << "           " << whyUnread(attachment, content.error()) << '\n';
            return {};
        }
        if (options_.to.empty()) {
            return {};
        }
        const std::string path = options_.to + "/" + attachment.added.hash.substr(0, 16)
            + endingOf(attachment.added.mediaType);
        std::ofstream file(path, std::ios::binary | std::ios::trunc);
        file << *content;
        if (!file.flush()) {
            return fail(Errc::Io, path + " cannot be written: see that its folder is there and may be written to");
        }
        out_ << "           " << path << '\n';
        return {};
    }

    [[nodiscard]] std::string whyUnread(const run::Attachment& attachment, const Error& error) const
    {
        const bool isMissing = error.code == Errc::NotFound;
        if (!isMissing && error.code != Errc::Corrupt) {
            return words_.say(error);
        }
        const std::string kind = words_.say("attachment." + std::string(run::nameOf(attachment.added.kind)));
        return words_.say({isMissing ? "attachment.missing" : "attachment.altered", {{"kind", kind}}});
    }

    const NotesOptions& options_;
    const words::Words& words_;
    store::AttachmentFolder folder_;
    std::ostream& out_;
};

} // namespace

Done notes(const NotesOptions& options, std::ostream& out)
{
    const auto words = words::Words::in(options.language);
    const auto journal = words ? openExisting(options.journal) : fail(words.error());
    if (!journal) {
        return fail(journal.error());
    }
    Teller teller(options, *words, out);
    return ledger::foldByRun(**journal, [&](run::RunState& run) { return teller.tell(run); })
        .transform([](const ledger::FoldedByRun&) {});
}

} // namespace loopside::cli
