// SPDX-FileCopyrightText: The Loopside authors
// SPDX-License-Identifier: GPL-3.0-or-later

// The files that entries of a journal point to: pictures, drawings, sounds. They stand in a folder beside the journal,
// each named by the SHA-256 of its bytes: 32 random bytes (the salt), then the content. The name is all that the
// journal knows, so a file that was altered shows, and once a file is gone nobody can tell from the journal what it was
// or whether it was this or that.
//
// A file is kept whole before the entry that names it is written: an entry never points to a file that a power cut may
// take. The other way round, a file without an entry, can happen; it is harmless, is told, and is left alone.

#pragma once

#include "run/state.h"
#include "store/disk.h"

#include <array>
#include <cstdint>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace loopside::store {

using Salt = std::array<std::uint8_t, 32>;

class AttachmentFolder
{
public:
    /// The folder `path`, which need not be there yet. `disk` outlives it.
    explicit AttachmentFolder(std::string path, Disk& disk = systemDisk());

    /// That of the journal `path`.
    [[nodiscard]] static AttachmentFolder besideJournal(const std::string& path, Disk& disk = systemDisk());
    /// That in a folder of backups.
    [[nodiscard]] static AttachmentFolder inBackups(const std::string& folder, Disk& disk = systemDisk());

    /// Keeps `content` and returns the name of its file once that would survive a power cut. OutOfRange for nothing at
    /// all and for more than `run::attachmentBytesMax`; Io, with no file under any final name but perhaps one that
    /// nobody points to, if the disk says no. `salt` is fresh from a random source.
    [[nodiscard]] Result<std::string> keep(std::string_view content, const Salt& salt);

    /// The content of the file `hash`, as it was kept. NotFound if it is not there, Corrupt if it was altered,
    /// Malformed for what is no name of an attachment.
    [[nodiscard]] Result<std::string> read(const std::string& hash) const;

    /// The same with the salt in front: the file itself, to be carried elsewhere.
    [[nodiscard]] Result<std::string> file(const std::string& hash) const;

    /// Keeps the file `hash` that was carried here, as by `keep`. Corrupt if that is not the name of `bytes`.
    [[nodiscard]] Done keepFile(const std::string& hash, std::string_view bytes);

    /// Removes the file `hash`, if it is there, and returns when that would survive a power cut. Malformed, with
    /// nothing removed, for what is no name of an attachment.
    [[nodiscard]] Done remove(const std::string& hash);

    /// The names of all files in it that are named as attachments are.
    [[nodiscard]] Result<std::vector<std::string>> hashes() const;

    /// Copies what `from` has and this folder has not, or has altered; each file is checked and kept as by `keep`; how
    /// many. Reads every file that both have. Files of `from` that are not whole are passed over. `without` are not
    /// copied, and removed here if they are there.
    [[nodiscard]] Result<std::size_t> takeFrom(const AttachmentFolder& from, const std::set<std::string>& without = {});

    [[nodiscard]] const std::string& path() const { return path_; }

private:
    [[nodiscard]] Done place(const std::string& hash, std::string_view bytes);
    [[nodiscard]] bool lacks(const std::string& hash) const;
    [[nodiscard]] std::string fileOf(const std::string& hash) const { return path_ + "/" + hash; }

    std::string path_;
    Disk* disk_;
};

/// What a journal says of its attachments, beside what is in the folder.
struct AttachmentsChecked
{
    std::size_t whole = 0;              ///< Files that are there as they were kept.
    std::vector<std::string> faults;    ///< In plain sentences: missing, altered, cannot be read.
    std::vector<std::string> orphans;   ///< Names of files that no entry points to.
    std::vector<std::string> leftovers; ///< Names of files whose attachments were withdrawn.
};

[[nodiscard]] AttachmentsChecked checkAttachments(const run::State& state, const AttachmentFolder& folder);

/// The files of all attachments that were withdrawn, but for files that others of them still point to.
[[nodiscard]] std::set<std::string> withdrawnIn(const run::State& state);

} // namespace loopside::store
