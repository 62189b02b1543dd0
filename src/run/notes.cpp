// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

#include "run/notes.h"

#include "base/text.h"

#include <algorithm>
#include <array>

namespace loopside::run {

namespace {

constexpr std::array<std::string_view, 5> mediaTypes = {"image/png", "image/jpeg", "audio/ogg", "audio/wav",
                                                        "application/pdf"};

Error refused(std::string sentence, std::string id, std::vector<Message::Argument> arguments = {})
{
    return {Errc::OutOfRange, std::move(sentence), {std::move(id), std::move(arguments)}};
}

std::string kilobytes(std::int64_t bytes)
{
    return std::to_string(bytes / 1000) + " kB";
}

} // namespace

std::vector<Attachment> attachmentsOf(const RunState& run)
{
    std::vector<Attachment> found;
    for (const Fact& fact : run.facts) {
        if (const auto* added = std::get_if<AttachmentAdded>(&fact.effective)) {
            found.push_back({fact.header.id, fact.header.person, fact.seen, *added, {}});
            if (fact.struck) {
                found.back().withdrawn = Withdrawal{};
            }
        }
        const auto* withdrawn = std::get_if<AttachmentWithdrawn>(&fact.effective);
        const auto which = withdrawn == nullptr ? found.end()
                                                : std::ranges::find(found, withdrawn->of, &Attachment::entry);
        if (which != found.end() && !which->withdrawn) {
            which->withdrawn = Withdrawal{withdrawn->why, fact.header.person, fact.seen};
        }
    }
    return found;
}

bool isTaken(const RunState& run, const AttachmentAdded& added)
{
    bool isGone = false;
    bool isThere = false;
    for (const Attachment& known : attachmentsOf(run)) {
        if (known.added.hash == added.hash) {
            isGone = isGone || known.withdrawn;
            isThere = isThere || !known.withdrawn;
            if (!known.withdrawn && known.added.of == added.of) {
                return true;
            }
        }
    }
    return isGone && !isThere;
}

std::vector<Note> notesOf(const RunState& run)
{
    std::vector<Note> notes;
    for (const Fact& fact : run.facts) {
        const auto* noted = std::get_if<Noted>(&fact.effective);
        if (noted != nullptr && !fact.struck) {
            notes.push_back({fact.header.id, fact.header.person, fact.seen, noted->of, noted->text});
        }
    }
    return notes;
}

std::size_t notedOf(const RunState& run, const Id& of)
{
    const auto notes = notesOf(run);
    const auto attachments = attachmentsOf(run);
    return static_cast<std::size_t>(std::ranges::count(notes, of, &Note::of)
                                    + std::ranges::count_if(attachments, [&](const Attachment& one) {
                                          return one.added.of == of && !one.withdrawn;
                                      }));
}

bool isWithdrawn(const RunState& run, const Id& attachment)
{
    return std::ranges::any_of(attachmentsOf(run),
                               [&](const Attachment& one) { return one.entry == attachment && one.withdrawn; });
}

std::optional<Error> faultIn(const AttachmentAdded& added)
{
    if (!isAttachmentHash(added.hash)) {
        return refused("an attachment is named by the 64 hexadecimal digits of its hash", "refused.attachment-hash");
    }
    if (added.bytes < 1 || added.bytes > attachmentBytesMax) {
        const std::string most = kilobytes(attachmentBytesMax);
        return refused("an attachment has 1 byte to " + most + ", not " + std::to_string(added.bytes) + " bytes",
                       "refused.attachment-bytes", {{"most", most}});
    }
    if (!isKnownMediaType(added.mediaType)) {
        return refused("\"" + quotable(added.mediaType) + "\" cannot be attached", "refused.attachment-type");
    }
    return faultInNote(added.caption);
}

std::optional<Error> faultInNote(std::string_view text)
{
    if (text.size() <= noteBytesMax) {
        return std::nullopt;
    }
    const std::string most = kilobytes(noteBytesMax);
    return refused("a note or a caption has at most " + most + ", not " + std::to_string(text.size()) + " bytes",
                   "refused.note-bytes", {{"most", most}});
}

bool isAttachmentHash(std::string_view text)
{
    std::array<std::uint8_t, 32> bytes = {};
    return fromHex(text, bytes) && text == toHex(bytes);
}

bool isKnownMediaType(std::string_view mediaType)
{
    return std::ranges::find(mediaTypes, mediaType) != mediaTypes.end();
}

} // namespace loopside::run
