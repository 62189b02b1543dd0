// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// Notes and attachments of a run: pictures, drawings, sounds, about the run or about one of its entries.

#pragma once

#include "run/state.h"

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace loopside::run {

/// An attachment's content has at most this many bytes, so that a journal with pictures still goes over any line.
inline constexpr std::int64_t attachmentBytesMax = 300'000;

/// A note has at most this many bytes, and so has the caption of an attachment.
inline constexpr std::size_t noteBytesMax = 4000;

struct Withdrawal
{
    std::string why;
    Id person = {};
    RunTime at{0};
};

struct Attachment
{
    Id entry = {}; ///< The one that added it.
    Id person = {};
    RunTime at{0};
    AttachmentAdded added;
    /// The first that was said; it stands even if it was struck, for the file is gone. An attachment that was struck
    /// counts as withdrawn without a reason. This version strikes neither (decide.h).
    std::optional<Withdrawal> withdrawn = {};
};

/// All attachments of `run`, withdrawn ones too, in fold order.
[[nodiscard]] std::vector<Attachment> attachmentsOf(const RunState& run);

/// Whether `added` cannot be told of: its file is attached to the same entry (or to the run) already, or went with a
/// withdrawal. One file may be attached to several entries.
[[nodiscard]] bool isTaken(const RunState& run, const AttachmentAdded& added);

/// One line of what was noted of a run.
struct Note
{
    Id entry = {};
    Id person = {};
    RunTime at{0};
    Id of = {};
    std::string text;
};

/// The notes of `run` that stand, as amended, in fold order.
[[nodiscard]] std::vector<Note> notesOf(const RunState& run);

/// How much stands noted of the entry `of`: notes, and attachments that were not withdrawn.
[[nodiscard]] std::size_t notedOf(const RunState& run, const Id& of);

/// Whether the entry `attachment` added something that was withdrawn.
[[nodiscard]] bool isWithdrawn(const RunState& run, const Id& attachment);

/// Why an attachment cannot be told of: no hash, nothing in it or too much, no media type that is known, a caption that
/// is too long.
[[nodiscard]] std::optional<Error> faultIn(const AttachmentAdded& added);

/// Why a note cannot be kept: more than `noteBytesMax`. Nothing is cut.
[[nodiscard]] std::optional<Error> faultInNote(std::string_view text);

/// Whether `text` is 64 hexadecimal digits in lower case, as a file of an attachment is named.
[[nodiscard]] bool isAttachmentHash(std::string_view text);

/// The media types that can be attached: image/png, image/jpeg, audio/ogg, audio/wav, application/pdf.
[[nodiscard]] bool isKnownMediaType(std::string_view mediaType);

} // namespace loopside::run
