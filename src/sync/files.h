// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The files of attachments (pictures, drawings, sounds) on their way to the hub, behind the entries that name them.
// First a list of those that a tablet has, to which the hub answers with those of them that it wants; then each by
// itself. Laid out in schema/wire/README.md, section 8.

#pragma once

#include "base/result.h"
#include "ledger/entry.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::sync {

/// Where a list goes; a file goes to a path of its own behind it.
inline constexpr std::string_view filesPath = "/v1/files";

/// Most files in one list.
inline constexpr std::size_t filesListedMost = 512;

/// Most bytes of a file: its salt and the content of an attachment.
inline constexpr std::size_t fileBytesMax = 300'032;

/// A file, by the place of the entry that names it.
struct FilePlace
{
    Id chain = {};
    std::uint64_t sequence = 0;

    friend bool operator==(const FilePlace&, const FilePlace&) = default;
};

using FileList = std::vector<FilePlace>;

[[nodiscard]] std::string bytesOf(const FileList& files);

/// What `bytesOf` wrote. Incompatible for a newer version, Malformed for anything else and for a list that is too long.
[[nodiscard]] Result<FileList> fileListFrom(std::string_view bytes);

/// The path that the file at `place` is sent to, and the place that such a path names.
[[nodiscard]] std::string pathOf(const FilePlace& place);
[[nodiscard]] std::optional<FilePlace> filePlaceIn(std::string_view path);

/// The name (SHA-256, hexadecimal digits) of the file that `entry` adds; nothing if it adds none.
[[nodiscard]] std::optional<std::string> fileNamedBy(const ledger::Entry& entry);

/// The entry whose attachment `entry` withdraws; nothing if it withdraws none.
[[nodiscard]] std::optional<Id> withdrawnBy(const ledger::Entry& entry);

/// Whether `file` is the one that `entry` adds: Conflict if that adds none, OutOfRange if it is too long, Corrupt if it
/// is another one.
[[nodiscard]] Done mayKeep(const ledger::Entry& entry, std::string_view file);

} // namespace loopside::sync
